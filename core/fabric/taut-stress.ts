import * as metric from './metric-energy.ts';
import * as yarn from './yarn-energy.ts';

/** Places in the working array: unit yarn directions and ds/dfu, ds/dfv; 3 each. */
const A = metric.METRIC_SIZE;
const B = A + 3;
const KU = A + 6;
const KV = A + 9;
/** Length of the working array. */
export const TAUT_SIZE = A + 12;

/**
 * dW/dF of the law as it was read last: P_u = (W_x/lu) a + W_s ku, P_v = (W_y/lv) b + W_s kv, with the unit yarn
 * directions a = fu/lu, b = fv/lv and ds/dfu = ku = (b - s a)/lu, ds/dfv = kv = (a - s b)/lv.
 *
 * @param f - Deformation; 6.
 * @param stress - Overwritten; 6.
 */
export function tautStress(work: Float64Array, f: Float64Array, stress: Float64Array): void {
  const lu = work[metric.LU]!;
  const lv = work[metric.LV]!;
  const s = work[yarn.SINE]!;
  const p = work[yarn.W_S]!;
  const wu = work[yarn.W_X]! / lu;
  const wv = work[yarn.W_Y]! / lv;
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
}

/**
 * d2W/dF2 from the derivatives in (x, y, s) and the yarn directions that {@link tautStress} left in the working array:
 * K_uu = Wuu aa' + (Wu/lu)(I - aa') + pss ku ku' + Wus (a ku' + ku a') - (p/lu)(a ku' + ku a' + (s/lu)(I - aa')),
 * K_uv = Wuv ab' + pss ku kv' + Wus a kv' + Wvs ku b' + (p/(lu lv))(I - aa' - bb' + s ab').
 */
export function tautStiffness(work: Float64Array, stiffness: Float64Array): void {
  const lu = work[metric.LU]!;
  const lv = work[metric.LV]!;
  const s = work[yarn.SINE]!;
  const p = work[yarn.W_S]!;
  const pss = work[yarn.W_SS]!;
  const wu = work[yarn.W_X]! / lu;
  const wv = work[yarn.W_Y]! / lv;
  const wuu = (work[yarn.W_XX]! - work[yarn.W_X]!) / (lu * lu);
  const wvv = (work[yarn.W_YY]! - work[yarn.W_Y]!) / (lv * lv);
  const wuv = work[yarn.W_XY]! / (lu * lv);
  const wus = work[yarn.W_XS]! / lu;
  const wvs = work[yarn.W_YS]! / lv;
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
