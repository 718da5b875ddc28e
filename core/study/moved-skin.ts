import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { vertexNormals } from '../mesh/triangle-areas.ts';

/**
 * A skin as it lies after each of its vertices has moved in along its normal; bulges, below 0, move out.
 *
 * @param movement - Per vertex, m; V.
 * @returns 3*V, m.
 */
export function movedSkin(skin: TriangleMesh, movement: Float64Array): Float64Array {
  const normals = vertexNormals(skin);
  return skin.positions.map((x, i) => x - movement[Math.floor(i / 3)]! * normals[i]!);
}
