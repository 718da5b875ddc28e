import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';

/** Unit normals at the vertices, each triangle weighing by its area; 3·V, zero where a vertex has no triangle. */
export function vertexNormals({ positions: p, triangles }: TriangleMesh): Float64Array {
  const normals = new Float64Array(p.length);
  for (let corner = 0; corner < triangles.length; corner += 3) {
    const a = 3 * triangles[corner]!;
    const b = 3 * triangles[corner + 1]!;
    const c = 3 * triangles[corner + 2]!;
    const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
    const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
    const cross = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx] as const;
    for (const vertex of [a, b, c]) {
      for (let k = 0; k < 3; k++) normals[vertex + k]! += cross[k]!;
    }
  }
  for (let v = 0; v < normals.length; v += 3) {
    const length = Math.hypot(normals[v]!, normals[v + 1]!, normals[v + 2]!) || 1;
    for (let k = 0; k < 3; k++) normals[v + k]! /= length;
  }
  return normals;
}
