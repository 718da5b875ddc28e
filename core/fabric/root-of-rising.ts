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
  let { low, high } = bracket;
  let atLow = rising(low);
  let atHigh = rising(high);
  for (let i = 0; i < 40 && atLow > 0; i++) {
    low -= 2 * (high - low) + tolerance;
    atLow = rising(low);
  }
  for (let i = 0; i < 40 && atHigh < 0; i++) {
    high += 2 * (high - low) + tolerance;
    atHigh = rising(high);
  }
  if (!(atLow < 0)) return low;
  if (!(atHigh > 0)) return high;
  let stale = 0;
  for (let i = 0; i < 200 && high - low > tolerance; i++) {
    const guess = (low * atHigh - high * atLow) / (atHigh - atLow);
    // Kept off the ends, so that the bracket closes from both sides.
    const at = Math.min(Math.max(guess, low + 0.25 * tolerance), high - 0.25 * tolerance);
    const value = rising(at);
    if (value === 0) return at;
    if (value < 0) {
      low = at;
      atLow = value;
      if (stale < 0) atHigh /= 2;
      stale = -1;
    } else {
      high = at;
      atHigh = value;
      if (stale > 0) atLow /= 2;
      stale = 1;
    }
  }
  return (low + high) / 2;
}
