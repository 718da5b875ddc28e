/** Measures that the fit body cannot take. */
export interface FitFaults {
  /** Outside what the base figure can be brought to. */
  'fit/measure-out-of-range': { measure: string; valueMm: number; lowestMm: number; highestMm: number };
  /** A stance or shape; `unit` is mm, deg or share. */
  'fit/shape-out-of-range': {
    parameter: string;
    unit: string;
    value: number;
    lowest: number;
    highest: number;
  };
  /** The size chart has no size of that name. */
  'fit/size-unknown': { size: string; chart: string; known: string };
  /** The size chart leaves out what a fit body cannot do without. */
  'fit/size-incomplete': { size: string; chart: string; measure: string };
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
