import { NO_TRIANGLE } from './mesh-edges.ts';
import { pullOnto, shrinkingMesh, type ShrinkingMesh } from './shrinking-mesh.ts';
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
  /** The finer triangle that each coarse one is what is left of: on the same side of every line; coarse T. */
  readonly leftOf: Uint32Array;
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

/** What is known of the surroundings of the vertex that is looked at. */
interface Surroundings {
  /** Its neighbours. */
  readonly ring: number[];
  /** Number of the latest search in which a vertex was found in the ring, and in which it was counted; V each. */
  readonly inRing: Uint32Array;
  readonly counted: Uint32Array;
  readonly latest: { ring: number; count: number };
  readonly shape: TriangleShape;
}

/**
 * Takes vertices out of a mesh by pulling each onto a neighbour, spread evenly over it, until few enough are left. The
 * surface hangs together as before, free edges and lines keep their course, and every finer vertex lies where it is
 * nearest on the coarse surface.
 *
 * @see Hoppe, DeRose, Duchamp, McDonald & Stuetzle, Mesh optimization, SIGGRAPH 1993 (half-edge collapse, link condition).
 */
export function decimate(mesh: TriangleMesh, { vertexCount, lines }: DecimateWish): Decimated {
  const shrinking = shrinkingMesh(mesh, lines);
  const count = mesh.positions.length / 3;
  const around: Surroundings = {
    ring: [],
    inRing: new Uint32Array(count),
    counted: new Uint32Array(count),
    latest: { ring: 0, count: 0 },
    shape: { nx: 0, ny: 0, nz: 0, quality: 0 },
  };
  let left = count;
  const locked = new Uint8Array(count);
  const isGone = new Uint8Array(count);
  while (left > vertexCount) {
    const before = left;
    locked.fill(0);
    for (let v = 0; v < count && left > vertexCount; v++) {
      if (isGone[v] === 1 || locked[v] === 1) continue;
      const onto = bestNeighbour(shrinking, v, around);
      if (onto < 0) continue;
      locked[v] = 1;
      for (const other of around.ring) locked[other] = 1;
      pullOnto(shrinking, v, onto);
      isGone[v] = 1;
      left--;
    }
    if (left === before) break;
  }
  return finished(shrinking, isGone);
}

/** The neighbour that `v` is best pulled onto, or -1 where none will do. */
function bestNeighbour(mesh: ShrinkingMesh, v: number, around: Surroundings): number {
  const along = mesh.along[v]!;
  // A vertex in the midst of a line goes along it; a corner, an end or a meeting of lines stays.
  if (along !== null && !goesOn(mesh, v, along)) return -1;
  findRing(mesh, v, around);
  let best = -1;
  let bestQuality = LEAST_QUALITY;
  for (const onto of along ?? around.ring) {
    if (!keepsSurface(mesh, v, onto, around)) continue;
    const quality = qualityAfter(mesh, v, onto, around.shape);
    if (quality > bestQuality) {
      bestQuality = quality;
      best = onto;
    }
  }
  return best;
}

