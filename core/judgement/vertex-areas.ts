/**
 * The part of a surface that belongs to each vertex: a third of every triangle it is a corner of.
 *
 * @param positions - 3·V, m.
 * @param triangles - 3·T.
 * @returns V, m²; they add up to the surface.
 */
export function vertexAreas(positions: Float64Array, triangles: Uint32Array): Float64Array {
  const areas = new Float64Array(positions.length / 3);
  for (let corner = 0; corner < triangles.length; corner += 3) {
    const [a, b, c] = [triangles[corner]!, triangles[corner + 1]!, triangles[corner + 2]!];
    const share = triangleArea(positions, a, b, c) / 3;
    areas[a]! += share;
    areas[b]! += share;
    areas[c]! += share;
  }
  return areas;
}

/** Half the length of (b - a) x (c - a). */
function triangleArea(p: Float64Array, a: number, b: number, c: number): number {
  const ux = p[3 * b]! - p[3 * a]!;
  const uy = p[3 * b + 1]! - p[3 * a + 1]!;
  const uz = p[3 * b + 2]! - p[3 * a + 2]!;
  const vx = p[3 * c]! - p[3 * a]!;
  const vy = p[3 * c + 1]! - p[3 * a + 1]!;
  const vz = p[3 * c + 2]! - p[3 * a + 2]!;
  return 0.5 * Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx);
}
