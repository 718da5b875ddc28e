import type { ClothLevel } from '../garment/garment.ts';
import { meshEdges, NO_TRIANGLE, oppositeTriangles, type Rows } from '../mesh/mesh-edges.ts';

/** What the hinges of each triangle say: hinge k is the kink at side k, from corner k to corner k + 1. */
export interface HingePatches {
  /** Three corners of each triangle, then the far corners of the neighbours across its sides; 6*T, some missing. */
  readonly vertices: Uint32Array;
  /**
   * Weights of the patch's vertices in its kinks, row by row: by how much the slope across the side is larger in the
   * neighbour than in the triangle, for whatever is given per vertex; 18*T, 1/m. Zeros where there is no neighbour.
   */
  readonly kinks: Float64Array;
  /** The kinks on the surfaces u^2/2, v^2/2 and uv (u along the warp, v along the weft), row by row; 9*T, m. */
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
}

/**
 * The hinges round every triangle, laid flat by unstretched lengths: each neighbour is folded down into the triangle's
 * own plane, so that patches need not fit together over the garment and may cross a seam.
 *
 * On a linear element the slope across a side of length l is the rise from its apex (height h, foot at share s along the
 * side) to the side: kink = f(apex')/h' + f(apex)/h - ((1-s) f(a) + s f(b))/h - ((1-s') f(a) + s' f(b))/h'.
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
    kinks: new Float64Array(18 * triangleCount),
    ofCurvature: new Float64Array(9 * triangleCount),
  };
  const room: FlatRoom = { places: new Float64Array(12), neighbour: new Float64Array(6) };
  for (let t = 0; t < triangleCount; t++) {
    for (let k = 0; k < 3; k++) patches.vertices[6 * t + k] = triangles[3 * t + k]!;
    layFlat(level.restInverse, t, room.places);
    for (let k = 0; k < 3; k++) {
      const other = across[3 * t + k]!;
      if (other !== NO_TRIANGLE) addHinge(level, { t, k, other }, room, patches);
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
  { mesh: { triangles }, restInverse }: Pick<ClothLevel, 'mesh' | 'restInverse'>,
  { t, k, other }: { t: number; k: number; other: number },
  { places, neighbour }: FlatRoom,
  { vertices, kinks, ofCurvature }: HingePatches,
): void {
  const b = (k + 1) % 3;
  const c = (k + 2) % 3;
  const x = places[2 * k]!;
  const y = places[2 * k + 1]!;
  const alongX = places[2 * b]! - x;
  const alongY = places[2 * b + 1]! - y;
  const squared = alongX * alongX + alongY * alongY;
  const share = ((places[2 * c]! - x) * alongX + (places[2 * c + 1]! - y) * alongY) / squared;
  const area = (places[2 * c + 1]! - y) * alongX - (places[2 * c]! - x) * alongY;
  const length = Math.sqrt(squared);
  const height = Math.abs(area) / length;

  // The neighbour in its own plane: where over the common side its far corner lies.
  layFlat(restInverse, other, neighbour);
  const first = triangles[3 * t + k]!;
  const second = triangles[3 * t + b]!;
  let from = 0;
  let to = 0;
  let far = 0;
  for (let m = 0; m < 3; m++) {
    const vertex = triangles[3 * other + m]!;
    if (vertex === first) from = m;
    else if (vertex === second) to = m;
    else far = m;
  }
  const sideX = neighbour[2 * to]! - neighbour[2 * from]!;
  const sideY = neighbour[2 * to + 1]! - neighbour[2 * from + 1]!;
  const farX = neighbour[2 * far]! - neighbour[2 * from]!;
  const farY = neighbour[2 * far + 1]! - neighbour[2 * from + 1]!;
  const side = sideX * sideX + sideY * sideY;
  const farShare = (farX * sideX + farY * sideY) / side;
  const farHeight = Math.abs(farY * sideX - farX * sideY) / Math.sqrt(side);

  // Folded down on the other side of the edge than the apex.
  const away = ((area > 0 ? -1 : 1) * farHeight) / length;
  const corner = 3 + k;
  places[2 * corner] = x + farShare * alongX - away * alongY;
  places[2 * corner + 1] = y + farShare * alongY + away * alongX;
  vertices[6 * t + corner] = triangles[3 * other + far]!;

  const row = 18 * t + 6 * k;
  kinks[row + k] = -(1 - share) / height - (1 - farShare) / farHeight;
  kinks[row + b] = -share / height - farShare / farHeight;
  kinks[row + c] = 1 / height;
  kinks[row + corner] = 1 / farHeight;
  for (const i of [k, b, c, corner]) {
    const weight = kinks[row + i]!;
    const u = places[2 * i]!;
    const v = places[2 * i + 1]!;
    ofCurvature[9 * t + 3 * k]! += (weight * u * u) / 2;
    ofCurvature[9 * t + 3 * k + 1]! += (weight * v * v) / 2;
    ofCurvature[9 * t + 3 * k + 2]! += weight * u * v;
  }
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
