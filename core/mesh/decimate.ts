import { closestOnTriangle } from './closest-on-triangle.ts';
import { meshEdges, NO_TRIANGLE } from './mesh-edges.ts';
import type { TriangleMesh } from './triangle-mesh.ts';

/** A coarser mesh on some of the vertices of a finer one, and where every finer vertex lies on it. */
export interface Decimated {
  readonly mesh: TriangleMesh;
  /** The finer vertex that each coarse vertex is; C. */
  readonly kept: Uint32Array;
  /** Corners of the coarse triangle that each finer vertex lies on (a kept one: itself three times); 3*V. */
  readonly parents: Uint32Array;
  /** Shares of those corners, from 0 to 1, summing to 1; 3*V. */
  readonly weights: Float64Array;
  /** The coarse triangle that each finer vertex within a face lies on; NO_TRIANGLE for kept ones and those on lines; V. */
  readonly host: Uint32Array;
}

/** What must be kept. */
export interface DecimateWish {
  /** Stop at this many vertices, or before where nothing more can go. */
  readonly vertexCount: number;
  /** Lines that must stay lines (seams between panels): 1 where a triangle's side k lies on one; 3*T. */
  readonly lines?: Uint8Array;
}

/** No triangle may turn farther than this, nor get worse than this: 2 sqrt(3) area / sum of squared sides, 1 at best. */
const MOST_TURN = Math.cos(Math.PI / 3);
const LEAST_QUALITY = 0.25;

/** The mesh while vertices go. */
interface Shrinking {
  readonly positions: Float64Array;
  /** Corners; a triangle that is gone has its first two alike. 3*T. */
  readonly corners: Uint32Array;
  /** Triangles at each vertex. */
  readonly around: number[][];
  /** Finer vertices that lie on each triangle. */
  readonly carried: number[][];
  /** Neighbours along the free edge or along a line that each vertex may only go to; null within a face. */
  readonly along: (number[] | null)[];
  readonly parents: Uint32Array;
  readonly weights: Float64Array;
}

/**
 * Takes vertices out of a mesh by pulling each onto a neighbour, spread evenly over it, until few enough are left. The
 * surface hangs together as before, free edges and lines keep their course, and every finer vertex lies where it is
 * nearest on the coarse surface.
 *
 * @see Hoppe, DeRose, Duchamp, McDonald & Stuetzle, Mesh optimization, SIGGRAPH 1993 (half-edge collapse, link condition).
 */
export function decimate(mesh: TriangleMesh, { vertexCount, lines }: DecimateWish): Decimated {
  const state = shrinking(mesh, lines);
  const count = mesh.positions.length / 3;
  let left = count;
  const locked = new Uint8Array(count);
  const isGone = new Uint8Array(count);
  while (left > vertexCount) {
    const before = left;
    locked.fill(0);
    for (let v = 0; v < count && left > vertexCount; v++) {
      if (isGone[v] === 1 || locked[v] === 1) continue;
      const onto = bestNeighbour(state, v);
      if (onto < 0) continue;
      for (const t of state.around[v]!) for (let k = 0; k < 3; k++) locked[state.corners[3 * t + k]!] = 1;
      pullOnto(state, v, onto);
      isGone[v] = 1;
      left--;
    }
    if (left === before) break;
  }
  return finished(state, isGone);
}

function shrinking(mesh: TriangleMesh, lines: Uint8Array | undefined): Shrinking {
  const { positions, triangles } = mesh;
  const count = positions.length / 3;
  const around: number[][] = Array.from({ length: count }, () => []);
  for (let i = 0; i < triangles.length; i++) around[triangles[i]!]!.push(Math.floor(i / 3));
  const along: (number[] | null)[] = Array.from({ length: count }, () => null);
  const edges = meshEdges(mesh);
  for (let side = 0; side < triangles.length; side++) {
    if (edges.triangleCount[edges.ofSide[side]!] === 2 && lines?.[side] !== 1) continue;
    const a = triangles[side]!;
    const b = triangles[side % 3 === 2 ? side - 2 : side + 1]!;
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const) {
      const list = (along[from] ??= []);
      if (!list.includes(to)) list.push(to);
    }
  }
  const parents = new Uint32Array(3 * count);
  const weights = new Float64Array(3 * count);
  for (let v = 0; v < count; v++) {
    parents.fill(v, 3 * v, 3 * v + 3);
    weights[3 * v] = 1;
  }
  return {
    positions,
    corners: triangles.slice(),
    around,
    carried: Array.from({ length: triangles.length / 3 }, () => []),
    along,
    parents,
    weights,
  };
}

