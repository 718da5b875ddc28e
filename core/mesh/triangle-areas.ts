import type { TriangleMesh } from './triangle-mesh.ts';

/**
 * Area vector per triangle, 3T, m^2: along the outward normal, as long as the area.
 *
 * a = (x1 - x0) x (x2 - x0) / 2.
 */
export function triangleAreaVectors({ positions, triangles }: TriangleMesh): Float64Array {
  const vectors = new Float64Array(triangles.length);
  for (let i = 0; i < triangles.length; i += 3) {
    const a = 3 * triangles[i]!;
    const b = 3 * triangles[i + 1]!;
    const c = 3 * triangles[i + 2]!;
    const ux = positions[b]! - positions[a]!;
    const uy = positions[b + 1]! - positions[a + 1]!;
    const uz = positions[b + 2]! - positions[a + 2]!;
    const vx = positions[c]! - positions[a]!;
    const vy = positions[c + 1]! - positions[a + 1]!;
    const vz = positions[c + 2]! - positions[a + 2]!;
    vectors[i] = (uy * vz - uz * vy) / 2;
    vectors[i + 1] = (uz * vx - ux * vz) / 2;
    vectors[i + 2] = (ux * vy - uy * vx) / 2;
  }
  return vectors;
}

/** Area per triangle, T, m^2. */
export function triangleAreas(mesh: TriangleMesh): Float64Array {
  const vectors = triangleAreaVectors(mesh);
  const areas = new Float64Array(vectors.length / 3);
  for (let t = 0; t < areas.length; t++) {
    areas[t] = Math.hypot(vectors[3 * t]!, vectors[3 * t + 1]!, vectors[3 * t + 2]!);
  }
  return areas;
}

/** Outward unit normal per triangle, 3T; 0 0 0 where it has no area. */
export function triangleNormals(mesh: TriangleMesh): Float64Array {
  return toUnitLength(triangleAreaVectors(mesh));
}

/**
 * Unit normal per vertex, 3V: the triangles' normals weighted by their angle at the vertex, so that cutting a triangle
 * in two changes nothing. 0 0 0 where a vertex belongs to no triangle.
 *
 * @see Baerentzen & Aanaes, Signed distance computation using the angle weighted pseudonormal, IEEE TVCG 11 (2005) 243.
 */
export function vertexNormals(mesh: TriangleMesh): Float64Array {
  const { positions, triangles } = mesh;
  const faces = triangleNormals(mesh);
  const normals = new Float64Array(positions.length);
  for (let i = 0; i < triangles.length; i++) {
    const t = i - (i % 3);
    const v = 3 * triangles[i]!;
    const angle = cornerAngle(
      positions,
      v,
      3 * triangles[t + ((i + 1) % 3)]!,
      3 * triangles[t + ((i + 2) % 3)]!,
    );
    for (let k = 0; k < 3; k++) normals[v + k]! += angle * faces[t + k]!;
  }
  return toUnitLength(normals);
}

/** Volume enclosed by a closed mesh, m^3; negative where the triangles face inwards. */
export function enclosedVolume({ positions, triangles }: TriangleMesh): number {
  let sixfold = 0;
  // About the first vertex, so that a body far from the origin loses no digits.
  const o = 3 * (triangles[0] ?? 0);
  const at = (i: number, k: number): number => positions[3 * triangles[i]! + k]! - positions[o + k]!;
  for (let i = 0; i < triangles.length; i += 3) {
    sixfold +=
      at(i, 0) * (at(i + 1, 1) * at(i + 2, 2) - at(i + 1, 2) * at(i + 2, 1)) +
      at(i, 1) * (at(i + 1, 2) * at(i + 2, 0) - at(i + 1, 0) * at(i + 2, 2)) +
      at(i, 2) * (at(i + 1, 0) * at(i + 2, 1) - at(i + 1, 1) * at(i + 2, 0));
  }
  return sixfold / 6;
}

/** Angle at corner a between the ways to b and c (offsets into positions), rad; stable for slivers. */
function cornerAngle(positions: Float64Array, a: number, b: number, c: number): number {
  const ux = positions[b]! - positions[a]!;
  const uy = positions[b + 1]! - positions[a + 1]!;
  const uz = positions[b + 2]! - positions[a + 2]!;
  const vx = positions[c]! - positions[a]!;
  const vy = positions[c + 1]! - positions[a + 1]!;
  const vz = positions[c + 2]! - positions[a + 2]!;
  const cross = Math.sqrt((uy * vz - uz * vy) ** 2 + (uz * vx - ux * vz) ** 2 + (ux * vy - uy * vx) ** 2);
  return Math.atan2(cross, ux * vx + uy * vy + uz * vz);
}

/** Scales every triple to length 1 in place; triples without length stay. */
function toUnitLength(vectors: Float64Array): Float64Array {
  for (let i = 0; i < vectors.length; i += 3) {
    const length = Math.sqrt(vectors[i]! ** 2 + vectors[i + 1]! ** 2 + vectors[i + 2]! ** 2);
    if (length === 0) continue;
    vectors[i]! /= length;
    vectors[i + 1]! /= length;
    vectors[i + 2]! /= length;
  }
  return vectors;
}
