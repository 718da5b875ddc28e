/** What a worn garment leaves in doubt. */
export interface WornFindings {
  /** The search for rest ended before the forces balanced. */
  'worn/not-at-rest': { residual: number; tolerance: number };
  'worn/return-not-measured': { fabric: string };
  'worn/beyond-readings': { sharePercent: number };
  'worn/slack': { sharePercent: number };
  'worn/off-skin': { sharePercent: number; largestGapMm: number };
  'worn/frictionless': { shiftMm: number };
}
