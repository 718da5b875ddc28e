import type { ClothLevel } from '../garment/garment.ts';
import { meshEdges, NO_TRIANGLE, oppositeTriangles, type Rows } from '../mesh/mesh-edges.ts';

/** What the hinges of each triangle say: hinge k is the kink at side k, from corner k to corner k + 1. */
export interface HingePatches {
  /** Three corners of each triangle, then the far corners of the neighbours across its sides; 6*T, some missing. */
  readonly vertices: Uint32Array;
  /**
   * The kinks on the surfaces u^2/2, v^2/2 and uv (u along the warp, v along the weft), row by row; 9*T, m. On a free side those
   * that it would have if the triangle were mirrored there.
   */
  readonly ofCurvature: Float64Array;
}

/** Stands in `vertices` where there is no neighbour. */
export const NO_VERTEX = NO_TRIANGLE;

/** Room for one triangle laid flat. */
interface FlatRoom {
  /** Unstretched corners and far corners in (warp, weft), the first corner at the origin; 12. */
  readonly places: Float64Array;
  /** The neighbour's corners in its own (warp, weft); 6. */
  readonly neighbour: Float64Array;
  /** Where over the side the apex and the far corner lie: share along it, height; 2 each. */
  readonly near: Float64Array;
  readonly far: Float64Array;
}

/**
 * The hinges round every triangle, laid flat by unstretched lengths: each neighbour is folded down into the triangle's
 * own plane, so that patches need not fit together over the garment and may cross a seam.
 *
 * The kink at a side is by how much the slope across it is larger in the neighbour than in the triangle; on linear
 * elements the rise from the apex (height h, foot at share s along the side) to the side and on to the apex beyond:
 * kink = f(apex')/h' + f(apex)/h - ((1-s) f(a) + s f(b))/h - ((1-s') f(a) + s' f(b))/h'.
 *
 * @see Grinspun, Gingold, Reisman & Zorin, Computing discrete shape operators on general meshes, Eurographics 2006
 *   (a triangle's curvature from the kinks at its three sides).
 */
export function hingePatches(level: Pick<ClothLevel, 'mesh' | 'restInverse'>): HingePatches {
  const { triangles } = level.mesh;
  const triangleCount = triangles.length / 3;
  const across = oppositeTriangles(meshEdges(level.mesh));
  const patches: HingePatches = {
    vertices: new Uint32Array(6 * triangleCount).fill(NO_VERTEX),
    ofCurvature: new Float64Array(9 * triangleCount),
  };
  const room: FlatRoom = {
    places: new Float64Array(12),
    neighbour: new Float64Array(6),
    near: new Float64Array(2),
    far: new Float64Array(2),
  };
  for (let t = 0; t < triangleCount; t++) {
    for (let k = 0; k < 3; k++) patches.vertices[6 * t + k] = triangles[3 * t + k]!;
    layFlat(level.restInverse, t, room.places);
    for (let k = 0; k < 3; k++) {
      addHinge(level, { t, k, other: across[3 * t + k]! }, room, patches);
    }
  }
  return patches;
}

/** The vertices of all patches, as a pattern of blocks wants them. */
export function patchRows({ vertices }: HingePatches): Rows {
  const start = new Uint32Array(vertices.length / 6 + 1);
  const list = vertices.filter((vertex) => vertex !== NO_VERTEX);
  for (let t = 0; 6 * t < vertices.length; t++) {
    let count = 3;
    for (let k = 3; k < 6; k++) if (vertices[6 * t + k] !== NO_VERTEX) count++;
    start[t + 1] = start[t]! + count;
  }
  return { start, list };
}

