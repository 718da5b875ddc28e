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
    let cos = 0;
    for (let k = 0; k < 3; k++) cos += triangleNormals[3 * t + k]! * triangleNormals[3 * across + k]!;
    if (cos >= least) continue;
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
