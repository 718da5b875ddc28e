import type { Primitive, Skin } from '@gltf-transform/core';
import { Fault } from '../fault/fault.ts';
import { requireWithin } from './mesh-limits.ts';
import { product, type Matrix } from './gltf-placing.ts';

/** What a node does to the vertices of its mesh. */
export interface Placing {
  readonly matrix: Matrix;
  /** Of the shape keys. */
  readonly weights: readonly number[];
  /** Per joint the matrix that takes a vertex as modelled to where the joint holds it; null without a skin. */
  readonly joints: readonly Matrix[] | null;
}

/** The matrices of a skin's joints at rest: where each joint stands, after the inverse of where it was bound. */
export function jointMatrices(
  skin: Skin,
  joints: readonly number[],
  nodeMatrices: readonly Matrix[],
): Matrix[] {
  const bound = skin.getInverseBindMatrices();
  const inverse: number[] = [];
  return joints.map((joint, i) => {
    const standing = nodeMatrices[joint]!;
    return bound === null ? standing : product(standing, bound.getElement(i, inverse));
  });
}

/**
 * The named vertices of a primitive where the file's rest pose has them: shape keys added by their weights, then either held by
 * the skin's joints or placed by the node.
 *
 * p = sum_j w_j J_j (q + sum_k v_k d_k), w over their sum.
 *
 * @throws {Fault} `mesh/too-large`, `mesh/bad-index` for a joint that the skin has not.
 * @see Khronos, glTF 2.0 specification (ISO/IEC 12113:2022), sections 3.7.2.2 (shape keys), 3.7.3 (skins).
 */
export function placedVertices(
  primitive: Primitive,
  used: readonly number[],
  { matrix, weights, joints }: Placing,
): Float64Array {
  const shaped = shapedVertices(primitive, used, weights);
  const sets = joints === null ? [] : jointSets(primitive);
  const placed = new Float64Array(shaped.length);
  const blend: number[] = new Array(16).fill(0);
  for (let v = 0; v < shaped.length / 3; v++) {
    const m = joints !== null && sets.length > 0 ? blended(used[v]!, sets, joints, blend) : matrix;
    for (let k = 0; k < 3; k++) {
      placed[3 * v + k] =
        m[k]! * shaped[3 * v]! + m[4 + k]! * shaped[3 * v + 1]! + m[8 + k]! * shaped[3 * v + 2]! + m[12 + k]!;
    }
  }
  return placed;
}

function shapedVertices(
  primitive: Primitive,
  used: readonly number[],
  weights: readonly number[],
): Float64Array {
  const accessor = primitive.getAttribute('POSITION')!;
  const shaped = new Float64Array(3 * used.length);
  const element: number[] = [];
  const add = (from: typeof accessor, weight: number): void => {
    used.forEach((v, i) => {
      from.getElement(v, element);
      for (let k = 0; k < 3; k++) shaped[3 * i + k]! += weight * element[k]!;
    });
  };
  add(accessor, 1);
  let summed = shaped.length;
  primitive.listTargets().forEach((target, t) => {
    const shift = target.getAttribute('POSITION');
    const weight = weights[t] ?? 0;
    if (shift === null || weight === 0) return;
    summed += shaped.length;
    requireWithin('numbers', summed);
    add(shift, weight);
  });
  return shaped;
}

type Read = (v: number, into: number[]) => number[];

function jointSets(primitive: Primitive): { joints: Read; weights: Read }[] {
  return primitive.listSemantics().flatMap((name) => {
    if (!name.startsWith('JOINTS_')) return [];
    const joints = primitive.getAttribute(name);
    const weights = primitive.getAttribute(name.replace('JOINTS_', 'WEIGHTS_'));
    if (joints === null || weights === null) return [];
    return [
      {
        joints: (v: number, into: number[]) => joints.getElement(v, into),
        weights: (v: number, into: number[]) => weights.getElement(v, into),
      },
    ];
  });
}

/* oxlint-disable-next-line max-params -- a kernel: vertex, its sets, the joints, the result */
function blended(
  v: number,
  sets: readonly { joints: Read; weights: Read }[],
  matrices: readonly Matrix[],
  into: number[],
): Matrix {
  into.fill(0);
  let total = 0;
  const joint: number[] = [];
  const weight: number[] = [];
  for (const { joints, weights } of sets) {
    joints(v, joint);
    weights(v, weight);
    for (let i = 0; i < 4; i++) {
      const w = weight[i]!;
      if (w === 0) continue;
      const m = matrices[joint[i]!];
      if (m === undefined) {
        const value = `joint ${joint[i]} (of ${matrices.length})`;
        throw new Fault('mesh/glb-broken', {
          place: `the skin of vertex ${v + 1}`,
          problem: `there is no ${value}`,
        });
      }
      total += w;
      for (let k = 0; k < 16; k++) into[k]! += w * m[k]!;
    }
  }
  // A vertex that no joint holds goes with the first, as most programs show it.
  if (!(Math.abs(total) > 1e-9)) return matrices[0] ?? into;
  for (let k = 0; k < 16; k++) into[k]! /= total;
  return into;
}