/** The neighbour that `v` is best pulled onto, or -1 where none will do. */
function bestNeighbour(state: Shrinking, v: number): number {
  const along = state.along[v]!;
  // A vertex in the midst of a line goes along it; a corner, an end or a meeting of lines stays.
  if (along !== null && !goesOn(state, v, along)) return -1;
  let best = -1;
  let bestQuality = LEAST_QUALITY;
  for (const onto of along ?? ring(state, v)) {
    if (!keepsSurface(state, v, onto)) continue;
    const quality = qualityAfter(state, v, onto);
    if (quality > bestQuality) {
      bestQuality = quality;
      best = onto;
    }
  }
  return best;
}

/** Whether a line goes on at `v` without a corner, and is long enough to lose it. */
function goesOn({ positions, along }: Shrinking, v: number, [a, b, more]: readonly number[]): boolean {
  if (a === undefined || b === undefined || more !== undefined || along[a]!.includes(b)) return false;
  let dot = 0;
  let before = 0;
  let after = 0;
  for (let k = 0; k < 3; k++) {
    const come = positions[3 * v + k]! - positions[3 * a + k]!;
    const go = positions[3 * b + k]! - positions[3 * v + k]!;
    dot += come * go;
    before += come * come;
    after += go * go;
  }
  return dot > MOST_TURN * Math.sqrt(before * after);
}

function ring({ corners, around }: Shrinking, v: number): number[] {
  const found: number[] = [];
  for (const t of around[v]!) {
    for (let k = 0; k < 3; k++) {
      const other = corners[3 * t + k]!;
      if (other !== v && !found.includes(other)) found.push(other);
    }
  }
  return found;
}

/** Link condition: both ends share just the vertices across their common edge, and both are not on different edges. */
function keepsSurface(state: Shrinking, v: number, onto: number): boolean {
  const { corners, around } = state;
  let sides = 0;
  for (const t of around[v]!) if (corners.subarray(3 * t, 3 * t + 3).includes(onto)) sides++;
  const ontoRing = ring(state, onto);
  let shared = 0;
  for (const other of ring(state, v)) if (ontoRing.includes(other)) shared++;
  // A tube or strip of three vertices round must not close up.
  return sides > 0 && shared === sides && around[onto]!.length + around[v]!.length - 2 * sides >= 3;
}

/** The worst quality of the triangles that would be left, -1 where one would turn over. */
function qualityAfter({ positions, corners, around }: Shrinking, v: number, onto: number): number {
  let worst = 1;
  for (const t of around[v]!) {
    const a = corners[3 * t]!;
    const b = corners[3 * t + 1]!;
    const c = corners[3 * t + 2]!;
    if (a === onto || b === onto || c === onto) continue;
    const before = shapeOf(positions, a, b, c);
    const after = shapeOf(positions, a === v ? onto : a, b === v ? onto : b, c === v ? onto : c);
    const turn = before.nx * after.nx + before.ny * after.ny + before.nz * after.nz;
    if (turn < MOST_TURN * before.twiceArea * after.twiceArea) return -1;
    worst = Math.min(worst, after.quality);
  }
  return worst;
}

