import { BufferAttribute, BufferGeometry } from 'three';

/** Cloth as it is drawn: a mid-surface. */
export interface MidSurface {
  /** 3·V, m. */
  readonly positions: Float64Array;
  /** 3·T. */
  readonly triangles: Uint32Array;
}

/**
 * Cloth with its thickness: both faces half a thickness off the mid-surface, and a wall along its cut edge.
 *
 * @param thickness - m.
 */
export function slabGeometry({ positions, triangles }: MidSurface, thickness: number): BufferGeometry {
  const normals = vertexNormals(positions, triangles);
  const cut = cutEdges(triangles);
  const count = positions.length / 3;
  // Upper face, lower face, then four corners of wall per cut edge, so that the edge stays sharp.
  const points = new Float32Array(3 * (2 * count + 4 * cut.length));
  const index: number[] = [];
  for (let i = 0; i < positions.length; i++) {
    const off = (thickness / 2) * normals[i]!;
    points[i] = positions[i]! + off;
    points[3 * count + i] = positions[i]! - off;
  }
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!];
    index.push(a, b, c, count + a, count + c, count + b);
  }
  cut.forEach(([from, to], edge) => {
    const first = 2 * count + 4 * edge;
    [from, to, count + from, count + to].forEach((source, corner) => {
      points.copyWithin(3 * (first + corner), 3 * source, 3 * source + 3);
    });
    index.push(first, first + 2, first + 1, first + 1, first + 2, first + 3);
  });
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(points, 3));
  geometry.setIndex(index);
  geometry.computeVertexNormals();
  return geometry;
}

/** Unit normals, weighted by area; 3·V. */
function vertexNormals(positions: Float64Array, triangles: Uint32Array): Float64Array {
  const normals = new Float64Array(positions.length);
  const edge = (from: number, to: number, k: number): number => positions[to + k]! - positions[from + k]!;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    for (let k = 0; k < 3; k++) {
      const [i, j] = [(k + 1) % 3, (k + 2) % 3];
      const part = edge(a, b, i) * edge(a, c, j) - edge(a, b, j) * edge(a, c, i);
      for (const corner of [a, b, c]) normals[corner + k]! += part;
    }
  }
  for (let i = 0; i < normals.length; i += 3) {
    const length = Math.hypot(normals[i]!, normals[i + 1]!, normals[i + 2]!) || 1;
    for (let k = 0; k < 3; k++) normals[i + k]! /= length;
  }
  return normals;
}

/** Edges of one triangle only, in that triangle's order. */
export function cutEdges(triangles: Uint32Array): (readonly [number, number])[] {
  const seen = new Map<string, readonly [number, number] | null>();
  for (let t = 0; t < triangles.length; t += 3) {
    for (let k = 0; k < 3; k++) {
      const from = triangles[t + k]!;
      const to = triangles[t + ((k + 1) % 3)]!;
      const key = from < to ? `${from} ${to}` : `${to} ${from}`;
      seen.set(key, seen.has(key) ? null : [from, to]);
    }
  }
  return [...seen.values()].filter((edge) => edge !== null);
}
