import { createTensionResponse, evaluateTension } from '../fabric/evaluate-tension.ts';
import type { TensionLaw, TensionResponse } from '../fabric/tension-law.ts';
import { deformationOf } from '../garment/deformation.ts';
import type { ClothLevel } from '../garment/garment.ts';
import { addPositivePart, positivePartRoom, type PositivePartRoom } from './positive-part.ts';

/** Room for going once over all triangles. */
export interface MembraneRoom {
  readonly deformation: Float64Array;
  readonly response: TensionResponse;
  readonly positivePart: PositivePartRoom;
}

export const membraneRoom = (): MembraneRoom => ({
  deformation: new Float64Array(6),
  response: createTensionResponse(),
  positivePart: positivePartRoom(),
});

/** Cloth of one level under the laws of its fabrics. */
export interface Membrane {
  readonly level: Pick<ClothLevel, 'mesh' | 'restInverse' | 'restArea' | 'panel'>;
  /** By the numbers in `level.panel`; the first where that is left out. */
  readonly laws: readonly TensionLaw[];
  readonly room: MembraneRoom;
}

/** What one pass over the triangles gives besides the gradient. */
export interface MembranePull {
  /** J. */
  energy: number;
  /** Sum of squared corner forces before they balance, N^2: how hard the cloth pulls at all. */
  cornerForceSquared: number;
}

/**
 * Energy of the stretched cloth and its gradient:
 *
 * E = sum over triangles of A0 W(F); dE/dx1 = A0 (P_u m00 + P_v m01), dE/dx2 = A0 (P_u m10 + P_v m11),
 * dE/dx0 = -(both), with P = dW/dF and m the triangle's restInverse.
 *
 * @param positions - 3*V, m.
 * @param into - `gradient` (3*V, N) is added to, `pull` overwritten.
 */
export function addMembraneGradient(
  { level, laws, room }: Membrane,
  positions: Float64Array,
  into: { gradient: Float64Array; pull: MembranePull },
): void {
  const { deformation, response } = room;
  const { restInverse, restArea, panel } = level;
  const { triangles } = level.mesh;
  const { stress } = response;
  const { gradient } = into;
  let energy = 0;
  let squared = 0;
  for (let t = 0; t < restArea.length; t++) {
    deformationOf(level, positions, t, deformation);
    evaluateTension(laws[panel?.[t] ?? 0]!, deformation, false, response);
    const area = restArea[t]!;
    energy += area * response.energy;
    const m00 = area * restInverse[4 * t]!;
    const m01 = area * restInverse[4 * t + 1]!;
    const m10 = area * restInverse[4 * t + 2]!;
    const m11 = area * restInverse[4 * t + 3]!;
    const a = 3 * triangles[3 * t]!;
    const b = 3 * triangles[3 * t + 1]!;
    const c = 3 * triangles[3 * t + 2]!;
    for (let k = 0; k < 3; k++) {
      const first = stress[k]! * m00 + stress[3 + k]! * m01;
      const second = stress[k]! * m10 + stress[3 + k]! * m11;
      const third = -first - second;
      gradient[b + k]! += first;
      gradient[c + k]! += second;
      gradient[a + k]! += third;
      squared += first * first + second * second + third * third;
    }
  }
  into.pull.energy = energy;
  into.pull.cornerForceSquared = squared;
}

/** Where a triangle's 9x9 goes. */
export interface StiffnessTarget {
  /** Block of each corner pair; 9*T. */
  readonly blocks: Uint32Array;
  /** 9*B, added to. */
  readonly values: Float64Array;
}

/**
 * Adds the second derivatives of the cloth's energy.
 *
 * Block of corners (m, n) = A0 (p_m p_n C_uu + p_m q_n C_uv + q_m p_n C_vu + q_m q_n C_vv) with C = d2W/dF2 and
 * (p, q) = (m00, m01) for corner 1, (m10, m11) for corner 2, minus their sum for corner 0. Since the 9x9 is C between
 * these coefficients, a C without negative eigenvalues gives a 9x9 without.
 *
 * @param exact - False drops negative eigenvalues triangle by triangle, so that the whole is positive semi-definite.
 */
export function addMembraneStiffness(
  { level, laws, room }: Membrane,
  positions: Float64Array,
  exact: boolean,
  { blocks, values }: StiffnessTarget,
): void {
  const { deformation, response, positivePart } = room;
  const { restInverse, restArea, panel } = level;
  const c = response.stiffness;
  for (let t = 0; t < restArea.length; t++) {
    deformationOf(level, positions, t, deformation);
    evaluateTension(laws[panel?.[t] ?? 0]!, deformation, true, response);
    if (!exact) addPositivePart(deformation, positivePart, c);
    const area = restArea[t]!;
    const p1 = restInverse[4 * t]!;
    const q1 = restInverse[4 * t + 1]!;
    const p2 = restInverse[4 * t + 2]!;
    const q2 = restInverse[4 * t + 3]!;
    const at = 9 * t;
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) {
        const uu = area * c[6 * i + j]!;
        const uv = area * c[6 * i + 3 + j]!;
        const vu = area * c[18 + 6 * i + j]!;
        const vv = area * c[21 + 6 * i + j]!;
        const k11 = p1 * p1 * uu + p1 * q1 * (uv + vu) + q1 * q1 * vv;
        const k12 = p1 * p2 * uu + p1 * q2 * uv + q1 * p2 * vu + q1 * q2 * vv;
        const k21 = p2 * p1 * uu + p2 * q1 * uv + q2 * p1 * vu + q2 * q1 * vv;
        const k22 = p2 * p2 * uu + p2 * q2 * (uv + vu) + q2 * q2 * vv;
        const entry = 3 * i + j;
        values[9 * blocks[at]! + entry]! += k11 + k12 + k21 + k22;
        values[9 * blocks[at + 1]! + entry]! -= k11 + k21;
        values[9 * blocks[at + 2]! + entry]! -= k12 + k22;
        values[9 * blocks[at + 3]! + entry]! -= k11 + k12;
        values[9 * blocks[at + 4]! + entry]! += k11;
        values[9 * blocks[at + 5]! + entry]! += k12;
        values[9 * blocks[at + 6]! + entry]! -= k21 + k22;
        values[9 * blocks[at + 7]! + entry]! += k21;
        values[9 * blocks[at + 8]! + entry]! += k22;
      }
    }
  }
}