/** Whether a line goes on at `v` without a corner, and is long enough to lose it. */
function goesOn({ positions, along }: ShrinkingMesh, v: number, [a, b, more]: readonly number[]): boolean {
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

function findRing(
  { corners, firstCorner, nextCorner }: ShrinkingMesh,
  v: number,
  around: Surroundings,
): void {
  const { ring, inRing, latest } = around;
  const mark = ++latest.ring;
  ring.length = 0;
  for (let i = firstCorner[v]!; i >= 0; i = nextCorner[i]!) {
    const t = i - (i % 3);
    for (let k = t; k < t + 3; k++) {
      const other = corners[k]!;
      if (other === v || inRing[other] === mark) continue;
      inRing[other] = mark;
      ring.push(other);
    }
  }
}

/** Link condition: both ends share just the vertices across their common edge, and both are not on different edges. */
function keepsSurface(
  { corners, firstCorner, nextCorner }: ShrinkingMesh,
  v: number,
  onto: number,
  { inRing, counted, latest }: Surroundings,
): boolean {
  const mark = ++latest.count;
  let common = 0;
  let triangles = 0;
  let shared = 0;
  for (let i = firstCorner[onto]!; i >= 0; i = nextCorner[i]!) {
    const t = i - (i % 3);
    triangles++;
    for (let k = t; k < t + 3; k++) {
      const other = corners[k]!;
      if (other === v) common++;
      else if (inRing[other] === latest.ring && counted[other] !== mark && other !== onto) {
        counted[other] = mark;
        shared++;
      }
    }
  }
  for (let i = firstCorner[v]!; i >= 0; i = nextCorner[i]!) triangles++;
  // A tube or strip of three vertices round must not close up.
  return common > 0 && shared === common && triangles - 2 * common >= 3;
}

/** The worst quality of the triangles that would be left, -1 where one would turn over. */
function qualityAfter(
  { positions, corners, firstCorner, nextCorner }: ShrinkingMesh,
  v: number,
  onto: number,
  shape: TriangleShape,
): number {
  let worst = 1;
  for (let i = firstCorner[v]!; i >= 0; i = nextCorner[i]!) {
    const t = i - (i % 3);
    const b = corners[t + ((i + 1) % 3)]!;
    const c = corners[t + ((i + 2) % 3)]!;
    if (b === onto || c === onto) continue;
    readShape(positions, v, b, c, shape);
    const { nx, ny, nz } = shape;
    readShape(positions, onto, b, c, shape);
    const turn = nx * shape.nx + ny * shape.ny + nz * shape.nz;
    const before = nx * nx + ny * ny + nz * nz;
    const after = shape.nx * shape.nx + shape.ny * shape.ny + shape.nz * shape.nz;
    if (turn < MOST_TURN * Math.sqrt(before * after)) return -1;
    if (shape.quality < worst) worst = shape.quality;
  }
  return worst;
}

/** Normal, as long as twice the area, and quality of a triangle. */
interface TriangleShape {
  nx: number;
  ny: number;
  nz: number;
  quality: number;
}

// eslint-disable-next-line max-params -- three corners; called for every triangle of every candidate
function readShape(p: Float64Array, a: number, b: number, c: number, into: TriangleShape): void {
  const ux = p[3 * b]! - p[3 * a]!;
  const uy = p[3 * b + 1]! - p[3 * a + 1]!;
  const uz = p[3 * b + 2]! - p[3 * a + 2]!;
  const vx = p[3 * c]! - p[3 * a]!;
  const vy = p[3 * c + 1]! - p[3 * a + 1]!;
  const vz = p[3 * c + 2]! - p[3 * a + 2]!;
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const u2 = ux * ux + uy * uy + uz * uz;
  const v2 = vx * vx + vy * vy + vz * vz;
  const between = u2 + v2 - 2 * (ux * vx + uy * vy + uz * vz);
  into.nx = nx;
  into.ny = ny;
  into.nz = nz;
  into.quality = (2 * Math.sqrt(3) * Math.sqrt(nx * nx + ny * ny + nz * nz)) / (u2 + v2 + between);
}

function finished(mesh: ShrinkingMesh, isGone: Uint8Array): Decimated {
  const { positions, corners, firstCarried, nextCarried, along, parents, weights } = mesh;
  const kept = Uint32Array.from(isGone.keys()).filter((v) => isGone[v] === 0);
  const place = new Uint32Array(isGone.length);
  const coarse = new Float64Array(3 * kept.length);
  kept.forEach((v, i) => {
    place[v] = i;
    for (let k = 0; k < 3; k++) coarse[3 * i + k] = positions[3 * v + k]!;
  });
  const triangles: number[] = [];
  const leftOf: number[] = [];
  const host = new Uint32Array(isGone.length).fill(NO_TRIANGLE);
  for (let t = 0; t < corners.length; t += 3) {
    if (corners[t] === corners[t + 1]) continue;
    for (let v = firstCarried[t / 3]!; v >= 0; v = nextCarried[v]!) {
      if (along[v] === null) host[v] = triangles.length / 3;
    }
    leftOf.push(t / 3);
    triangles.push(place[corners[t]!]!, place[corners[t + 1]!]!, place[corners[t + 2]!]!);
  }
  return {
    mesh: { positions: coarse, triangles: Uint32Array.from(triangles) },
    kept,
    parents: parents.map((v) => place[v]!),
    weights,
    host,
    leftOf: Uint32Array.from(leftOf),
  };
}
