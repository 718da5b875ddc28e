import { readEnergy } from './energy-table.ts';
import * as relaxed from './relaxed-energy.ts';
import type { TensionLaw, TensionResponse } from './tension-law.ts';

/** |cos of the angle between warp and weft| is held below this: sheared flat, the law has no meaning. */
const LARGEST_SINE = 0.999;
/** Stretch ratios are held above this, so that a collapsed triangle still gets numbers. */
const SMALLEST_STRETCH = 1e-6;

/** Places in the working array beyond those of the relaxed energy. */
const SHEAR = 24;
const LU = 27;
const LV = 28;
const S = 29;
const P = 30;
/** Unit yarn directions and ds/dfu, ds/dfv. */
const A = 32;
const B = 35;
const KU = 38;
const KV = 41;
const WORK_SIZE = 44;

/** A response to be filled by {@link evaluateTension}. */
export function createTensionResponse(): TensionResponse {
  return {
    energy: 0,
    stress: new Float64Array(6),
    stiffness: new Float64Array(36),
    slackWarp: false,
    slackWeft: false,
    beyondReadings: false,
    work: new Float64Array(WORK_SIZE),
  };
}

/**
 * Energy, stress and (on request) stiffness of the law at one deformation.
 *
 * lu = |fu|, lv = |fv|, s = sin g = fu.fv / (lu lv); P = dW/dF, K = d2W/dF2, exact and possibly indefinite (a fabric
 * in compression buckles): whoever solves with it projects it.
 *
 * @param f - Warp column, then weft column of the deformation; 6.
 * @param into - Overwritten; `stiffness` only when asked for.
 */
export function evaluateTension(
  law: TensionLaw,
  f: Float64Array,
  withStiffness: boolean,
  into: TensionResponse,
): void {
  const u0 = f[0]!;
  const u1 = f[1]!;
  const u2 = f[2]!;
  const v0 = f[3]!;
  const v1 = f[4]!;
  const v2 = f[5]!;
  const lu = Math.max(Math.sqrt(u0 * u0 + u1 * u1 + u2 * u2), SMALLEST_STRETCH);
  const lv = Math.max(Math.sqrt(v0 * v0 + v1 * v1 + v2 * v2), SMALLEST_STRETCH);
  let s = (u0 * v0 + u1 * v1 + u2 * v2) / (lu * lv);
  if (s > LARGEST_SINE) s = LARGEST_SINE;
  else if (s < -LARGEST_SINE) s = -LARGEST_SINE;
  const cos2 = 1 - s * s;

  const { work, stress } = into;
  work[relaxed.X] = Math.log(lu) - law.set.warp;
  work[relaxed.Y] = Math.log(lv) - law.set.weft;
  work[relaxed.K] = Math.log(cos2) / 2;
  const slack = relaxed.relaxedEnergy(law, work);
  into.slackWarp = slack === 'warp' || slack === 'both';
  into.slackWeft = slack === 'weft' || slack === 'both';
  into.beyondReadings = lu > law.measuredTo.warp || lv > law.measuredTo.weft;

  const g = Math.asin(s);
  readEnergy(law.shear, Math.abs(g), work, SHEAR);
  into.energy = work[relaxed.ENERGY]! + work[SHEAR]!;
  const shearStress = s < 0 ? -work[SHEAR + 1]! : work[SHEAR + 1]!;
  // dW/ds: S'(g) / cos g + W_k dk/ds, k = ln(1 - s^2) / 2.
  const p = shearStress / Math.sqrt(cos2) - (work[relaxed.W_K]! * s) / cos2;

  const wu = work[relaxed.W_X]! / lu;
  const wv = work[relaxed.W_Y]! / lv;
  for (let i = 0; i < 3; i++) {
    const a = f[i]! / lu;
    const b = f[3 + i]! / lv;
    const ku = (b - s * a) / lu;
    const kv = (a - s * b) / lv;
    stress[i] = wu * a + p * ku;
    stress[3 + i] = wv * b + p * kv;
    work[A + i] = a;
    work[B + i] = b;
    work[KU + i] = ku;
    work[KV + i] = kv;
  }
  if (withStiffness) {
    work[LU] = lu;
    work[LV] = lv;
    work[S] = s;
    work[P] = p;
    work[SHEAR + 1] = shearStress;
    fillStiffness(into);
  }
}

/**
 * d2W/dF2 from the derivatives in (x, y, s) and the yarn directions left in the working array:
 * K_uu = Wuu aa' + (Wu/lu)(I - aa') + pss ku ku' + Wus (a ku' + ku a') - (p/lu)(a ku' + ku a' + (s/lu)(I - aa')),
 * K_uv = Wuv ab' + pss ku kv' + Wus a kv' + Wvs ku b' + (p/(lu lv))(I - aa' - bb' + s ab').
 */
function fillStiffness(into: TensionResponse): void {
  const { work, stiffness } = into;
  const lu = work[LU]!;
  const lv = work[LV]!;
  const s = work[S]!;
  const p = work[P]!;
  const cos2 = 1 - s * s;
  const cos = Math.sqrt(cos2);
  const ks = -s / cos2;
  const kss = -(1 + s * s) / (cos2 * cos2);
  const wu = work[relaxed.W_X]! / lu;
  const wv = work[relaxed.W_Y]! / lv;
  const wuu = (work[relaxed.W_XX]! - work[relaxed.W_X]!) / (lu * lu);
  const wvv = (work[relaxed.W_YY]! - work[relaxed.W_Y]!) / (lv * lv);
  const wuv = work[relaxed.W_XY]! / (lu * lv);
  const wus = (work[relaxed.W_XK]! * ks) / lu;
  const wvs = (work[relaxed.W_YK]! * ks) / lv;
  const pss =
    work[SHEAR + 2]! / cos2 +
    (work[SHEAR + 1]! * s) / (cos2 * cos) +
    work[relaxed.W_KK]! * ks * ks +
    work[relaxed.W_K]! * kss;
  const acrossU = wu / lu - (p * s) / (lu * lu);
  const acrossV = wv / lv - (p * s) / (lv * lv);
  const mixedU = wus - p / lu;
  const mixedV = wvs - p / lv;
  const mixed = p / (lu * lv);
  for (let i = 0; i < 3; i++) {
    const ai = work[A + i]!;
    const bi = work[B + i]!;
    const kui = work[KU + i]!;
    const kvi = work[KV + i]!;
    for (let j = 0; j < 3; j++) {
      const aj = work[A + j]!;
      const bj = work[B + j]!;
      const kuj = work[KU + j]!;
      const kvj = work[KV + j]!;
      const unit = i === j ? 1 : 0;
      stiffness[6 * i + j] =
        wuu * ai * aj + acrossU * (unit - ai * aj) + pss * kui * kuj + mixedU * (ai * kuj + kui * aj);
      stiffness[6 * (3 + i) + 3 + j] =
        wvv * bi * bj + acrossV * (unit - bi * bj) + pss * kvi * kvj + mixedV * (bi * kvj + kvi * bj);
      const uv =
        wuv * ai * bj +
        pss * kui * kvj +
        wus * ai * kvj +
        wvs * kui * bj +
        mixed * (unit - ai * aj - bi * bj + s * ai * bj);
      stiffness[6 * i + 3 + j] = uv;
      stiffness[6 * (3 + j) + i] = uv;
    }
  }
}
