import type { Direction } from '../fabric/fabric.ts';
import { blockAt, type BlockMatrix, type BlockPattern } from './block-matrix.ts';
import { curvaturePatches, type CurvaturePatches, type FlatSheet } from './curvature-patches.ts';
import { patternOfPatches } from './patch-pattern.ts';

/** How a sheet resists being bent along its two yarns and being twisted; N*m. */
export interface BendingTensor {
  /** D11, D22: moment per width over curvature. */
  readonly warp: number;
  readonly weft: number;
  /** D66: twisting moment per width over twice the mixed curvature. */
  readonly twist: number;
}

/** The twist is looked for between these shares of the mean of warp and weft. */
const TWIST = { least: 1e-3, most: 1e3 };

/**
 * What the three strips say about all directions; D12 = 0, since no strip shows it.
 *
 * A strip at an angle that is rolled up without twisting resists by {@link rollingRigidity}, a slender one that is free
 * to twist by {@link slenderRigidity}, which is less. The bench's bias strip is about as wide as it hangs over and lies
 * between: D66 is chosen so that the geometric mean of both at 45 degrees is the bias reading. (For a fabric that bends
 * alike in all directions both are the reading.)
 */
export function bendingTensor({ warp, weft, bias }: Readonly<Record<Direction, number>>): BendingTensor {
  const mean = Math.sqrt(warp * weft);
  let low = Math.log(TWIST.least * mean);
  let high = Math.log(TWIST.most * mean);
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    const tensor = { warp, weft, twist: Math.exp(middle) };
    const product = rollingRigidity(tensor, Math.PI / 4) * slenderRigidity(tensor, Math.PI / 4);
    if (product < bias * bias) low = middle;
    else high = middle;
  }
  return { warp, weft, twist: Math.exp((low + high) / 2) };
}

/** Moment per width over curvature of a sheet rolled at an angle to the warp: D11 c^4 + D22 s^4 + 4 D66 c^2 s^2; N*m. */
export function rollingRigidity({ warp, weft, twist }: BendingTensor, angle: number): number {
  const c = Math.cos(angle) ** 2;
  const s = Math.sin(angle) ** 2;
  return warp * c * c + weft * s * s + 4 * twist * c * s;
}

/**
 * Moment per width over curvature of a slender strip at an angle to the warp, free to twist:
 * 1 / (c^4 / D11 + s^4 / D22 + c^2 s^2 / D66); N*m.
 *
 * @see Lekhnitskii, Anisotropic Plates (1968): compliance of a strip at an angle.
 */
export function slenderRigidity({ warp, weft, twist }: BendingTensor, angle: number): number {
  const c = Math.cos(angle) ** 2;
  const s = Math.sin(angle) ** 2;
  return 1 / ((c * c) / warp + (s * s) / weft + (c * s) / twist);
}

/** h/2 of weight from the cells beyond the row and CLAMP h/2 from those before it make the 2 h that 2 B / h takes. */
const CLAMP = 3;

/** A flat sheet's resistance to bending: E = x' K x / 2 for each coordinate, K fixed. */
export interface Bending {
  readonly pattern: BlockPattern;
  /** One number per block: times the unit matrix, N/m; B. */
  readonly values: Float64Array;
  /** How the curvature of each triangle was read. */
  readonly curvature: CurvaturePatches;
}

/**
 * Bending of a sheet that keeps its lengths:
 *
 * E = 1/2 sum over triangles of A0 (D11 |x_uu|^2 + D22 |x_vv|^2 + 4 D66 |x_uv|^2).
 *
 * Where lengths are kept, second derivatives of the place stand across the sheet and their lengths are the curvatures,
 * so this is the plate's energy, and quadratic: its stiffness is the same everywhere and never negative. Stretching
 * breaks that only by the square of how stretch varies over a bending radius.
 *
 * Triangles whose corners are all held count {@link CLAMP} times: the hinge along the last held row stands for the half
 * cell beyond it only, whose stiffness is 2 B / h, while hinges within the sheet stand for h, B / h.
 *
 * @param held - 1 where a coordinate is held; 3*V.
 * @see Bergou, Wardetzky, Harmon, Zorin & Grinspun, A quadratic bending model for inextensible surfaces, SGP 2006.
 */
