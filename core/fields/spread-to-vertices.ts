import type { TriangleMesh } from '../mesh/triangle-mesh.ts';

/**
 * Carries values per triangle to the vertices, each vertex taking the weighted mean of its triangles.
 *
 * @param areas - Weight per triangle; T.
 * @returns From values per triangle (T) to values per vertex (V); 0 where all weights are.
 */
export function spreadToVertices(
  { positions, triangles }: TriangleMesh,
  areas: Float64Array,
): (values: ArrayLike<number>) => Float64Array {
  const weights = new Float64Array(positions.length / 3);
  for (let i = 0; i < triangles.length; i++) weights[triangles[i]!]! += areas[(i / 3) | 0]!;
  return (values) => {
    const means = new Float64Array(weights.length);
    for (let t = 0; t < areas.length; t++) {
      const share = values[t]! * areas[t]!;
      for (let corner = 0; corner < 3; corner++) means[triangles[3 * t + corner]!]! += share;
    }
    for (let v = 0; v < means.length; v++) if (weights[v]! > 0) means[v]! /= weights[v]!;
    return means;
  };
}
