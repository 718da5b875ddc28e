import { NO_TRIANGLE } from '../mesh/mesh-edges.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';

/** A mesh with what is flat about it. */
interface FlatSurface {
  readonly mesh: TriangleMesh;
  /** Unit; 3T. */
  readonly triangleNormals: Float64Array;
  /** Triangle across each side; 3T. */
  readonly opposite: Uint32Array;
}

/** An edge of a mesh at which its two triangles turn too far for a curve to be seen in them. */
export interface SharpEdge {
  readonly from: number;
  readonly to: number;
  /** Between the normals of its triangles, rad. */
  readonly turn: number;
  /** Its two triangles. */
  readonly sides: readonly [number, number];
}

/**
 * A curve of radius R meshed in steps e turns by e / R at each edge. From 1 rad on the step is longer than the radius:
 * nothing tells such a curve from an edge.
 */
const UNRESOLVED = 1;

/** The edges that turn by more than 1 rad, each once. */
export function sharpEdges({ mesh, triangleNormals, opposite }: FlatSurface): SharpEdge[] {
  const found: SharpEdge[] = [];
  const least = Math.cos(UNRESOLVED);
  for (let side = 0; side < opposite.length; side++) {
    const t = Math.floor(side / 3);
    const across = opposite[side]!;
    if (across === NO_TRIANGLE || across < t) continue;
    const cos = cosBetween(triangleNormals, t, across);
    if (!(cos < least) || !hasNormal(triangleNormals, t) || !hasNormal(triangleNormals, across)) continue;
    const next = side % 3 === 2 ? side - 2 : side + 1;
    found.push({
      from: mesh.triangles[side]!,
      to: mesh.triangles[next]!,
      turn: Math.acos(Math.max(-1, cos)),
      sides: [t, across],
    });
  }
  return found;
}

/** Whether a triangle is a flat piece by itself: it turns by less than half a degree at every edge but one. */
export function isOfFlatCut({ triangleNormals, opposite }: FlatSurface, t: number): boolean {
  const turned = [0, 1, 2].filter((side) => {
    const across = opposite[3 * t + side]!;
    return across === NO_TRIANGLE || cosBetween(triangleNormals, t, across) < FLAT;
  });
  return turned.length <= 1;
}

/** Cosine of half a degree. */
const FLAT = 0.99996;

const cosBetween = (normals: Float64Array, t: number, other: number): number =>
  normals[3 * t]! * normals[3 * other]! +
  normals[3 * t + 1]! * normals[3 * other + 1]! +
  normals[3 * t + 2]! * normals[3 * other + 2]!;

/** A triangle without area has no normal. */
const hasNormal = (normals: Float64Array, t: number): boolean => cosBetween(normals, t, t) > 0.5;
