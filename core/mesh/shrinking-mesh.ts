import { closestOnTriangle } from './closest-on-triangle.ts';
import { meshEdges } from './mesh-edges.ts';
import type { TriangleMesh } from './triangle-mesh.ts';

/** A mesh while vertices go. Lists are chained through flat arrays: -1 ends a chain. */
export interface ShrinkingMesh {
  readonly positions: Float64Array;
  /** Corners; a triangle that is gone has its first two alike. 3*T. */
  readonly corners: Uint32Array;
  /** First corner at each vertex, and the next corner at the same vertex; V and 3*T. */
  readonly firstCorner: Int32Array;
  readonly nextCorner: Int32Array;
  /** First vertex gone that lies on each triangle, and the next on the same; T and V. */
  readonly firstCarried: Int32Array;
  readonly nextCarried: Int32Array;
  /** Neighbours along the free edge or along a line, which is all that such a vertex may go to; null within a face. */
  readonly along: (number[] | null)[];
  /** Corners of the triangle that each vertex lies on (one that is left: itself three times), and their shares; 3*V. */
  readonly parents: Uint32Array;
  readonly weights: Float64Array;
}

/** @param lines - 1 where a triangle's side k lies on a line that must stay one; 3*T. */
export function shrinkingMesh(mesh: TriangleMesh, lines: Uint8Array | undefined): ShrinkingMesh {
  const { positions, triangles } = mesh;
  const count = positions.length / 3;
  const firstCorner = new Int32Array(count).fill(-1);
  const nextCorner = new Int32Array(triangles.length);
  for (let i = triangles.length - 1; i >= 0; i--) {
    nextCorner[i] = firstCorner[triangles[i]!]!;
    firstCorner[triangles[i]!] = i;
  }
  const weights = new Float64Array(3 * count);
  for (let v = 0; v < count; v++) weights[3 * v] = 1;
  return {
    positions,
    corners: triangles.slice(),
    firstCorner,
    nextCorner,
    firstCarried: new Int32Array(triangles.length / 3).fill(-1),
    nextCarried: new Int32Array(count).fill(-1),
    along: neighboursAlong(mesh, lines),
    parents: Uint32Array.from(weights, (_, i) => Math.floor(i / 3)),
    weights,
  };
}

function neighboursAlong(mesh: TriangleMesh, lines: Uint8Array | undefined): (number[] | null)[] {
  const { positions, triangles } = mesh;
  const along: (number[] | null)[] = Array.from({ length: positions.length / 3 }, () => null);
  const { ofSide, triangleCount } = meshEdges(mesh);
  const join = (from: number, to: number): void => {
    const list = (along[from] ??= []);
    if (!list.includes(to)) list.push(to);
  };
  for (let side = 0; side < triangles.length; side++) {
    if (triangleCount[ofSide[side]!] === 2 && lines?.[side] !== 1) continue;
    const a = triangles[side]!;
    const b = triangles[side % 3 === 2 ? side - 2 : side + 1]!;
    join(a, b);
    join(b, a);
  }
  return along;
}

/** Pulls `v` onto a neighbour; what its triangles carried, and `v` itself, is laid on those that are left. */
export function pullOnto(mesh: ShrinkingMesh, v: number, onto: number): void {
  const { firstCorner, nextCorner } = mesh;
  const loose = [v];
  for (let i = firstCorner[v]!; i >= 0; i = nextCorner[i]!) takeCarried(mesh, Math.floor(i / 3), loose);
  const left = moveCorners(mesh, v, onto);
  shortenLine(mesh, v, onto);
  if (left.length === 0) for (let i = firstCorner[onto]!; i >= 0; i = nextCorner[i]!) left.push(i - (i % 3));
  for (const one of loose) layOn(mesh, one, left);
}

/** Hands the triangles of `v` to its neighbour; those of both go. @returns First corners of those that are left. */
function moveCorners(mesh: ShrinkingMesh, v: number, onto: number): number[] {
  const { corners, firstCorner, nextCorner } = mesh;
  const left: number[] = [];
  for (let i = firstCorner[v]!, next = 0; i >= 0; i = next) {
    next = nextCorner[i]!;
    const t = i - (i % 3);
    if (corners[t] === onto || corners[t + 1] === onto || corners[t + 2] === onto) {
      for (let k = t; k < t + 3; k++) if (k !== i) unchain(mesh, corners[k]!, k);
      corners[t] = corners[t + 1] = corners[t + 2] = onto;
    } else {
      corners[i] = onto;
      left.push(t);
    }
  }
  firstCorner[v] = -1;
  for (const t of left) {
    const i = corners[t] === onto ? t : corners[t + 1] === onto ? t + 1 : t + 2;
    nextCorner[i] = firstCorner[onto]!;
    firstCorner[onto] = i;
  }
  return left;
}

/** The line or free edge through `v`, if there is one, goes on without it. */
function shortenLine({ along }: ShrinkingMesh, v: number, onto: number): void {
  const line = along[v];
  if (!line) return;
  const beyond = line.find((other) => other !== onto)!;
  along[onto] = along[onto]!.map((other) => (other === v ? beyond : other));
  along[beyond] = along[beyond]!.map((other) => (other === v ? onto : other));
}

function takeCarried({ firstCarried, nextCarried }: ShrinkingMesh, t: number, into: number[]): void {
  for (let one = firstCarried[t]!; one >= 0; one = nextCarried[one]!) into.push(one);
  firstCarried[t] = -1;
}

/** Takes one corner out of its vertex's chain. */
function unchain({ firstCorner, nextCorner }: ShrinkingMesh, vertex: number, corner: number): void {
  if (firstCorner[vertex] === corner) {
    firstCorner[vertex] = nextCorner[corner]!;
    return;
  }
  let i = firstCorner[vertex]!;
  while (nextCorner[i] !== corner) i = nextCorner[i]!;
  nextCorner[i] = nextCorner[corner]!;
}

/** Lays a vertex that is gone on the nearest of some triangles, told by their first corners. */
function layOn(mesh: ShrinkingMesh, one: number, places: readonly number[]): void {
  const { positions, corners, firstCarried, nextCarried, parents, weights } = mesh;
  const shares = new Float64Array(3);
  const x = positions[3 * one]!;
  const y = positions[3 * one + 1]!;
  const z = positions[3 * one + 2]!;
  let nearest = Infinity;
  let place = places[0]!;
  for (const t of places) {
    const [a, b, c] = [3 * corners[t]!, 3 * corners[t + 1]!, 3 * corners[t + 2]!];
    const away = closestOnTriangle(positions, a, b, c, x, y, z, shares);
    if (away >= nearest) continue;
    nearest = away;
    place = t;
    for (let k = 0; k < 3; k++) weights[3 * one + k] = shares[k]!;
  }
  for (let k = 0; k < 3; k++) parents[3 * one + k] = corners[place + k]!;
  nextCarried[one] = firstCarried[place / 3]!;
  firstCarried[place / 3] = one;
}
