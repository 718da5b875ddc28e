import { meshEdges, type MeshEdges } from './mesh-edges.ts';
import { vertexNormals } from './triangle-areas.ts';
import type { TriangleMesh } from './triangle-mesh.ts';

/** A refined mesh. */
export interface Refined {
  readonly mesh: TriangleMesh;
  readonly longestBefore: number;
  readonly longestAfter: number;
  /** Stopped before every edge was short enough, at the most triangles allowed. */
  readonly cutShort: boolean;
}

/** Cosines of the turn between two vertex normals up to which an edge is rounded in full (25 deg), and from which not at all (50 deg). */
const SMOOTH = 0.9063;
const CREASED = 0.6428;

/**
 * Halves all edges longer than `longest`, round by round, until there are none. The new vertex lies on the arc between
 * the edge's ends that meets their normals; old vertices stay where they are, sharp edges stay straight.
 *
 * m = (a + b) / 2 - s / 4 [((b - a).n_a) n_a + ((a - b).n_b) n_b], s = 1/2, which is exact for a shallow arc.
 *
 * @param mostTriangles - No round is begun that could lead beyond.
 * @yields the share of the way done, by edge length.
 * @see Boubekeur & Alexa, Phong tessellation, ACM Trans. Graph. 27 (2008) 141; the bisection of triangles by their marked
 *   edges is common practice.
 */
export function* refineEdges(
  mesh: TriangleMesh,
  longest: number,
  mostTriangles: number,
): Generator<number, Refined> {
  let refined = mesh;
  let edges = meshEdges(mesh);
  let lengths = edgeLengths(refined, edges);
  const longestBefore = largest(lengths);
  let longestAfter = longestBefore;
  while (longestAfter > longest) {
    const marked = lengths.reduce((sum, length) => sum + Number(length > longest), 0);
    if (refined.triangles.length / 3 + 2 * marked > mostTriangles) break;
    refined = splitMarked(refined, edges, lengths, longest);
    edges = meshEdges(refined);
    lengths = edgeLengths(refined, edges);
    const now = largest(lengths);
    // An arc can be longer than its chord, but each half is far below the whole.
    if (!(now < longestAfter)) break;
    longestAfter = now;
    yield Math.log(longestBefore / longestAfter) / Math.log(longestBefore / longest);
  }
  return { mesh: refined, longestBefore, longestAfter, cutShort: longestAfter > longest };
}

function edgeLengths({ positions }: TriangleMesh, { vertices }: MeshEdges): Float64Array {
  return Float64Array.from({ length: vertices.length / 2 }, (_, edge) => {
    const a = 3 * vertices[2 * edge]!;
    const b = 3 * vertices[2 * edge + 1]!;
    return Math.hypot(
      positions[b]! - positions[a]!,
      positions[b + 1]! - positions[a + 1]!,
      positions[b + 2]! - positions[a + 2]!,
    );
  });
}

const largest = (values: Float64Array): number => values.reduce((most, value) => Math.max(most, value), 0);

/** Splits every triangle by its marked edges into two, three or four. */
/* oxlint-disable-next-line max-params -- mesh, its edges, their lengths, the limit */
function splitMarked(
  mesh: TriangleMesh,
  edges: MeshEdges,
  lengths: Float64Array,
  longest: number,
): TriangleMesh {
  const { positions, triangles } = mesh;
  const normals = vertexNormals(mesh);
  const middleOf = new Int32Array(lengths.length).fill(-1);
  const points: number[] = [];
  const vertexCount = positions.length / 3;
  lengths.forEach((length, edge) => {
    if (length <= longest) return;
    middleOf[edge] = vertexCount + points.length / 3;
    points.push(
      ...roundedMiddle(positions, normals, edges.vertices[2 * edge]!, edges.vertices[2 * edge + 1]!),
    );
  });
  const all = new Float64Array(positions.length + points.length);
  all.set(positions);
  all.set(points, positions.length);
  const split: number[] = [];
  for (let i = 0; i < triangles.length; i += 3) {
    splitTriangle(
      [triangles[i]!, triangles[i + 1]!, triangles[i + 2]!],
      [middleOf[edges.ofSide[i]!]!, middleOf[edges.ofSide[i + 1]!]!, middleOf[edges.ofSide[i + 2]!]!],
      all,
      split,
    );
  }
  return { positions: all, triangles: Uint32Array.from(split) };
}

type Three = readonly [number, number, number];

/** @param middles - Of the sides 0-1, 1-2, 2-0; below 0 where a side stays whole. */
/* oxlint-disable-next-line max-params -- a kernel: corners, middles, positions, target */
function splitTriangle(corners: Three, middles: Three, positions: Float64Array, into: number[]): void {
  const markedCount = middles.filter((m) => m >= 0).length;
  if (markedCount === 0) {
    into.push(...corners);
    return;
  }
  // Turned so that side 0 is marked, and with two marked ones side 1 as well.
  let turn = 0;
  if (markedCount === 1) turn = middles.findIndex((m) => m >= 0);
  if (markedCount === 2) turn = (middles.findIndex((m) => m < 0) + 1) % 3;
  const at = (list: Three, i: number): number => list[(i + turn) % 3]!;
  const [a, b, c] = [at(corners, 0), at(corners, 1), at(corners, 2)];
  const [ab, bc, ca] = [at(middles, 0), at(middles, 1), at(middles, 2)];
  if (markedCount === 3) into.push(a, ab, ca, ab, b, bc, ca, bc, c, ab, bc, ca);
  else if (markedCount === 1) into.push(a, ab, c, ab, b, c);
  else {
    into.push(ab, b, bc);
    if (squared(positions, a, bc) < squared(positions, ab, c)) into.push(a, ab, bc, a, bc, c);
    else into.push(a, ab, c, ab, bc, c);
  }
}

function squared(positions: Float64Array, a: number, b: number): number {
  let sum = 0;
  for (let k = 0; k < 3; k++) sum += (positions[3 * a + k]! - positions[3 * b + k]!) ** 2;
  return sum;
}

/** The middle of an edge, lifted onto the arc that meets the normals of its ends. */
/* oxlint-disable-next-line max-params -- flat arrays and two indices */
function roundedMiddle(positions: Float64Array, normals: Float64Array, a: number, b: number): Three {
  let turn = 0;
  let riseA = 0;
  let riseB = 0;
  for (let k = 0; k < 3; k++) {
    const way = positions[3 * b + k]! - positions[3 * a + k]!;
    turn += normals[3 * a + k]! * normals[3 * b + k]!;
    riseA += way * normals[3 * a + k]!;
    riseB -= way * normals[3 * b + k]!;
  }
  const share = Math.min(1, Math.max(0, (turn - CREASED) / (SMOOTH - CREASED))) / 8;
  const along = (k: number): number =>
    (positions[3 * a + k]! + positions[3 * b + k]!) / 2 -
    share * (riseA * normals[3 * a + k]! + riseB * normals[3 * b + k]!);
  return [along(0), along(1), along(2)];
}
