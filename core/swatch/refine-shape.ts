import type { CurvaturePatches } from '../equilibrium/curvature-patches.ts';
import type { DiscLevel } from './disc-mesh.ts';

/**
 * Places the vertices of the next finer mesh on the smooth surface through a settled coarser one: the middle of a side
 * is lifted off the chord by an eighth of the second derivative along it, as both its triangles read it,
 *
 * x = (x_a + x_b) / 2 - (e_u^2 x_uu + 2 e_u e_v x_uv + e_v^2 x_vv) / 8, and moved by F d where the finer vertex was laid
 * d off the middle (on a ring). Chords alone would crease the sheet and shorten it wherever it bends.
 */
export function refineShape(
  coarse: DiscLevel,
  fine: DiscLevel,
  curvature: CurvaturePatches,
  positions: Float64Array,
): Float64Array {
  const coarseCount = coarse.flat.length / 2;
  const into = new Float64Array((3 * fine.flat.length) / 2);
  const middleOf = new Map<number, number>();
  for (let v = 0; 2 * v < fine.parents.length; v++) {
    const a = fine.parents[2 * v]!;
    const b = fine.parents[2 * v + 1]!;
    if (a !== b) middleOf.set(Math.min(a, b) * coarseCount + Math.max(a, b), v);
    for (let k = 0; k < 3; k++) into[3 * v + k] = (positions[3 * a + k]! + positions[3 * b + k]!) / 2;
  }
  const lift = new Float64Array(into.length);
  const sides = new Uint8Array(fine.flat.length / 2);
  const { triangles } = coarse;
  for (let t = 0; 3 * t < triangles.length; t++) {
    const second = secondDerivatives(curvature, positions, t);
    const first = firstDerivatives(coarse, positions, t);
    for (let side = 0; side < 3; side++) {
      const a = triangles[3 * t + side]!;
      const b = triangles[3 * t + ((side + 1) % 3)]!;
      const v = middleOf.get(Math.min(a, b) * coarseCount + Math.max(a, b))!;
      const eu = coarse.flat[2 * b]! - coarse.flat[2 * a]!;
      const ev = coarse.flat[2 * b + 1]! - coarse.flat[2 * a + 1]!;
      const du = fine.flat[2 * v]! - (coarse.flat[2 * a]! + coarse.flat[2 * b]!) / 2;
      const dv = fine.flat[2 * v + 1]! - (coarse.flat[2 * a + 1]! + coarse.flat[2 * b + 1]!) / 2;
      sides[v]!++;
      for (let k = 0; k < 3; k++) {
        const along = eu * eu * second[k]! + ev * ev * second[3 + k]! + 2 * eu * ev * second[6 + k]!;
        lift[3 * v + k]! += du * first[k]! + dv * first[3 + k]! - along / 8;
      }
    }
  }
  for (let i = 0; i < into.length; i++) {
    const count = sides[Math.floor(i / 3)]!;
    if (count > 0) into[i]! += lift[i]! / count;
  }
  return into;
}

/** x_uu, x_vv, x_uv of a triangle; 9. */
function secondDerivatives(
  { patches, weights }: CurvaturePatches,
  positions: Float64Array,
  t: number,
): Float64Array {
  const found = new Float64Array(9);
  for (let i = patches.start[t]!; i < patches.start[t + 1]!; i++) {
    const p = 3 * patches.list[i]!;
    for (let k = 0; k < 3; k++) {
      found[k]! += weights.uu[i]! * positions[p + k]!;
      found[3 + k]! += weights.vv[i]! * positions[p + k]!;
      found[6 + k]! += weights.uv[i]! * positions[p + k]!;
    }
  }
  return found;
}

/** x_u, x_v of a triangle; 6. */
function firstDerivatives({ flat, triangles }: DiscLevel, positions: Float64Array, t: number): Float64Array {
  const [a, b, c] = [triangles[3 * t]!, triangles[3 * t + 1]!, triangles[3 * t + 2]!];
  const u1 = flat[2 * b]! - flat[2 * a]!;
  const v1 = flat[2 * b + 1]! - flat[2 * a + 1]!;
  const u2 = flat[2 * c]! - flat[2 * a]!;
  const v2 = flat[2 * c + 1]! - flat[2 * a + 1]!;
  const determinant = u1 * v2 - u2 * v1;
  const found = new Float64Array(6);
  for (let k = 0; k < 3; k++) {
    const d1 = positions[3 * b + k]! - positions[3 * a + k]!;
    const d2 = positions[3 * c + k]! - positions[3 * a + k]!;
    found[k] = (v2 * d1 - v1 * d2) / determinant;
    found[3 + k] = (u1 * d2 - u2 * d1) / determinant;
  }
  return found;
}
