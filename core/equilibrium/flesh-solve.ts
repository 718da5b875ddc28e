import { meshEdges, vertexNeighbours, type Rows } from '../mesh/mesh-edges.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';

/** A symmetric matrix of one number per pair of neighbours, scaled so that its diagonal is 1. */
export interface ScreenedMatrix {
  /** Entries left of the diagonal, row by row: columns list[start[v]] .. list[start[v + 1] - 1]. */
  readonly rows: Rows;
  readonly values: Float64Array;
  /** 1 / sqrt(diagonal) of the matrix as it was given; V. */
  readonly scale: Float64Array;
  readonly room: readonly [Float64Array, Float64Array, Float64Array, Float64Array];
}

/** The lower neighbours of each vertex, in order: where a matrix of the mesh has entries left of its diagonal. */
export function lowerNeighbours(mesh: TriangleMesh): Rows {
  const vertexCount = mesh.positions.length / 3;
  const all = vertexNeighbours(meshEdges(mesh), vertexCount);
  const start = new Uint32Array(vertexCount + 1);
  const list: number[] = [];
  for (let v = 0; v < vertexCount; v++) {
    const lower = all.list.subarray(all.start[v], all.start[v + 1]).filter((other) => other < v);
    list.push(...lower.sort());
    start[v + 1] = list.length;
  }
  return { start, list: Uint32Array.from(list) };
}

/**
 * @param values - Entries left of the diagonal; taken over and scaled.
 * @param diagonal - All above 0; V.
 */
export function screenedMatrix(rows: Rows, values: Float64Array, diagonal: Float64Array): ScreenedMatrix {
  const scale = diagonal.map((value) => 1 / Math.sqrt(value));
  for (let v = 0; v < scale.length; v++) {
    for (let i = rows.start[v]!; i < rows.start[v + 1]!; i++) values[i]! *= scale[v]! * scale[rows.list[i]!]!;
  }
  const array = () => new Float64Array(scale.length);
  return { rows, values, scale, room: [array(), array(), array(), array()] };
}

/**
 * Solves A x = b by conjugate gradients, preconditioned by a forward and a backward sweep over the vertices, which by
 * Eisenstat's arrangement cost no more than one multiplication: with A = I + L + L', solve
 * (I + L)^-1 A (I + L')^-1 y = (I + L)^-1 b, x = (I + L')^-1 y.
 *
 * @param x - The start, overwritten by the solution; V.
 * @param tolerance - Residual over right-hand side.
 * @returns Iterations.
 * @see Eisenstat, SIAM J. Sci. Stat. Comput. 2 (1981) 1.
 */
export function solveScreened(
  matrix: ScreenedMatrix,
  b: Float64Array,
  x: Float64Array,
  tolerance: number,
): number {
  const { scale, room } = matrix;
  const [residual, way, image, inner] = room;
  const count = scale.length;
  // y of the start, then its residual.
  for (let v = 0; v < count; v++) x[v]! /= scale[v]!;
  addUpper(matrix, x);
  for (let v = 0; v < count; v++) residual[v] = b[v]! * scale[v]!;
  sweepDown(matrix, residual);
  const goal = tolerance * tolerance * dot(residual, residual);
  apply(matrix, x, image, inner);
  for (let v = 0; v < count; v++) residual[v]! -= image[v]!;
  way.set(residual);
  let squared = dot(residual, residual);
  let iterations = 0;
  while (squared > goal && iterations < MOST_ITERATIONS) {
    apply(matrix, way, image, inner);
    const step = squared / dot(way, image);
    let next = 0;
    for (let v = 0; v < count; v++) {
      x[v]! += step * way[v]!;
      const left = residual[v]! - step * image[v]!;
      residual[v] = left;
      next += left * left;
    }
    const turn = next / squared;
    for (let v = 0; v < count; v++) way[v] = residual[v]! + turn * way[v]!;
    squared = next;
    iterations++;
  }
  sweepUp(matrix, x);
  for (let v = 0; v < count; v++) x[v]! *= scale[v]!;
  return iterations;
}

/** Ten times what the finest graded meshes took. */
const MOST_ITERATIONS = 3000;

/** image = t + (I + L)^-1 (y - t), t = (I + L')^-1 y. */
function apply(matrix: ScreenedMatrix, y: Float64Array, image: Float64Array, t: Float64Array): void {
  t.set(y);
  sweepUp(matrix, t);
  for (let v = 0; v < t.length; v++) image[v] = y[v]! - t[v]!;
  sweepDown(matrix, image);
  for (let v = 0; v < t.length; v++) image[v]! += t[v]!;
}

/** x <- (I + L)^-1 x. */
function sweepDown({ rows: { start, list }, values }: ScreenedMatrix, x: Float64Array): void {
  for (let v = 0; v < x.length; v++) {
    let sum = x[v]!;
    for (let i = start[v]!; i < start[v + 1]!; i++) sum -= values[i]! * x[list[i]!]!;
    x[v] = sum;
  }
}

/** x <- (I + L')^-1 x. */
function sweepUp({ rows: { start, list }, values }: ScreenedMatrix, x: Float64Array): void {
  for (let v = x.length - 1; v >= 0; v--) {
    const known = x[v]!;
    for (let i = start[v]!; i < start[v + 1]!; i++) x[list[i]!]! -= values[i]! * known;
  }
}

/** x <- (I + L') x. */
function addUpper({ rows: { start, list }, values }: ScreenedMatrix, x: Float64Array): void {
  for (let v = 0; v < x.length; v++) {
    for (let i = start[v]!; i < start[v + 1]!; i++) x[list[i]!]! += values[i]! * x[v]!;
  }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
