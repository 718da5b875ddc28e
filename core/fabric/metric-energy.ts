import type { TensionLaw } from './tension-law.ts';
import * as yarn from './yarn-energy.ts';

/** |cos of the angle between warp and weft| is held below this: sheared flat, the law has no meaning. */
const LARGEST_SINE = 0.999;
/** Stretch ratios are held above this, so that a collapsed triangle still gets numbers. */
const SMALLEST_STRETCH = 1e-6;

/**
 * Places in the working array, behind those of the yarns' own coordinates: the metric (a, b, m), both stretch ratios,
 * and the energy with its first and second derivatives by the metric.
 */
export const A = yarn.YARN_SIZE;
export const B = A + 1;
export const M = A + 2;
export const LU = A + 3;
export const LV = A + 4;
export const ENERGY = A + 5;
export const W_A = A + 6;
export const W_B = A + 7;
export const W_M = A + 8;
export const W_AA = A + 9;
export const W_BB = A + 10;
export const W_MM = A + 11;
export const W_AB = A + 12;
export const W_AM = A + 13;
export const W_BM = A + 14;
/** Length of the working array. */
export const METRIC_SIZE = A + 15;

/**
 * Reads the law at a metric, in the yarns' own coordinates (yarn-energy.ts). The metric is all of a deformation that an
 * energy may depend on: a = fu.fu, b = fv.fv, m = fu.fv.
 *
 * @param work - The metric at A, B, M.
 */
export function readMetric(law: TensionLaw, work: Float64Array): void {
  const lu = Math.max(Math.sqrt(work[A]!), SMALLEST_STRETCH);
  const lv = Math.max(Math.sqrt(work[B]!), SMALLEST_STRETCH);
  let s = work[M]! / (lu * lv);
  if (s > LARGEST_SINE) s = LARGEST_SINE;
  else if (s < -LARGEST_SINE) s = -LARGEST_SINE;
  work[LU] = lu;
  work[LV] = lv;
  work[yarn.X] = Math.log(lu) - law.set.warp;
  work[yarn.Y] = Math.log(lv) - law.set.weft;
  work[yarn.SINE] = s;
  yarn.yarnEnergy(law, work);
}

/**
 * Whether the cloth pushes in no direction where the law was read last. Of the tension T = 2 dW/dC (C the metric),
 * T_uu = (W_x - s W_s) / a, T_vv = (W_y - s W_s) / b and T_uv = W_s / sqrt(ab): neither of the first two is negative,
 * nor is the determinant.
 */
export function isTaut(work: Float64Array): boolean {
  const shear = work[yarn.W_S]!;
  const lost = shear * work[yarn.SINE]!;
  const warp = work[yarn.W_X]! - lost;
  const weft = work[yarn.W_Y]! - lost;
  return warp >= 0 && weft >= 0 && warp * weft >= shear * shear;
}

/**
 * Energy, first and second derivatives by the metric at the place read last:
 * x_a = 1/(2a), s_a = -s/(2a), s_m = 1/sqrt(ab), s_aa = 3s/(4a^2), s_ab = s/(4ab), s_am = -1/(2a sqrt(ab)); b alike.
 */
export function deriveByMetric(work: Float64Array): void {
  const a = work[LU]! * work[LU]!;
  const b = work[LV]! * work[LV]!;
  const root = work[LU]! * work[LV]!;
  const s = work[yarn.SINE]!;
  const p = work[yarn.W_S]!;
  const bent = work[yarn.W_SS]! * s;
  const warpShear = work[yarn.W_XS]!;
  const weftShear = work[yarn.W_YS]!;
  const own = (bent + 3 * p) * s;
  work[ENERGY] = work[yarn.ENERGY]!;
  work[W_A] = (work[yarn.W_X]! - p * s) / (2 * a);
  work[W_B] = (work[yarn.W_Y]! - p * s) / (2 * b);
  work[W_M] = p / root;
  work[W_AA] = (work[yarn.W_XX]! - 2 * work[yarn.W_X]! - 2 * warpShear * s + own) / (4 * a * a);
  work[W_BB] = (work[yarn.W_YY]! - 2 * work[yarn.W_Y]! - 2 * weftShear * s + own) / (4 * b * b);
  work[W_MM] = work[yarn.W_SS]! / (a * b);
  work[W_AB] = (work[yarn.W_XY]! - (warpShear + weftShear) * s + (bent + p) * s) / (4 * a * b);
  work[W_AM] = (warpShear - bent - p) / (2 * a * root);
  work[W_BM] = (weftShear - bent - p) / (2 * b * root);
}

/** {@link readMetric} and {@link deriveByMetric}. */
export function metricEnergy(law: TensionLaw, work: Float64Array): void {
  readMetric(law, work);
  deriveByMetric(work);
}
