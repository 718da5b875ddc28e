import { vertexTriangles, type Rows } from '../mesh/mesh-edges.ts';
import type { ClothLevel } from './garment.ts';

/** Rounds over the vertices that are spanned, each going a little past the middle of its neighbours (Young 1954). */
const ROUNDS = 120;
const PAST = 1.7;

/**
 * Spans the marked vertices straight over from the cloth round them: each comes to lie in the middle of its neighbours, as
 * near as a fixed count of rounds brings it. What is not marked stays.
 *
 * @param isLoose - 1 where a vertex is to be moved; V.
 * @param into - Positions, 3*V, m; changed in place.
 */
export function spanOver(level: ClothLevel, isLoose: Uint8Array, into: Float64Array): void {
  const around = vertexTriangles(level.mesh);
  const loose = [...isLoose.keys()].filter((v) => isLoose[v] === 1);
  const middle = new Float64Array(3);
  for (let round = 0; round < ROUNDS; round++) {
    for (const v of loose) {
      neighbourMiddle(level, around, v, into, middle);
      for (let k = 0; k < 3; k++) into[3 * v + k]! += PAST * (middle[k]! - into[3 * v + k]!);
    }
  }
}

/**
 * Mean of a vertex's neighbours, each counted once per triangle; of a vertex on a hem, of those on the hem.
 *
 * @param around - Triangles round each vertex of the level.
 * @param positions - 3*V, m.
 * @param into - 3, overwritten; the vertex itself where it has no neighbours.
 */
/* oxlint-disable-next-line max-params -- asked for every vertex of every round: no options object, no array for the answer */
export function neighbourMiddle(
  { mesh: { triangles }, edgeVertex }: ClothLevel,
  around: Rows,
  v: number,
  positions: Float64Array,
  into: Float64Array,
): void {
  into.fill(0);
  let count = 0;
  for (let i = around.start[v]!; i < around.start[v + 1]!; i++) {
    for (let corner = 0; corner < 3; corner++) {
      const other = triangles[3 * around.list[i]! + corner]!;
      if (other === v || edgeVertex[other]! < edgeVertex[v]!) continue;
      count++;
      for (let k = 0; k < 3; k++) into[k]! += positions[3 * other + k]!;
    }
  }
  for (let k = 0; k < 3; k++) into[k] = count > 0 ? into[k]! / count : positions[3 * v + k]!;
}
