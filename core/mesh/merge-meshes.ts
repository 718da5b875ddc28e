import type { TriangleMesh } from './triangle-mesh.ts';

/** Several meshes end to end, nothing joined, and which of them each triangle is from (T). */
export function mergeMeshes(meshes: readonly TriangleMesh[]): {
  readonly mesh: TriangleMesh;
  readonly sourceOf: Uint32Array;
} {
  const positions = new Float64Array(meshes.reduce((sum, mesh) => sum + mesh.positions.length, 0));
  const triangles = new Uint32Array(meshes.reduce((sum, mesh) => sum + mesh.triangles.length, 0));
  const sourceOf = new Uint32Array(triangles.length / 3);
  let position = 0;
  let corner = 0;
  meshes.forEach((mesh, source) => {
    const first = position / 3;
    positions.set(mesh.positions, position);
    for (let i = 0; i < mesh.triangles.length; i++) triangles[corner + i] = first + mesh.triangles[i]!;
    sourceOf.fill(source, corner / 3, (corner + mesh.triangles.length) / 3);
    position += mesh.positions.length;
    corner += mesh.triangles.length;
  });
  return { mesh: { positions, triangles }, sourceOf };
}

/** The triangles for which `isKept` is not 0, with the vertices that they name, in the old order. */
export function keptTriangles(
  { positions, triangles }: TriangleMesh,
  isKept: ArrayLike<number>,
): TriangleMesh {
  const newIndex = new Int32Array(positions.length / 3).fill(-1);
  let triangleCount = 0;
  for (let t = 0; t < triangles.length / 3; t++) {
    if (!isKept[t]) continue;
    triangleCount++;
    for (let i = 3 * t; i < 3 * t + 3; i++) newIndex[triangles[i]!] = 0;
  }
  let vertexCount = 0;
  for (let v = 0; v < newIndex.length; v++) if (newIndex[v] === 0) newIndex[v] = vertexCount++;
  const kept = {
    positions: new Float64Array(3 * vertexCount),
    triangles: new Uint32Array(3 * triangleCount),
  };
  for (let v = 0; v < newIndex.length; v++) {
    const to = newIndex[v]!;
    if (to < 0) continue;
    for (let k = 0; k < 3; k++) kept.positions[3 * to + k] = positions[3 * v + k]!;
  }
  let at = 0;
  for (let t = 0; t < triangles.length / 3; t++) {
    if (isKept[t]) for (let i = 3 * t; i < 3 * t + 3; i++) kept.triangles[at++] = newIndex[triangles[i]!]!;
  }
  return kept;
}
