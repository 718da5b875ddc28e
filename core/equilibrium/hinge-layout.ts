import type { ClothLevel } from '../garment/garment.ts';
import { meshEdges, NO_TRIANGLE } from '../mesh/mesh-edges.ts';
import type { BendingTensor } from './bending-force.ts';
import type { HingeAngles } from './hinge-angles.ts';
import { hingePatches, type HingePatches } from './hinge-patches.ts';

/** A curvature that a triangle's hinges hardly see is held by at most 1 / this of what is usual. */
const UNSEEN = 1e-4;
/** Stands where a side has no hinge. */
export const NO_HINGE = NO_TRIANGLE;

/** What resists bending on one level of cloth. */
export interface Hinges {
  readonly patches: HingePatches;
  /** Hinge of each triangle side; 3*T. */
  readonly ofSide: Uint32Array;
  /** Moment at each of a triangle's hinges per angle at each, its area included; 9*T, N*m. */
  readonly metric: Float64Array;
  /** Where in the triangle's patch the four vertices of each of its hinges stand; 12*T. */
  readonly placeInPatch: Uint8Array;
  /** As the cloth lies now. */
  readonly angles: HingeAngles;
}

/** Lays out the hinges of a level; depends on its unstretched shape only. */
export function layHinges(
  level: Pick<ClothLevel, 'mesh' | 'restInverse' | 'restArea'>,
  tensor: BendingTensor,
): Hinges {
  const { triangles } = level.mesh;
  const edges = meshEdges(level.mesh);
  const hingeOf = new Uint32Array(edges.triangleCount.length).fill(NO_HINGE);
  let count = 0;
  edges.triangles.forEach((t, i) => {
    if (i % 2 === 1 && t !== NO_TRIANGLE) hingeOf[i >> 1] = count++;
  });
  const patches = hingePatches(level);
  const vertices = new Uint32Array(4 * count);
  const ofSide = edges.ofSide.map((edge) => hingeOf[edge]!);
  // Both triangles of a hinge write it; that the second writes it the other way round makes no difference to its angle.
  for (let side = 0; side < ofSide.length; side++) {
    const hinge = ofSide[side]!;
    if (hinge === NO_HINGE) continue;
    const t = Math.floor(side / 3);
    const k = side % 3;
    vertices[4 * hinge] = triangles[side]!;
    vertices[4 * hinge + 1] = triangles[3 * t + ((k + 1) % 3)]!;
    vertices[4 * hinge + 2] = triangles[3 * t + ((k + 2) % 3)]!;
    vertices[4 * hinge + 3] = patches.vertices[6 * t + 3 + k]!;
  }
  const metric = new Float64Array(9 * level.restArea.length);
  for (let t = 0; t < level.restArea.length; t++) {
    setMetric(patches, t, tensor, metric.subarray(9 * t, 9 * t + 9));
    for (let i = 9 * t; i < 9 * t + 9; i++) metric[i]! *= level.restArea[t]!;
  }
  return {
    patches,
    ofSide,
    metric,
    placeInPatch: placesInPatch(patches, ofSide, vertices),
    angles: { vertices, angle: new Float64Array(count), slopes: new Float64Array(12 * count) },
  };
}

function placesInPatch(
  { vertices: patch }: HingePatches,
  ofSide: Uint32Array,
  vertices: Uint32Array,
): Uint8Array {
  const places = new Uint8Array(4 * ofSide.length);
  for (let side = 0; side < ofSide.length; side++) {
    if (ofSide[side] === NO_HINGE) continue;
    const first = 6 * Math.floor(side / 3);
    for (let i = 0; i < 4; i++) {
      const vertex = vertices[4 * ofSide[side]! + i]!;
      let place = 0;
      while (patch[first + place] !== vertex) place++;
      places[4 * side + i] = place;
    }
  }
  return places;
}

/**
 * S = (M D^-1 M' + a little)^-1 of one triangle, by cofactors; N*m.
 *
 * @param into - 9, overwritten.
 */
function setMetric(
  { ofCurvature }: HingePatches,
  t: number,
  { warp, weft, twist }: BendingTensor,
  into: Float64Array,
): void {
  const between = (e: number, f: number): number => {
    const p = 9 * t + 3 * e;
    const q = 9 * t + 3 * f;
    return (
      (ofCurvature[p]! * ofCurvature[q]!) / warp +
      (ofCurvature[p + 1]! * ofCurvature[q + 1]!) / weft +
      (ofCurvature[p + 2]! * ofCurvature[q + 2]!) / (4 * twist)
    );
  };
  const little = (UNSEEN * (between(0, 0) + between(1, 1) + between(2, 2))) / 3;
  const a = between(0, 0) + little;
  const b = between(1, 1) + little;
  const c = between(2, 2) + little;
  const ab = between(0, 1);
  const bc = between(1, 2);
  const ca = between(2, 0);
  const aa = b * c - bc * bc;
  const abCofactor = bc * ca - ab * c;
  const caCofactor = ab * bc - ca * b;
  const determinant = a * aa + ab * abCofactor + ca * caCofactor;
  into[0] = aa / determinant;
  into[4] = (c * a - ca * ca) / determinant;
  into[8] = (a * b - ab * ab) / determinant;
  into[1] = into[3] = abCofactor / determinant;
  into[5] = into[7] = (ab * ca - bc * a) / determinant;
  into[2] = into[6] = caCofactor / determinant;
}
