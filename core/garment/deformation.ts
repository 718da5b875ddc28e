import type { ClothLevel } from './garment.ts';

/**
 * Deformation of one triangle: F = [x1 - x0, x2 - x0] * restInverse.
 *
 * @param positions - Current positions; 3*V, m.
 * @param into - 6, overwritten: the images of a unit of warp (3) and of weft (3).
 */
export function deformationOf(
  level: Pick<ClothLevel, 'mesh' | 'restInverse'>,
  positions: Float64Array,
  t: number,
  into: Float64Array,
): void {
  const { triangles } = level.mesh;
  const a = 3 * triangles[3 * t]!;
  const b = 3 * triangles[3 * t + 1]!;
  const c = 3 * triangles[3 * t + 2]!;
  const m00 = level.restInverse[4 * t]!;
  const m01 = level.restInverse[4 * t + 1]!;
  const m10 = level.restInverse[4 * t + 2]!;
  const m11 = level.restInverse[4 * t + 3]!;
  for (let k = 0; k < 3; k++) {
    const first = positions[b + k]! - positions[a + k]!;
    const second = positions[c + k]! - positions[a + k]!;
    into[k] = first * m00 + second * m10;
    into[3 + k] = first * m01 + second * m11;
  }
}
