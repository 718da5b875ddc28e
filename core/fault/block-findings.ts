/** A rise that does not go with the side seam: how far the waist would stand up or dip at that centre. */
interface RiseOff {
  side: 'front' | 'back';
  riseMm: number;
  sideMm: number;
  offMm: number;
  fitsMm: number;
}

/** An inseam that does not go with the side seam: how far off the body's the crotch would lie. */
interface InseamOff {
  inseamMm: number;
  sideMm: number;
  offMm: number;
  fitsMm: number;
}

/** What a pattern cutter would say of a spec sheet on this body. */
export interface BlockFindings {
  'block/girth-loose': { level: string; relaxedMm: number; bodyMm: number };
  'block/rise-long': RiseOff;
  'block/rise-short': RiseOff;
  'block/crotch-low': InseamOff;
  'block/crotch-high': InseamOff;
  'block/hem-below-knee': { hemMm: number; kneeMm: number; inseamMm: number; fitsMm: number };
}
