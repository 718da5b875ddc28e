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

/**
 * Pooled forces, which isotonic regression leaves level, tilted to half the slope between the pool's neighbours: a
 * level force would be a fabric about to give way, which a repaired reading is no evidence of.
 */
export function tilted(forces: readonly number[], extensions: readonly number[]): number[] {
  const result = [...forces];
  for (let first = 0; first < forces.length;) {
    let last = first;
    while (last + 1 < forces.length && forces[last + 1] === forces[first]) last++;
    if (last > first) {
      const before =
        first > 0 ? { at: extensions[first - 1]!, force: forces[first - 1]! } : { at: 0, force: 0 };
      const level = forces[first]!;
      const afterAt = extensions[last + 1] ?? extensions[last]!;
      const afterForce = forces[last + 1] ?? level + (level - before.force) / 2;
      const middle = (extensions[first]! + extensions[last]!) / 2;
      const half = (extensions[last]! - extensions[first]!) / 2;
      const slope = Math.min(
        (afterForce - before.force) / (2 * (afterAt - before.at)),
        (0.9 * (level - before.force)) / half,
        (0.9 * (afterForce - level)) / half,
      );
      for (let i = first; i <= last; i++) result[i] = level + slope * (extensions[i]! - middle);
    }
    first = last + 1;
  }
  return result;
}
