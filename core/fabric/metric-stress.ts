import * as metric from './metric-energy.ts';

/**
 * dW/dF of an energy of the metric: P_u = 2 W_a fu + W_m fv, P_v = 2 W_b fv + W_m fu.
 *
 * @param work - Derivatives at the places of metric-energy.ts.
 * @param f - Deformation; 6.
 * @param stress - Overwritten; 6.
 */
export function metricStress(work: Float64Array, f: Float64Array, stress: Float64Array): void {
  const a = 2 * work[metric.W_A]!;
  const b = 2 * work[metric.W_B]!;
  const m = work[metric.W_M]!;
  for (let i = 0; i < 3; i++) {
    stress[i] = a * f[i]! + m * f[3 + i]!;
    stress[3 + i] = b * f[3 + i]! + m * f[i]!;
  }
}

/**
 * d2W/dF2 of an energy of the metric:
 * K_uu = 2 W_a I + 4 W_aa fu fu' + 2 W_am (fu fv' + fv fu') + W_mm fv fv', K_vv alike,
 * K_uv = W_m I + 4 W_ab fu fv' + 2 W_am fu fu' + 2 W_bm fv fv' + W_mm fv fu'.
 *
 * @param stiffness - Overwritten; 6x6.
 */
export function metricStiffness(work: Float64Array, f: Float64Array, stiffness: Float64Array): void {
  const a = 2 * work[metric.W_A]!;
  const b = 2 * work[metric.W_B]!;
  const m = work[metric.W_M]!;
  const aa = 4 * work[metric.W_AA]!;
  const bb = 4 * work[metric.W_BB]!;
  const mm = work[metric.W_MM]!;
  const ab = 4 * work[metric.W_AB]!;
  const am = 2 * work[metric.W_AM]!;
  const bm = 2 * work[metric.W_BM]!;
  for (let i = 0; i < 3; i++) {
    const ui = f[i]!;
    const vi = f[3 + i]!;
    for (let j = 0; j < 3; j++) {
      const uj = f[j]!;
      const vj = f[3 + j]!;
      const unit = i === j ? 1 : 0;
      const mixed = ui * vj + vi * uj;
      stiffness[6 * i + j] = a * unit + aa * ui * uj + am * mixed + mm * vi * vj;
      stiffness[6 * (3 + i) + 3 + j] = b * unit + bb * vi * vj + bm * mixed + mm * ui * uj;
      const uv = m * unit + ab * ui * vj + am * ui * uj + bm * vi * vj + mm * vi * uj;
      stiffness[6 * i + 3 + j] = uv;
      stiffness[6 * (3 + j) + i] = uv;
    }
  }
}
