/** What a fit body leaves in doubt. */
export interface FitFindings {
  /** Girths that were not given, comma-separated. */
  'fit/girths-estimated': { girths: string };
  /** A tape round the finished skin reads otherwise than was asked: the arms' roots lie in its way. */
  'fit/tape-differs': { measure: string; askedMm: number; tapeMm: number };
}