// eslint-disable-next-line max-params -- three corners; called for every triangle of every candidate
function shapeOf(p: Float64Array, a: number, b: number, c: number) {
  const ux = p[3 * b]! - p[3 * a]!;
  const uy = p[3 * b + 1]! - p[3 * a + 1]!;
  const uz = p[3 * b + 2]! - p[3 * a + 2]!;
  const vx = p[3 * c]! - p[3 * a]!;
  const vy = p[3 * c + 1]! - p[3 * a + 1]!;
  const vz = p[3 * c + 2]! - p[3 * a + 2]!;
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const twiceArea = Math.sqrt(nx * nx + ny * ny + nz * nz);
  const u2 = ux * ux + uy * uy + uz * uz;
  const v2 = vx * vx + vy * vy + vz * vz;
  const between = u2 + v2 - 2 * (ux * vx + uy * vy + uz * vz);
  return { nx, ny, nz, twiceArea, quality: (2 * Math.sqrt(3) * twiceArea) / (u2 + v2 + between) };
}

/** Pulls `v` onto a neighbour; what its triangles carried, and `v` itself, is laid on those that are left. */
function pullOnto(state: Shrinking, v: number, onto: number): void {
  const { corners, around, carried, along } = state;
  const loose = [v];
  const left: number[] = [];
  for (const t of around[v]!) {
    for (const one of carried[t]!) loose.push(one);
    carried[t] = [];
    const at = corners.subarray(3 * t, 3 * t + 3);
    if (at.includes(onto)) {
      for (const corner of at) if (corner !== v) remove(around[corner]!, t);
      at.fill(onto);
    } else {
      at[at.indexOf(v)] = onto;
      around[onto]!.push(t);
      left.push(t);
    }
  }
  around[v] = [];
  const line = along[v];
  if (line) {
    const beyond = line.find((other) => other !== onto)!;
    along[onto] = along[onto]!.map((other) => (other === v ? beyond : other));
    along[beyond] = along[beyond]!.map((other) => (other === v ? onto : other));
  }
  const places = left.length > 0 ? left : around[onto]!;
  for (const one of loose) layOn(state, one, places);
}

const remove = (list: number[], item: number): void => {
  const at = list.indexOf(item);
  if (at >= 0) list.splice(at, 1);
};

/** Lays a finer vertex on the nearest of some triangles. */
function layOn(
  { positions, corners, carried, parents, weights }: Shrinking,
  one: number,
  places: number[],
): void {
  const shares = new Float64Array(3);
  const x = positions[3 * one]!;
  const y = positions[3 * one + 1]!;
  const z = positions[3 * one + 2]!;
  let nearest = Infinity;
  let place = places[0]!;
  for (const t of places) {
    const [a, b, c] = [3 * corners[3 * t]!, 3 * corners[3 * t + 1]!, 3 * corners[3 * t + 2]!];
    const away = closestOnTriangle(positions, a, b, c, x, y, z, shares);
    if (away >= nearest) continue;
    nearest = away;
    place = t;
    weights.set(shares, 3 * one);
  }
  parents.set(corners.subarray(3 * place, 3 * place + 3), 3 * one);
  carried[place]!.push(one);
}

function finished(state: Shrinking, isGone: Uint8Array): Decimated {
  const { positions, corners, carried, along, parents, weights } = state;
  const kept = Uint32Array.from(isGone.keys()).filter((v) => isGone[v] === 0);
  const place = new Uint32Array(isGone.length);
  kept.forEach((v, i) => {
    place[v] = i;
  });
  const coarse = new Float64Array(3 * kept.length);
  kept.forEach((v, i) => coarse.set(positions.subarray(3 * v, 3 * v + 3), 3 * i));
  const triangles: number[] = [];
  const host = new Uint32Array(isGone.length).fill(NO_TRIANGLE);
  for (let i = 0; i < corners.length; i += 3) {
    if (corners[i] === corners[i + 1]) continue;
    for (const v of carried[i / 3]!) if (along[v] === null) host[v] = triangles.length / 3;
    triangles.push(place[corners[i]!]!, place[corners[i + 1]!]!, place[corners[i + 2]!]!);
  }
  return {
    mesh: { positions: coarse, triangles: Uint32Array.from(triangles) },
    kept,
    parents: parents.map((v) => place[v]!),
    weights,
    host,
  };
}
