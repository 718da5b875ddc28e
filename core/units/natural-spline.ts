/**
 * Several curves over the same knots, each a C2 piecewise cubic whose curvature vanishes at both ends;
 * beyond the ends each keeps its last value.
 */
export interface NaturalSpline {
  /** Strictly rising; N. */
  readonly knots: Float64Array;
  readonly channelCount: number;
  /** Cubic in (at - knot), rising powers, per cell and channel; 4*C*(N-1). */
  readonly cubics: Float64Array;
  /** Values at the last knot; C. */
  readonly last: Float64Array;
}

/**
 * The natural cubic splines through the given rows.
 *
 * @param knots - Strictly rising, at least three; N.
 * @param rows - One value per knot and channel, knot after knot; N*C.
 * @see de Boor, A Practical Guide to Splines, 1978, ch. IV (free-end conditions).
 */
export function naturalSpline(knots: Float64Array, rows: Float64Array): NaturalSpline {
  const n = knots.length;
  const channelCount = rows.length / n;
  const cubics = new Float64Array(4 * channelCount * (n - 1));
  const values = new Float64Array(n);
  for (let c = 0; c < channelCount; c++) {
    for (let i = 0; i < n; i++) values[i] = rows[i * channelCount + c]!;
    const curvature = curvatures(knots, values);
    for (let i = 0; i < n - 1; i++) {
      const h = knots[i + 1]! - knots[i]!;
      const at = 4 * (i * channelCount + c);
      cubics[at] = values[i]!;
      cubics[at + 1] = (values[i + 1]! - values[i]!) / h - (h * (2 * curvature[i]! + curvature[i + 1]!)) / 6;
      cubics[at + 2] = curvature[i]! / 2;
      cubics[at + 3] = (curvature[i + 1]! - curvature[i]!) / (6 * h);
    }
  }
  return { knots, channelCount, cubics, last: rows.slice((n - 1) * channelCount) };
}

/**
 * Values and slopes of all channels at one place.
 *
 * @param values - C, overwritten.
 * @param slopes - C, overwritten.
 */
export function sampleSpline(
  spline: NaturalSpline,
  at: number,
  values: Float64Array,
  slopes: Float64Array,
): void {
  const { knots, channelCount, cubics, last } = spline;
  const n = knots.length;
  if (at >= knots[n - 1]!) {
    values.set(last);
    slopes.fill(0);
    return;
  }
  let i = 0;
  while (i < n - 2 && knots[i + 1]! <= at) i++;
  const before = at < knots[0]!;
  const t = before ? 0 : at - knots[i]!;
  let p = 4 * i * channelCount;
  for (let c = 0; c < channelCount; c++, p += 4) {
    const b = cubics[p + 1]!;
    const q = cubics[p + 2]!;
    const w = cubics[p + 3]!;
    values[c] = cubics[p]! + t * (b + t * (q + t * w));
    slopes[c] = before ? 0 : b + t * (2 * q + t * 3 * w);
  }
}

/** Second derivatives at the knots, zero at both ends, by elimination of the tridiagonal system. */
function curvatures(x: Float64Array, y: Float64Array): Float64Array {
  const n = x.length;
  const curvature = new Float64Array(n);
  const pivot = new Float64Array(n);
  for (let i = 1; i < n - 1; i++) {
    const before = x[i]! - x[i - 1]!;
    const after = x[i + 1]! - x[i]!;
    const jump = 6 * ((y[i + 1]! - y[i]!) / after - (y[i]! - y[i - 1]!) / before);
    const factor = i > 1 ? before / pivot[i - 1]! : 0;
    pivot[i] = 2 * (before + after) - factor * before;
    curvature[i] = jump - factor * curvature[i - 1]!;
  }
  for (let i = n - 2; i > 0; i--) {
    curvature[i] = (curvature[i]! - (x[i + 1]! - x[i]!) * curvature[i + 1]!) / pivot[i]!;
  }
  return curvature;
}