export function createBending(sheet: FlatSheet, tensor: BendingTensor, held: Uint8Array): Bending {
  const curvature = curvaturePatches(sheet);
  const pattern = patternOfPatches(curvature.patches, sheet.flat.length / 2);
  const values = new Float64Array(pattern.columns.length);
  const { triangles } = sheet;
  for (let t = 0; 3 * t < triangles.length; t++) {
    const clamped = [0, 1, 2].every((k) => isHeld(held, triangles[3 * t + k]!));
    const area = (clamped ? CLAMP : 1) * flatArea(sheet, t);
    addTriangle({ pattern, values, curvature }, tensor, { t, area });
  }
  return { pattern, values, curvature };
}

const isHeld = (held: Uint8Array, v: number): boolean =>
  held[3 * v] === 1 && held[3 * v + 1] === 1 && held[3 * v + 2] === 1;

function addTriangle(
  { pattern, values, curvature }: Bending,
  { warp, weft, twist }: BendingTensor,
  { t, area }: { t: number; area: number },
): void {
  const { start, list } = curvature.patches;
  const { uu, vv, uv } = curvature.weights;
  for (let i = start[t]!; i < start[t + 1]!; i++) {
    const a = area * warp * uu[i]!;
    const b = area * weft * vv[i]!;
    const c = 4 * area * twist * uv[i]!;
    for (let j = start[t]!; j < start[t + 1]!; j++) {
      values[blockAt(pattern, list[i]!, list[j]!)]! += a * uu[j]! + b * vv[j]! + c * uv[j]!;
    }
  }
}

function flatArea({ flat, triangles }: FlatSheet, t: number): number {
  const a = 2 * triangles[3 * t]!;
  const b = 2 * triangles[3 * t + 1]!;
  const c = 2 * triangles[3 * t + 2]!;
  const u1 = flat[b]! - flat[a]!;
  const v1 = flat[b + 1]! - flat[a + 1]!;
  const u2 = flat[c]! - flat[a]!;
  const v2 = flat[c + 1]! - flat[a + 1]!;
  return Math.abs(u1 * v2 - u2 * v1) / 2;
}

/**
 * Adds the derivative of the bending energy, K x.
 *
 * @param positions - 3*V, m.
 * @param gradient - 3*V, N; added to.
 * @returns The energy, J.
 */
export function addBendingGradient(
  { pattern: { rowStart, columns }, values }: Pick<Bending, 'pattern' | 'values'>,
  positions: Float64Array,
  gradient: Float64Array,
): number {
  let energy = 0;
  for (let row = 0; row + 1 < rowStart.length; row++) {
    const px = positions[3 * row]!;
    const py = positions[3 * row + 1]!;
    const pz = positions[3 * row + 2]!;
    let x = 0;
    let y = 0;
    let z = 0;
    // Rows of K sum to zero: differences keep the digits that large coordinates would eat.
    for (let b = rowStart[row]!; b < rowStart[row + 1]!; b++) {
      const c = 3 * columns[b]!;
      const k = values[b]!;
      x += k * (positions[c]! - px);
      y += k * (positions[c + 1]! - py);
      z += k * (positions[c + 2]! - pz);
    }
    gradient[3 * row]! += x;
    gradient[3 * row + 1]! += y;
    gradient[3 * row + 2]! += z;
    energy += (x * px + y * py + z * pz) / 2;
  }
  return energy;
}

/** Adds K to the diagonals of the blocks of a matrix of the same pattern. */
export function addBendingStiffness({ values }: Bending, into: BlockMatrix): void {
  for (let b = 0; b < values.length; b++) {
    const k = values[b]!;
    into.values[9 * b]! += k;
    into.values[9 * b + 4]! += k;
    into.values[9 * b + 8]! += k;
  }
}
