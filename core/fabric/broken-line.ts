import type { CurvePoint } from './mean-of-repeats.ts';

/** Weight of the bends against the points: only where a cell holds no point does it decide. */
const BEND_WEIGHT = 1e-6;

/**
 * The broken line with given knots that comes closest to many points (least squares); knots without points near them
 * go on straight. Even a record with much noise gives one steady value per knot, ends included, where plain means of
 * bins would lie half a bin off.
 *
 * @param knots - Rising, evenly spaced, at least three. Points outside them are left out.
 */
export function brokenLine(points: readonly CurvePoint[], knots: readonly number[]): CurvePoint[] {
  const n = knots.length;
  const start = knots[0]!;
  const step = (knots[n - 1]! - start) / (n - 1);
  if (!(step > 0)) return knots.map((extension) => ({ extension, value: points.at(-1)!.value }));
  // Normal equations, symmetric of band two: diagonal, first and second off-diagonal.
  const band = [new Float64Array(n), new Float64Array(n), new Float64Array(n)] as const;
  const right = new Float64Array(n);
  let counted = 0;
  for (const { extension, value } of points) {
    const position = (extension - start) / step;
    if (position < -1e-9 || position > n - 1 + 1e-9) continue;
    const cell = Math.min(Math.max(Math.floor(position), 0), n - 2);
    const t = position - cell;
    const s = 1 - t;
    band[0][cell]! += s * s;
    band[0][cell + 1]! += t * t;
    band[1][cell]! += s * t;
    right[cell]! += s * value;
    right[cell + 1]! += t * value;
    counted++;
  }
  addBends(band, BEND_WEIGHT * Math.max(counted, 1));
  solveBanded(band, right);
  return knots.map((extension, i) => ({ extension, value: right[i]! }));
}

type Band = readonly [Float64Array, Float64Array, Float64Array];

/** Adds weight * (v[i-1] - 2 v[i] + v[i+1])^2 to the normal equations. */
function addBends([diagonal, first, second]: Band, weight: number): void {
  for (let i = 1; i < diagonal.length - 1; i++) {
    diagonal[i - 1]! += weight;
    diagonal[i]! += 4 * weight;
    diagonal[i + 1]! += weight;
    first[i - 1]! -= 2 * weight;
    first[i]! -= 2 * weight;
    second[i - 1]! += weight;
  }
}

/** Solves in place by elimination without pivots; the matrix is positive definite. */
function solveBanded([diagonal, first, second]: Band, right: Float64Array): void {
  const n = diagonal.length;
  for (let i = 0; i < n; i++) {
    const one = first[i]! / diagonal[i]!;
    const two = second[i]! / diagonal[i]!;
    if (i + 1 < n) {
      diagonal[i + 1]! -= one * first[i]!;
      right[i + 1]! -= one * right[i]!;
      first[i + 1]! -= one * second[i]!;
    }
    if (i + 2 < n) {
      diagonal[i + 2]! -= two * second[i]!;
      right[i + 2]! -= two * right[i]!;
    }
  }
  for (let i = n - 1; i >= 0; i--) {
    const above = i + 1 < n ? first[i]! * right[i + 1]! : 0;
    const beyond = i + 2 < n ? second[i]! * right[i + 2]! : 0;
    right[i] = (right[i]! - above - beyond) / diagonal[i]!;
  }
}
