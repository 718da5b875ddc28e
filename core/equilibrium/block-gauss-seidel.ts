import type { BlockMatrix } from './block-matrix.ts';

/**
 * Inverses of the diagonal blocks.
 *
 * @param into - 9*V, overwritten.
 * @returns False where a block is not positive definite.
 */
export function invertDiagonal({ pattern, values }: BlockMatrix, into: Float64Array): boolean {
  for (let row = 0; row < pattern.diagonal.length; row++) {
    const a = 9 * pattern.diagonal[row]!;
    const xx = values[a]!;
    const xy = values[a + 1]!;
    const xz = values[a + 2]!;
    const yy = values[a + 4]!;
    const yz = values[a + 5]!;
    const zz = values[a + 8]!;
    const cxx = yy * zz - yz * yz;
    const cxy = xz * yz - xy * zz;
    const cxz = xy * yz - xz * yy;
    const determinant = xx * cxx + xy * cxy + xz * cxz;
    if (!(xx > 0 && xx * yy - xy * xy > 0 && determinant > 0)) return false;
    const scale = 1 / determinant;
    const o = 9 * row;
    into[o] = cxx * scale;
    into[o + 1] = into[o + 3] = cxy * scale;
    into[o + 2] = into[o + 6] = cxz * scale;
    into[o + 4] = (xx * zz - xz * xz) * scale;
    into[o + 5] = into[o + 7] = (xy * xz - xx * yz) * scale;
    into[o + 8] = (xx * yy - xy * xy) * scale;
  }
  return true;
}

/**
 * One forward sweep from x = 0 and what it leaves over:
 *
 * (L + D) x = b, and b - A x = -U x, so that sweep and residual together cost one product.
 *
 * @param residual - b - A x; 3*V, overwritten.
 * @param into - x; 3*V, overwritten.
 */
export function forwardSweep(
  { pattern, values }: BlockMatrix,
  inverse: Float64Array,
  b: Float64Array,
  { into, residual }: { into: Float64Array; residual: Float64Array },
): void {
  const { rowStart, columns, diagonal } = pattern;
  const rowCount = diagonal.length;
  for (let row = 0; row < rowCount; row++) {
    const r = 3 * row;
    let s0 = b[r]!;
    let s1 = b[r + 1]!;
    let s2 = b[r + 2]!;
    const end = diagonal[row]!;
    for (let block = rowStart[row]!; block < end; block++) {
      const c = 3 * columns[block]!;
      const a = 9 * block;
      const x0 = into[c]!;
      const x1 = into[c + 1]!;
      const x2 = into[c + 2]!;
      s0 -= values[a]! * x0 + values[a + 1]! * x1 + values[a + 2]! * x2;
      s1 -= values[a + 3]! * x0 + values[a + 4]! * x1 + values[a + 5]! * x2;
      s2 -= values[a + 6]! * x0 + values[a + 7]! * x1 + values[a + 8]! * x2;
    }
    const o = 9 * row;
    into[r] = inverse[o]! * s0 + inverse[o + 1]! * s1 + inverse[o + 2]! * s2;
    into[r + 1] = inverse[o + 3]! * s0 + inverse[o + 4]! * s1 + inverse[o + 5]! * s2;
    into[r + 2] = inverse[o + 6]! * s0 + inverse[o + 7]! * s1 + inverse[o + 8]! * s2;
  }
  for (let row = 0; row < rowCount; row++) {
    let s0 = 0;
    let s1 = 0;
    let s2 = 0;
    const end = rowStart[row + 1]!;
    for (let block = diagonal[row]! + 1; block < end; block++) {
      const c = 3 * columns[block]!;
      const a = 9 * block;
      const x0 = into[c]!;
      const x1 = into[c + 1]!;
      const x2 = into[c + 2]!;
      s0 -= values[a]! * x0 + values[a + 1]! * x1 + values[a + 2]! * x2;
      s1 -= values[a + 3]! * x0 + values[a + 4]! * x1 + values[a + 5]! * x2;
      s2 -= values[a + 6]! * x0 + values[a + 7]! * x1 + values[a + 8]! * x2;
    }
    residual[3 * row] = s0;
    residual[3 * row + 1] = s1;
    residual[3 * row + 2] = s2;
  }
}

/** One backward sweep on what x already is: x_i = D_i^-1 (b_i - sum_{j != i} A_ij x_j), last row first. */
export function backwardSweep(
  { pattern, values }: BlockMatrix,
  inverse: Float64Array,
  b: Float64Array,
  into: Float64Array,
): void {
  const { rowStart, columns, diagonal } = pattern;
  for (let row = diagonal.length - 1; row >= 0; row--) {
    const r = 3 * row;
    let s0 = b[r]!;
    let s1 = b[r + 1]!;
    let s2 = b[r + 2]!;
    const end = rowStart[row + 1]!;
    const own = diagonal[row]!;
    for (let block = rowStart[row]!; block < end; block++) {
      if (block === own) continue;
      const c = 3 * columns[block]!;
      const a = 9 * block;
      const x0 = into[c]!;
      const x1 = into[c + 1]!;
      const x2 = into[c + 2]!;
      s0 -= values[a]! * x0 + values[a + 1]! * x1 + values[a + 2]! * x2;
      s1 -= values[a + 3]! * x0 + values[a + 4]! * x1 + values[a + 5]! * x2;
      s2 -= values[a + 6]! * x0 + values[a + 7]! * x1 + values[a + 8]! * x2;
    }
    const o = 9 * row;
    into[r] = inverse[o]! * s0 + inverse[o + 1]! * s1 + inverse[o + 2]! * s2;
    into[r + 1] = inverse[o + 3]! * s0 + inverse[o + 4]! * s1 + inverse[o + 5]! * s2;
    into[r + 2] = inverse[o + 6]! * s0 + inverse[o + 7]! * s1 + inverse[o + 8]! * s2;
  }
}
