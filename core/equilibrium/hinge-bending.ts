import type { ClothLevel } from '../garment/garment.ts';
import { addBendingGradient, type Bending, type BendingTensor } from './bending-force.ts';
import { blockAt, type BlockMatrix, type BlockPattern } from './block-matrix.ts';
import type { Force } from './force.ts';
import { hingePatches, rowsOf, type HingePatch } from './hinge-patches.ts';
import { patternOfPatches } from './patch-pattern.ts';

/** A direction of curvature that a triangle's hinges hardly see resists with at most 1 / this of its rigidity. */
const UNSEEN = 1e-3;

/**
 * Resistance of a garment to bending, at hinges: the kinks at the three sides of a triangle tell its curvature, whatever
 * the mesh.
 *
 * E = 1/2 sum over triangles of A0 |j|^2 in the metric S = (M D^-1 M')^-1, with j the kinks (vectors in space, linear in
 * the places of the vertices), M the kinks that a unit of each curvature (along warp, along weft, mixed) would make on
 * the flat cloth, and D = diag(D11, D22, 4 D66). That is the least plate energy of all curvatures that agree with the
 * kinks: exact for a cloth rolled up in any direction; at a free edge, where a kink is missing, the curvature nobody
 * sees costs nothing, as it should. Quadratic, so its stiffness is the same everywhere and never negative.
 *
 * A sum over single hinges (Bergou et al. 2006), 3 l^2 / (A1 + A2) per squared kink, was tried first: rolled up it has
 * 1.5 times the plate's energy on equilateral triangles and 3 times on a grid, however fine.
 *
 * The cloth counts as flat where nothing bends it. Stretching breaks the energy only by the square of how stretch varies
 * over a bending radius.
 *
 * @see Bergou, Wardetzky, Harmon, Zorin & Grinspun, A quadratic bending model for inextensible surfaces, SGP 2006.
 */
export function hingeBending(
  level: Pick<ClothLevel, 'mesh' | 'restInverse' | 'restArea'>,
  tensor: BendingTensor,
): Force {
  const bending = createHinges(level, tensor);
  let target: BlockTarget | null = null;
  return {
    addGradient: (positions, gradient) => addBendingGradient(bending, positions, gradient),
    addStiffness: (_positions, _exact, into) => {
      if (target?.of !== into.pattern) target = blockTarget(bending, into.pattern);
      addDiagonals(target, into);
    },
  };
}

/** The energy as x' K x / 2 for each coordinate. */
export function createHinges(
  level: Pick<ClothLevel, 'mesh' | 'restInverse' | 'restArea'>,
  tensor: BendingTensor,
): Pick<Bending, 'pattern' | 'values'> {
  const patches = hingePatches(level);
  const pattern = patternOfPatches(rowsOf(patches), level.mesh.positions.length / 3);
  const values = new Float64Array(pattern.columns.length);
  patches.forEach((patch, t) => {
    const metric = kinkMetric(patch, tensor);
    const { vertices, kinks } = patch;
    for (const [e, row] of kinks.entries()) {
      for (const [f, column] of kinks.entries()) {
        const share = level.restArea[t]! * metric[e]![f]!;
        for (const [i, wi] of row.entries()) {
          if (wi === 0) continue;
          for (const [j, wj] of column.entries()) {
            if (wj !== 0) values[blockAt(pattern, vertices[i]!, vertices[j]!)]! += share * wi * wj;
          }
        }
      }
    }
  });
  return { pattern, values };
}

/** S = (M D^-1 M' + a little)^-1, by the cofactors of a matrix of one, two or three rows; N*m per m^2 of kink. */
function kinkMetric({ ofCurvature }: HingePatch, { warp, weft, twist }: BendingTensor): number[][] {
  const compliance = ofCurvature.map((row) =>
    ofCurvature.map(
      (column) =>
        (row[0] * column[0]) / warp + (row[1] * column[1]) / weft + (row[2] * column[2]) / (4 * twist),
    ),
  );
  const n = compliance.length;
  const mean = compliance.reduce((sum, row, i) => sum + row[i]!, 0) / Math.max(1, n);
  compliance.forEach((row, i) => (row[i]! += UNSEEN * mean));
  return inverse(compliance);
}

/** Gauss-Jordan on a small positive definite matrix. */
function inverse(matrix: readonly (readonly number[])[]): number[][] {
  const n = matrix.length;
  const rows = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  for (let k = 0; k < n; k++) {
    const pivot = rows[k]![k]!;
    for (let j = 0; j < 2 * n; j++) rows[k]![j]! /= pivot;
    for (let i = 0; i < n; i++) {
      if (i === k) continue;
      const factor = rows[i]![k]!;
      for (let j = 0; j < 2 * n; j++) rows[i]![j]! -= factor * rows[k]![j]!;
    }
  }
  return rows.map((row) => row.slice(n));
}

/** What is added to which blocks of one matrix. */
interface BlockTarget {
  readonly of: BlockPattern;
  readonly at: Uint32Array;
  readonly values: Float64Array;
}

/**
 * Where the energy's blocks lie in a matrix. A pair of vertices that the matrix has no block for is left out, its size
 * added to both diagonals: that keeps the matrix positive and moves no result, only steps become a little shorter.
 */
function blockTarget(
  { pattern, values }: Pick<Bending, 'pattern' | 'values'>,
  of: BlockPattern,
): BlockTarget {
  const at = new Uint32Array(values.length);
  const moved = Float64Array.from(values);
  for (let row = 0; row < pattern.diagonal.length; row++) {
    for (let b = pattern.rowStart[row]!; b < pattern.rowStart[row + 1]!; b++) {
      const found = findBlock(of, row, pattern.columns[b]!);
      at[b] = found ?? of.diagonal[row]!;
      if (found === null) moved[b] = Math.abs(values[b]!);
    }
  }
  return { of, at, values: moved };
}

function findBlock({ rowStart, columns }: BlockPattern, row: number, column: number): number | null {
  for (let b = rowStart[row]!; b < rowStart[row + 1]!; b++) if (columns[b] === column) return b;
  return null;
}

function addDiagonals({ at, values: added }: BlockTarget, { values }: BlockMatrix): void {
  for (let b = 0; b < added.length; b++) {
    const k = added[b]!;
    const block = 9 * at[b]!;
    values[block]! += k;
    values[block + 4]! += k;
    values[block + 8]! += k;
  }
}
