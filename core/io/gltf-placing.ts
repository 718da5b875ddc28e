import type { GLTF } from '@gltf-transform/core';
import { broken } from './glb-json.ts';

/** A column-major 4x4 matrix, 16 numbers. */
export type Matrix = readonly number[];

const UNIT: Matrix = [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1];

/**
 * Where each node stands in the scene.
 *
 * @param nodes - A tree, as `surfaceJson` proves it.
 * @throws {Fault} `mesh/glb-broken` for a rotation of length 0.
 * @see Khronos, glTF 2.0 specification (ISO/IEC 12113:2022), section 3.5.3: M = T R S, then the parent's before it.
 */
export function nodeMatrices(nodes: readonly GLTF.INode[]): Matrix[] {
  const hanging = new Set(nodes.flatMap(({ children = [] }) => children));
  const matrices: Matrix[] = nodes.map(() => UNIT);
  const open = nodes.map((_, i) => i).filter((i) => !hanging.has(i));
  for (const root of open) matrices[root] = ownMatrix(nodes[root]!, root);
  while (open.length > 0) {
    const parent = open.pop()!;
    for (const child of nodes[parent]!.children ?? []) {
      matrices[child] = product(matrices[parent]!, ownMatrix(nodes[child]!, child));
      open.push(child);
    }
  }
  return matrices;
}

function ownMatrix(node: GLTF.INode, i: number): Matrix {
  if (node.matrix !== undefined) return node.matrix;
  const [tx, ty, tz] = node.translation ?? [0, 0, 0];
  const [sx, sy, sz] = node.scale ?? [1, 1, 1];
  const quaternion = node.rotation ?? [0, 0, 0, 1];
  const length = Math.hypot(...quaternion);
  if (!(length > 0)) throw broken(`nodes[${i}].rotation`, 'it has no length');
  const [x, y, z, w] = quaternion.map((value) => value / length);
  return [
    [sx! * (1 - 2 * (y! * y! + z! * z!)), sx! * 2 * (x! * y! + z! * w!), sx! * 2 * (x! * z! - y! * w!), 0],
    [sy! * 2 * (x! * y! - z! * w!), sy! * (1 - 2 * (x! * x! + z! * z!)), sy! * 2 * (y! * z! + x! * w!), 0],
    [sz! * 2 * (x! * z! + y! * w!), sz! * 2 * (y! * z! - x! * w!), sz! * (1 - 2 * (x! * x! + y! * y!)), 0],
    [tx!, ty!, tz!, 1],
  ].flat();
}

/** a b. */
export function product(a: Matrix, b: Matrix): number[] {
  const c: number[] = [];
  for (let column = 0; column < 4; column++)
    for (let row = 0; row < 4; row++) {
      let sum = 0;
      for (let k = 0; k < 4; k++) sum += a[4 * k + row]! * b[4 * column + k]!;
      c.push(sum);
    }
  return c;
}

/** Whether a matrix mirrors, so that faces turn inside out: a negative determinant. */
export function isMirror(m: Matrix): boolean {
  const minor = (a: number, b: number): number => m[4 + a]! * m[8 + b]! - m[4 + b]! * m[8 + a]!;
  return m[0]! * minor(1, 2) - m[1]! * minor(0, 2) + m[2]! * minor(0, 1) < 0;
}
