/** Measures that the fit body cannot take. */
export interface FitFaults {
  /** Outside what the base figure can be brought to. */
  'fit/measure-out-of-range': { measure: string; valueMm: number; lowestMm: number; highestMm: number };
  /** The bust must be larger than the girth below it by what the smallest and largest cup allow. */
  'fit/bust-against-underbust': {
    bustMm: number;
    underbustMm: number;
    leastDifferenceMm: number;
    mostDifferenceMm: number;
  };
  /** The search ended and this girth is still off. */
  'fit/girth-not-met': { measure: string; askedMm: number; reachedMm: number };
}
