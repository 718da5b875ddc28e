import type { BlockMatrix, BlockPattern } from './block-matrix.ts';

/**
 * Room for the factor of a small matrix: every row from its first non-zero to the diagonal. Rings numbered one after
 * the other keep that short.
 */
export interface EnvelopeFactor {
  /** First column of each scalar row; 3*V. */
  readonly first: Uint32Array;
  /** Where row i's entries would start if its first column were 0: entry (i, j) is at offset[i] + j; 3*V. */
  readonly offset: Int32Array;
  readonly values: Float64Array;
}

export function envelopeOf({ rowStart, columns }: BlockPattern): EnvelopeFactor {
  const size = 3 * (rowStart.length - 1);
  const first = new Uint32Array(size);
  const offset = new Int32Array(size);
  let count = 0;
  for (let i = 0; i < size; i++) {
    first[i] = 3 * columns[rowStart[Math.floor(i / 3)]!]!;
    offset[i] = count - first[i]!;
    count += i - first[i]! + 1;
  }
  return { first, offset, values: new Float64Array(count) };
}

/**
 * A = L L' within the envelope, row by row: L_ij = (A_ij - sum_k L_ik L_jk) / L_jj.
 *
 * @returns False where A is not positive definite; the factor is then of no use.
 */
export function factorise({ pattern, values }: BlockMatrix, into: EnvelopeFactor): boolean {
  const { first, offset, values: l } = into;
  l.fill(0);
  for (let row = 0; row < pattern.rowStart.length - 1; row++) {
    for (let b = pattern.rowStart[row]!; b <= pattern.diagonal[row]!; b++) {
      for (let e = 0; e < 9; e++) {
        const i = 3 * row + Math.floor(e / 3);
        const j = 3 * pattern.columns[b]! + (e % 3);
        if (j <= i) l[offset[i]! + j] = values[9 * b + e]!;
      }
    }
  }
  for (let i = 0; i < first.length; i++) {
    const own = offset[i]!;
    for (let j = first[i]!; j <= i; j++) {
      const other = offset[j]!;
      let sum = l[own + j]!;
      for (let k = Math.max(first[i]!, first[j]!); k < j; k++) sum -= l[own + k]! * l[other + k]!;
      if (j < i) l[own + j] = sum / l[other + j]!;
      // A pivot this small against what it was made of is round-off, not stiffness.
      else if (sum > 1e-13 * l[own + i]!) l[own + i] = Math.sqrt(sum);
      else return false;
    }
  }
  return true;
}

/** Solves L L' x = b. */
export function solveFactor(
  { first, offset, values }: EnvelopeFactor,
  b: Float64Array,
  into: Float64Array,
): void {
  for (let i = 0; i < first.length; i++) {
    let sum = b[i]!;
    for (let k = first[i]!; k < i; k++) sum -= values[offset[i]! + k]! * into[k]!;
    into[i] = sum / values[offset[i]! + i]!;
  }
  for (let i = first.length - 1; i >= 0; i--) {
    const x = into[i]! / values[offset[i]! + i]!;
    into[i] = x;
    for (let k = first[i]!; k < i; k++) into[k]! -= values[offset[i]! + k]! * x;
  }
}
