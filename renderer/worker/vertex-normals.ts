import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';

/** Unit normals at the vertices, each triangle weighing by its area; 3·V, zero where a vertex has no triangle. */
export function vertexNormals({ positions: p, triangles }: TriangleMesh): Float64Array {
  const normals = new Float64Array(p.length);
  // Scalars throughout: this runs for every skin at every settling, and small arrays would cost most of it.
  for (let corner = 0; corner < triangles.length; corner += 3) {
    const a = 3 * triangles[corner]!;
    const b = 3 * triangles[corner + 1]!;
    const c = 3 * triangles[corner + 2]!;
    const ux = p[b]! - p[a]!;
    const uy = p[b + 1]! - p[a + 1]!;
    const uz = p[b + 2]! - p[a + 2]!;
    const vx = p[c]! - p[a]!;
    const vy = p[c + 1]! - p[a + 1]!;
    const vz = p[c + 2]! - p[a + 2]!;
    const x = uy * vz - uz * vy;
    const y = uz * vx - ux * vz;
    const z = ux * vy - uy * vx;
    normals[a]! += x;
    normals[a + 1]! += y;
    normals[a + 2]! += z;
    normals[b]! += x;
    normals[b + 1]! += y;
    normals[b + 2]! += z;
    normals[c]! += x;
    normals[c + 1]! += y;
    normals[c + 2]! += z;
  }
  for (let v = 0; v < normals.length; v += 3) {
    const x = normals[v]!;
    const y = normals[v + 1]!;
    const z = normals[v + 2]!;
    const length = Math.sqrt(x * x + y * y + z * z) || 1;
    normals[v] = x / length;
    normals[v + 1] = y / length;
    normals[v + 2] = z / length;
  }
  return normals;
}
