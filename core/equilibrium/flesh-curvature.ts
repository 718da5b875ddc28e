import { vertexNormals } from '../mesh/triangle-areas.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';

/** How a skin bends, per triangle, in a frame of its own: first axis along the first side, second in its plane. */
export interface SkinCurvature {
  /** k11, k12, k22, convex positive, 1/m; 3*T. */
  readonly tensors: Float64Array;
}

/**
 * Curvature tensor of each triangle from the turn of its corners' normals: II (x_j - x_i) = n_j - n_i along the three
 * sides, solved by least squares.
 *
 * @see Rusinkiewicz, Estimating curvatures and their derivatives on triangle meshes, 3DPVT 2004.
 */
export function skinCurvature(mesh: TriangleMesh): SkinCurvature {
  const { positions, triangles } = mesh;
  const normals = vertexNormals(mesh);
  const tensors = new Float64Array(triangles.length);
  const frame = new Float64Array(6);
  for (let t = 0; t < triangles.length; t += 3) {
    if (!setFrame(positions, triangles, t, frame)) continue;
    // Normal equations of the three unknowns k11, k12, k22.
    let [m11, m12, m22, b1, b2, b3] = [0, 0, 0, 0, 0, 0];
    for (let side = 0; side < 3; side++) {
      const from = 3 * triangles[t + side]!;
      const to = 3 * triangles[t + ((side + 1) % 3)]!;
      const [x, y] = inFrame(positions, from, to, frame);
      const [p, q] = inFrame(normals, from, to, frame);
      m11 += x * x;
      m12 += x * y;
      m22 += y * y;
      b1 += x * p;
      b2 += y * p + x * q;
      b3 += y * q;
    }
    // [m11 m12 0; m12 m11 + m22 m12; 0 m12 m22] k = b, by elimination of the first and the last.
    const middle = m11 + m22 - m12 * m12 * (1 / m11 + 1 / m22);
    const k12 = (b2 - m12 * (b1 / m11 + b3 / m22)) / middle;
    tensors[t] = (b1 - m12 * k12) / m11;
    tensors[t + 1] = k12;
    tensors[t + 2] = (b3 - m12 * k12) / m22;
  }
  return { tensors };
}

/**
 * Axes of a triangle: along its first side, and across it in its plane.
 *
 * @param t - Offset of its corners.
 * @param frame - 6 numbers, overwritten.
 * @returns False for a triangle without area.
 */
export function setFrame(
  positions: Float64Array,
  triangles: Uint32Array,
  t: number,
  frame: Float64Array,
): boolean {
  const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
  let length = 0;
  let along = 0;
  for (let k = 0; k < 3; k++) {
    const side = positions[b + k]! - positions[a + k]!;
    frame[k] = side;
    length += side * side;
    along += side * (positions[c + k]! - positions[a + k]!);
  }
  let height = 0;
  for (let k = 0; k < 3; k++) {
    const across = positions[c + k]! - positions[a + k]! - (along / length) * frame[k]!;
    frame[3 + k] = across;
    height += across * across;
  }
  if (!(length > 0 && height > 1e-16 * length)) return false;
  for (let k = 0; k < 3; k++) {
    frame[k]! /= Math.sqrt(length);
    frame[3 + k]! /= Math.sqrt(height);
  }
  return true;
}

/** The way from one triple to another, along both axes. */
export function inFrame(
  triples: Float64Array,
  from: number,
  to: number,
  frame: Float64Array,
): [number, number] {
  let [x, y] = [0, 0];
  for (let k = 0; k < 3; k++) {
    const way = triples[to + k]! - triples[from + k]!;
    x += way * frame[k]!;
    y += way * frame[3 + k]!;
  }
  return [x, y];
}
