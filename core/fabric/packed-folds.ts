import type { TensionLaw, TensionResponse } from './tension-law.ts';

/**
 * Cloth gathered to this share of its length lies fold on fold and resists again, with this share of its stiffness. Set by
 * hand: it only keeps cloth that has ridden up into a heap from shrinking to nothing; taut and merely slack cloth never
 * feel it.
 */
export const PACKED_STRETCH = 0.4;
export const PACKED_LOG = Math.log(PACKED_STRETCH);
const PACKED_SHARE = 0.03;
/** A collapsed yarn still gets numbers. */
const SMALLEST_SQUARE = 1e-12;

/**
 * Adds the resistance of packed folds along one yarn: W = k w^2 / 2 for w = ln(l / l0), below 0, l = |f|;
 * dW/df = k w f / l^2, d2W/df2 = k (w I + (1 - 2 w) f f' / l^2) / l^2.
 *
 * @param yarn - 0 for the warp column of the deformation, 3 for the weft column.
 * @param withStiffness - Whether `into.stiffness` is added to as well.
 */
export function addPackedFolds(
  law: TensionLaw,
  f: Float64Array,
  { yarn, withStiffness }: { readonly yarn: 0 | 3; readonly withStiffness: boolean },
  into: TensionResponse,
): void {
  const set = yarn === 0 ? law.set.warp : law.set.weft;
  const squared = Math.max(f[yarn]! ** 2 + f[yarn + 1]! ** 2 + f[yarn + 2]! ** 2, SMALLEST_SQUARE);
  const w = Math.log(squared) / 2 - set - PACKED_LOG;
  const k = PACKED_SHARE * law.typicalStiffness;
  into.energy += (k * w * w) / 2;
  for (let i = 0; i < 3; i++) {
    const along = f[yarn + i]! / squared;
    into.stress[yarn + i]! += k * w * along;
    if (!withStiffness) continue;
    into.stiffness[7 * (yarn + i)]! += (k * w) / squared;
    for (let j = 0; j < 3; j++) {
      into.stiffness[6 * (yarn + i) + yarn + j]! += (k * (1 - 2 * w) * along * f[yarn + j]!) / squared;
    }
  }
}