function addHinge(
  level: Pick<ClothLevel, 'mesh' | 'restInverse'>,
  { t, k, other }: Side,
  room: FlatRoom,
  { vertices, ofCurvature }: HingePatches,
): void {
  const { places, near, far } = room;
  const b = (k + 1) % 3;
  const corner = 3 + k;
  const x = places[2 * k]!;
  const y = places[2 * k + 1]!;
  const alongX = places[2 * b]! - x;
  const alongY = places[2 * b + 1]! - y;
  setOverSide(places, k, b, near);
  // A free side gets a mirror image for a neighbour: what its kink would be if there were cloth.
  if (other === NO_TRIANGLE) far.set(near);
  else vertices[6 * t + corner] = farCorner(level, { t, k, other }, room);
  const height = Math.abs(near[1]!);
  const farHeight = Math.abs(far[1]!);

  // Folded down on the other side of the edge than the apex.
  const away = (near[1]! > 0 ? -farHeight : farHeight) / Math.hypot(alongX, alongY);
  places[2 * corner] = x + far[0]! * alongX - away * alongY;
  places[2 * corner + 1] = y + far[0]! * alongY + away * alongX;

  const at = 9 * t + 3 * k;
  addKinks(places, k, -(1 - near[0]!) / height - (1 - far[0]!) / farHeight, at, ofCurvature);
  addKinks(places, b, -near[0]! / height - far[0]! / farHeight, at, ofCurvature);
  addKinks(places, (k + 2) % 3, 1 / height, at, ofCurvature);
  addKinks(places, corner, 1 / farHeight, at, ofCurvature);
}

/** What one vertex of a patch, weighed, puts into the kinks of u^2/2, v^2/2 and uv. */
// eslint-disable-next-line max-params -- inner kernel, called 12 times per triangle
function addKinks(places: Float64Array, i: number, weight: number, at: number, into: Float64Array): void {
  const u = places[2 * i]!;
  const v = places[2 * i + 1]!;
  into[at]! += (weight * u * u) / 2;
  into[at + 1]! += (weight * v * v) / 2;
  into[at + 2]! += weight * u * v;
}

/** Side k of triangle t and the triangle beyond it. */
interface Side {
  readonly t: number;
  readonly k: number;
  readonly other: number;
}

/**
 * Where over a side (two corners by number) the third corner lies: share along it, and height above it, below 0 to its
 * right.
 */
function setOverSide(places: Float64Array, from: number, to: number, into: Float64Array): void {
  const corner = 3 - from - to;
  const x = places[2 * from]!;
  const y = places[2 * from + 1]!;
  const sideX = places[2 * to]! - x;
  const sideY = places[2 * to + 1]! - y;
  const cornerX = places[2 * corner]! - x;
  const cornerY = places[2 * corner + 1]! - y;
  const squared = sideX * sideX + sideY * sideY;
  into[0] = (cornerX * sideX + cornerY * sideY) / squared;
  into[1] = (cornerY * sideX - cornerX * sideY) / Math.sqrt(squared);
}

/** Lays the neighbour flat in its own plane and sets where over the common side its far corner lies; returns that vertex. */
function farCorner(
  { mesh: { triangles }, restInverse }: Pick<ClothLevel, 'mesh' | 'restInverse'>,
  { t, k, other }: Side,
  { neighbour, far }: FlatRoom,
): number {
  layFlat(restInverse, other, neighbour);
  const first = triangles[3 * t + k]!;
  const second = triangles[3 * t + ((k + 1) % 3)]!;
  let from = 0;
  let to = 0;
  for (let m = 0; m < 3; m++) {
    const vertex = triangles[3 * other + m]!;
    if (vertex === first) from = m;
    else if (vertex === second) to = m;
  }
  setOverSide(neighbour, from, to, far);
  return triangles[3 * other + 3 - from - to]!;
}

/** Unstretched corners in (warp, weft): the columns of Dm = restInverse^-1, the first corner at the origin. */
function layFlat(restInverse: Float64Array, t: number, into: Float64Array): void {
  const m00 = restInverse[4 * t]!;
  const m01 = restInverse[4 * t + 1]!;
  const m10 = restInverse[4 * t + 2]!;
  const m11 = restInverse[4 * t + 3]!;
  const determinant = m00 * m11 - m01 * m10;
  into[0] = 0;
  into[1] = 0;
  into[2] = m11 / determinant;
  into[3] = -m10 / determinant;
  into[4] = -m01 / determinant;
  into[5] = m00 / determinant;
}
