/** What a fit body leaves in doubt. */
export interface FitFindings {
  /** Girths that were not given, comma-separated. */
  'fit/girths-estimated': { girths: string };
}
