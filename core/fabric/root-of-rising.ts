/**
 * Where a rising function passes 0: false position with the stale end's value halved (Illinois), which cannot leave the
 * bracket; the bracket is widened first where it does not hold the root.
 *
 * @param tolerance - Of the place.
 * @returns The end of the (widened) bracket nearest to 0 where the function does not change sign.
 * @see Dowell & Jarratt, BIT 11 (1971) 168.
 */
export function rootOfRising(
  rising: (at: number) => number,
  bracket: { readonly low: number; readonly high: number },
  tolerance: number,
): number {
  const ends = widened(rising, bracket, tolerance);
  if (!(ends.atLow < 0)) return ends.low;
  if (!(ends.atHigh > 0)) return ends.high;
  let stale = 0;
  for (let i = 0; i < 200 && ends.high - ends.low > tolerance; i++) {
    const { low, high, atLow, atHigh } = ends;
    const guess = (low * atHigh - high * atLow) / (atHigh - atLow);
    // Kept off the ends, so that the bracket closes from both sides.
    const at = Math.min(Math.max(guess, low + 0.25 * tolerance), high - 0.25 * tolerance);
    const value = rising(at);
    if (value < 0) {
      ends.low = at;
      ends.atLow = value;
      if (stale < 0) ends.atHigh /= 2;
      stale = -1;
    } else {
      ends.high = at;
      ends.atHigh = value;
      if (stale > 0) ends.atLow /= 2;
      stale = 1;
    }
  }
  return (ends.low + ends.high) / 2;
}

interface Ends {
  low: number;
  high: number;
  atLow: number;
  atHigh: number;
}

/** The bracket, made wider at an end beyond which the root lies. */
function widened(
  rising: (at: number) => number,
  { low, high }: { readonly low: number; readonly high: number },
  tolerance: number,
): Ends {
  const ends = { low, high, atLow: rising(low), atHigh: rising(high) };
  for (let i = 0; i < 40 && ends.atLow > 0; i++) {
    ends.low -= 2 * (ends.high - ends.low) + tolerance;
    ends.atLow = rising(ends.low);
  }
  for (let i = 0; i < 40 && ends.atHigh < 0; i++) {
    ends.high += 2 * (ends.high - ends.low) + tolerance;
    ends.atHigh = rising(ends.high);
  }
  return ends;
}
