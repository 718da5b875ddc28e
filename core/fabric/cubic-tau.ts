/** A cubic is kept while its relative misses (root mean square) stay below this. */
const MISS_TO_KEEP = 0.05;

/**
 * tau = a1 x + a2 x^2 + a3 x^3 by least squares on relative misses.
 *
 * @returns Null where the cubic falls or misses too much; else with its relative miss (root mean square).
 */
export function cubicTau(
  x: readonly number[],
  tau: readonly number[],
): { tau: (x: number) => number; residual: number } | null {
  const rows = x.map((at, i) => [at / tau[i]!, at ** 2 / tau[i]!, at ** 3 / tau[i]!]);
  const [a1, a2, a3] = leastSquares(rows);
  const cubic = (at: number): number => at * (a1! + at * (a2! + at * a3!));
  const residual = Math.sqrt(x.reduce((sum, at, i) => sum + (cubic(at) / tau[i]! - 1) ** 2, 0) / x.length);
  const last = x.at(-1)!;
  for (let i = 0; i <= 50; i++) {
    const at = (i / 50) * last;
    if (!(a1! + at * (2 * a2! + 3 * a3! * at) > 0)) return null;
  }
  return residual <= MISS_TO_KEEP ? { tau: cubic, residual } : null;
}

/** Coefficients a with sum over rows of (row . a - 1)^2 least, by elimination of the normal equations. */
function leastSquares(rows: readonly (readonly number[])[]): number[] {
  const n = rows[0]!.length;
  const normal = Array.from({ length: n }, (_, i) => [
    ...Array.from({ length: n }, (_, j) => rows.reduce((sum, row) => sum + row[i]! * row[j]!, 0)),
    rows.reduce((sum, row) => sum + row[i]!, 0),
  ]);
  for (let pivot = 0; pivot < n; pivot++) {
    for (let i = 0; i < n; i++) {
      if (i === pivot) continue;
      const share = normal[i]![pivot]! / normal[pivot]![pivot]!;
      for (let j = pivot; j <= n; j++) normal[i]![j] = normal[i]![j]! - share * normal[pivot]![j]!;
    }
  }
  return normal.map((row, i) => row[n]! / row[i]!);
}
