/** One reading of one specimen. */
export interface CurvePoint {
  readonly extension: number;
  readonly value: number;
}

/**
 * Weight of the third differences of the knots' values against the points per knot. 1 evens out waves shorter than
 * about six knots; a parabola passes unchanged whatever the weight, so that the sweep of a force curve is not flattened.
 */
const EVENNESS = 1;
/** Where no point lies near, third differences alone decide; this keeps the matrix sound even then. */
const LEAST_WEIGHT = 1e-9;
/** Third differences reach three knots on. */
const REACH = 3;

/**
 * The even broken line with given knots that comes closest to many points: least squares of the points, with third
 * differences of the knots' values kept small. Plain means of bins would lie half a bin off at both ends.
 *
 * @param knots - Rising, evenly spaced, at least four. Points outside them are left out.
 * @see Eilers & Marx, Statistical Science 11 (1996) 89 (penalised splines; here of first degree).
 */
export function brokenLine(points: readonly CurvePoint[], knots: readonly number[]): CurvePoint[] {
  const n = knots.length;
  const start = knots[0]!;
  const step = (knots[n - 1]! - start) / (n - 1);
  if (!(step > 0)) return knots.map((extension) => ({ extension, value: points.at(-1)!.value }));
  // Symmetric matrix by diagonals: bands[k][i] stands at row i, column i + k.
  const bands = Array.from({ length: REACH + 1 }, () => new Float64Array(n));
  const right = new Float64Array(n);
  for (const { extension, value } of points) {
    const position = (extension - start) / step;
    if (position < -1e-9 || position > n - 1 + 1e-9) continue;
    const cell = Math.min(Math.max(Math.floor(position), 0), n - 2);
    const t = position - cell;
    const s = 1 - t;
    bands[0]![cell]! += s * s;
    bands[0]![cell + 1]! += t * t;
    bands[1]![cell]! += s * t;
    right[cell]! += s * value;
    right[cell + 1]! += t * value;
  }
  addThirdDifferences(bands, (EVENNESS * points.length) / n);
  solveBanded(bands, right);
  return knots.map((extension, i) => ({ extension, value: right[i]! }));
}

/** Adds weight * (v[i+3] - 3 v[i+2] + 3 v[i+1] - v[i])^2 for every i. */
function addThirdDifferences(bands: readonly Float64Array[], weight: number): void {
  const stencil = [-1, 3, -3, 1];
  const n = bands[0]!.length;
  for (let i = 0; i < n; i++) bands[0]![i]! += LEAST_WEIGHT * weight;
  for (let i = 0; i + REACH < n; i++) {
    for (let a = 0; a <= REACH; a++) {
      for (let b = a; b <= REACH; b++) bands[b - a]![i + a]! += weight * stencil[a]! * stencil[b]!;
    }
  }
}

/** Solves in place by elimination without pivots: the matrix is positive definite. */
function solveBanded(bands: readonly Float64Array[], right: Float64Array): void {
  const n = right.length;
  for (let i = 0; i < n; i++) {
    for (let k = 1; k <= REACH && i + k < n; k++) {
      const share = bands[k]![i]! / bands[0]![i]!;
      for (let m = k; m <= REACH && i + m < n; m++) bands[m - k]![i + k]! -= share * bands[m]![i]!;
      right[i + k]! -= share * right[i]!;
    }
  }
  for (let i = n - 1; i >= 0; i--) {
    let rest = right[i]!;
    for (let k = 1; k <= REACH && i + k < n; k++) rest -= bands[k]![i]! * right[i + k]!;
    right[i] = rest / bands[0]![i]!;
  }
}
