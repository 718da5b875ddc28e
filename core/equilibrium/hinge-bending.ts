import type { ClothLevel } from '../garment/garment.ts';
import { addBendingGradient, type Bending, type BendingTensor } from './bending-force.ts';
import { blockAt, type BlockMatrix, type BlockPattern } from './block-matrix.ts';
import type { Force } from './force.ts';
import { hingePatches, NO_VERTEX, patchRows, type HingePatches } from './hinge-patches.ts';
import { patternOfPatches } from './patch-pattern.ts';

/** A direction of curvature that a triangle's hinges hardly see resists with at most 1 / this of its rigidity. */
const UNSEEN = 1e-4;

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
  const { vertices, kinks } = patches;
  const pattern = patternOfPatches(patchRows(patches), level.mesh.positions.length / 3);
  const values = new Float64Array(pattern.columns.length);
  const metric = new Float64Array(9);
  for (let t = 0; t < level.restArea.length; t++) {
    setKinkMetric(patches, t, tensor, metric);
    for (let i = 0; i < 6; i++) {
      const row = vertices[6 * t + i]!;
      if (row === NO_VERTEX) continue;
      for (let j = 0; j < 6; j++) {
        const column = vertices[6 * t + j]!;
        if (column === NO_VERTEX) continue;
        let sum = 0;
        for (let e = 0; e < 3; e++) {
          const weight = kinks[18 * t + 6 * e + i]!;
          if (weight === 0) continue;
          for (let f = 0; f < 3; f++) sum += weight * metric[3 * e + f]! * kinks[18 * t + 6 * f + j]!;
        }
        values[blockAt(pattern, row, column)]! += level.restArea[t]! * sum;
      }
    }
  }
  return { pattern, values };
}

/**
 * S = (M D^-1 M' + a little)^-1 of one triangle, by cofactors; N*m. A missing kink stands for itself alone.
 *
 * @param into - 9, overwritten.
 */
function setKinkMetric(
  { ofCurvature, vertices }: HingePatches,
  t: number,
  { warp, weft, twist }: BendingTensor,
  into: Float64Array,
): void {
  const m = ofCurvature.subarray(9 * t, 9 * t + 9);
  const between = (e: number, f: number): number =>
    (m[3 * e]! * m[3 * f]!) / warp +
    (m[3 * e + 1]! * m[3 * f + 1]!) / weft +
    (m[3 * e + 2]! * m[3 * f + 2]!) / (4 * twist);
  let a = between(0, 0);
  let b = between(1, 1);
  let c = between(2, 2);
  const little = (UNSEEN * (a + b + c)) / 3;
  a = vertices[6 * t + 3] === NO_VERTEX ? 1 : a + little;
  b = vertices[6 * t + 4] === NO_VERTEX ? 1 : b + little;
  c = vertices[6 * t + 5] === NO_VERTEX ? 1 : c + little;
  const ab = between(0, 1);
  const bc = between(1, 2);
  const ca = between(2, 0);
  const aa = b * c - bc * bc;
  const bb = c * a - ca * ca;
  const cc = a * b - ab * ab;
  const abCofactor = bc * ca - ab * c;
  const bcCofactor = ab * ca - bc * a;
  const caCofactor = ab * bc - ca * b;
  const determinant = a * aa + ab * abCofactor + ca * caCofactor;
  into[0] = aa / determinant;
  into[4] = bb / determinant;
  into[8] = cc / determinant;
  into[1] = into[3] = abCofactor / determinant;
  into[5] = into[7] = bcCofactor / determinant;
  into[2] = into[6] = caCofactor / determinant;
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
