/**
 * The rising sequence closest to the given values in weighted least squares (pool adjacent violators).
 *
 * @param weights - Positive, one per value; equal if left out.
 * @see Barlow, Bartholomew, Bremner & Brunk, Statistical Inference under Order Restrictions, 1972, section 1.2.
 */
export function isotonic(values: readonly number[], weights?: readonly number[]): number[] {
  const pools: { mean: number; weight: number; count: number }[] = [];
  for (const [i, value] of values.entries()) {
    let pool = { mean: value, weight: weights?.[i] ?? 1, count: 1 };
    for (let last = pools.at(-1); last !== undefined && last.mean > pool.mean; last = pools.at(-1)) {
      pools.pop();
      const weight = last.weight + pool.weight;
      pool = {
        mean: (last.mean * last.weight + pool.mean * pool.weight) / weight,
        weight,
        count: last.count + pool.count,
      };
    }
    pools.push(pool);
  }
  return pools.flatMap(({ mean, count }) => new Array<number>(count).fill(mean));
}
