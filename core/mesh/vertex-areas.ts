import type { TriangleMesh } from './triangle-mesh.ts';

/**
 * Area each vertex stands for, V, m^2; they add up to the surface.
 *
 * A vertex takes the part of each triangle that lies nearest to it (its Voronoi part), so that the way quadrilaterals
 * were split does not matter; of an obtuse triangle the obtuse corner takes half and the others a quarter. A third of
 * each triangle instead gave single vertices of a regular tube 50 % too much or too little pressure.
 *
 * A_i = 1/8 sum (|x_i - x_j|^2 cot(k) + |x_i - x_k|^2 cot(j)).
 *
 * @see Meyer, Desbrun, Schroeder & Barr, Discrete differential-geometry operators for triangulated 2-manifolds, 2003,
 *   section 3.3 (mixed area).
 */
export function vertexAreas({ positions, triangles }: TriangleMesh): Float64Array {
  const areas = new Float64Array(positions.length / 3);
  setVertexAreas(triangles, positions, areas);
  return areas;
}

/**
 * As {@link vertexAreas}, for loops that ask again and again.
 *
 * @param into - V, overwritten.
 */
export function setVertexAreas(triangles: Uint32Array, positions: Float64Array, into: Float64Array): void {
  into.fill(0);
  for (let i = 0; i < triangles.length; i += 3) {
    const a = triangles[i]!;
    const b = triangles[i + 1]!;
    const c = triangles[i + 2]!;
    const ab = squaredLength(positions, a, b);
    const bc = squaredLength(positions, b, c);
    const ca = squaredLength(positions, c, a);
    // Twice the scalar product at each corner; its sign tells an obtuse angle.
    const atA = ab + ca - bc;
    const atB = ab + bc - ca;
    const atC = bc + ca - ab;
    // Heron: 16 area^2 = 2 (ab bc + bc ca + ca ab) - (ab^2 + bc^2 + ca^2), with squared lengths.
    const area = Math.sqrt(Math.max(0, atA * atB + atB * atC + atC * atA)) / 4;
    if (area === 0) continue;
    if (atA < 0 || atB < 0 || atC < 0) {
      into[a]! += atA < 0 ? area / 2 : area / 4;
      into[b]! += atB < 0 ? area / 2 : area / 4;
      into[c]! += atC < 0 ? area / 2 : area / 4;
      continue;
    }
    // cot(corner) = (scalar product) / (2 area).
    const share = 1 / (32 * area);
    const partAb = ab * atC * share;
    const partBc = bc * atA * share;
    const partCa = ca * atB * share;
    into[a]! += partAb + partCa;
    into[b]! += partAb + partBc;
    into[c]! += partBc + partCa;
  }
}

function squaredLength(positions: Float64Array, from: number, to: number): number {
  const x = positions[3 * to]! - positions[3 * from]!;
  const y = positions[3 * to + 1]! - positions[3 * from + 1]!;
  const z = positions[3 * to + 2]! - positions[3 * from + 2]!;
  return x * x + y * y + z * z;
}
