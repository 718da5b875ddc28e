import type { TriangleMesh } from '../mesh/triangle-mesh.ts';

/**
 * Carries a value per triangle to the vertices, each vertex taking the area-weighted mean of its triangles.
 *
 * @param values - T.
 * @param areas - Weight per triangle; T.
 * @returns V.
 */
export function spreadToVertices(
  mesh: TriangleMesh,
  values: Float64Array,
  areas: Float64Array,
): Float64Array {
  const vertexCount = mesh.positions.length / 3;
  const sums = new Float64Array(vertexCount);
  const weights = new Float64Array(vertexCount);
  for (let t = 0; t < areas.length; t++) {
    for (let corner = 0; corner < 3; corner++) {
      const v = mesh.triangles[3 * t + corner]!;
      sums[v]! += values[t]! * areas[t]!;
      weights[v]! += areas[t]!;
    }
  }
  return sums.map((sum, v) => (weights[v]! > 0 ? sum / weights[v]! : 0));
}
