/** A C1 piecewise cubic through knots; straight beyond both ends. */
export interface MonotoneCubic {
  /** Knots, strictly rising. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Slope at each knot. */
  readonly slope: Float64Array;
}

/**
 * The monotone cubic through the given knots: it rises only where the data rise.
 *
 * Interior slopes are the weighted harmonic mean of the neighbouring secants; ends are three-point, limited.
 *
 * @param x - Knots, strictly rising, at least two.
 * @param y - One value per knot.
 * @see Fritsch & Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300.
 */
export function monotoneCubic(x: ArrayLike<number>, y: ArrayLike<number>): MonotoneCubic {
  const n = x.length;
  const xs = Float64Array.from(x);
  const ys = Float64Array.from(y);
  const slope = new Float64Array(n);
  if (n === 2) {
    slope.fill((ys[1]! - ys[0]!) / (xs[1]! - xs[0]!));
    return { x: xs, y: ys, slope };
  }
  for (let i = 1; i < n - 1; i++) {
    const before = xs[i]! - xs[i - 1]!;
    const after = xs[i + 1]! - xs[i]!;
    const left = (ys[i]! - ys[i - 1]!) / before;
    const right = (ys[i + 1]! - ys[i]!) / after;
    if (left * right > 0) {
      const w1 = 2 * after + before;
      const w2 = after + 2 * before;
      slope[i] = (w1 + w2) / (w1 / left + w2 / right);
    }
  }
  slope[0] = endSlope(
    xs[1]! - xs[0]!,
    xs[2]! - xs[1]!,
    (ys[1]! - ys[0]!) / (xs[1]! - xs[0]!),
    (ys[2]! - ys[1]!) / (xs[2]! - xs[1]!),
  );
  slope[n - 1] = endSlope(
    xs[n - 1]! - xs[n - 2]!,
    xs[n - 2]! - xs[n - 3]!,
    (ys[n - 1]! - ys[n - 2]!) / (xs[n - 1]! - xs[n - 2]!),
    (ys[n - 2]! - ys[n - 3]!) / (xs[n - 2]! - xs[n - 3]!),
  );
  return { x: xs, y: ys, slope };
}

/** Value of the curve at `at`; linear beyond the knots. */
export function valueAt(curve: MonotoneCubic, at: number): number {
  const { x, y, slope } = curve;
  const last = x.length - 1;
  if (at <= x[0]!) return y[0]! + slope[0]! * (at - x[0]!);
  if (at >= x[last]!) return y[last]! + slope[last]! * (at - x[last]!);
  const i = cellOf(x, at);
  const h = x[i + 1]! - x[i]!;
  const t = (at - x[i]!) / h;
  const s = 1 - t;
  return (
    s * s * (1 + 2 * t) * y[i]! +
    t * t * (3 - 2 * t) * y[i + 1]! +
    h * t * s * (s * slope[i]! - t * slope[i + 1]!)
  );
}

/** Slope of the curve at `at`; constant beyond the knots. */
export function slopeAt(curve: MonotoneCubic, at: number): number {
  const { x, y, slope } = curve;
  const last = x.length - 1;
  if (at <= x[0]!) return slope[0]!;
  if (at >= x[last]!) return slope[last]!;
  const i = cellOf(x, at);
  const h = x[i + 1]! - x[i]!;
  const t = (at - x[i]!) / h;
  const secant = (y[i + 1]! - y[i]!) / h;
  return 6 * t * (1 - t) * secant + (1 - t) * (1 - 3 * t) * slope[i]! + t * (3 * t - 2) * slope[i + 1]!;
}

/** Index of the cell [x_i, x_i+1) that holds `at`, by bisection. */
function cellOf(x: Float64Array, at: number): number {
  let low = 0;
  let high = x.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (x[middle]! <= at) low = middle;
    else high = middle;
  }
  return low;
}

/** Three-point end slope, kept to the sign of the first secant and at most three times its size. */
function endSlope(h0: number, h1: number, d0: number, d1: number): number {
  const slope = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
  if (slope * d0 <= 0) return 0;
  if (d0 * d1 <= 0 && Math.abs(slope) > 3 * Math.abs(d0)) return 3 * d0;
  return slope;
}
