import * as hidden from './hidden-length.ts';
import * as metric from './metric-energy.ts';
import type { TensionLaw } from './tension-law.ts';

/** Place of three columns of an inverse; 9. */
const SOLVED = hidden.HIDDEN_SIZE;
/** Length of the working array. */
export const SLACK_SIZE = SOLVED + 9;

/** Imbalance at which the search ends, as a share of the typical stiffness. */
const BALANCED = 1e-13;
const MOST_STEPS = 60;

/** Whether the cloth lies closer than unstretched cloth in every direction. */
export function isBelowRest({ set }: TensionLaw, work: Float64Array): boolean {
  const a = Math.exp(2 * set.warp) - work[hidden.LIES]!;
  const b = Math.exp(2 * set.weft) - work[hidden.LIES + 1]!;
  const m = work[hidden.LIES + 2]!;
  return a > 0 && b > 0 && a * b > m * m;
}

/** Whether the metric differs from that of the cloth as it lies by length hidden in every direction. */
export function isHidden(work: Float64Array): boolean {
  const a = work[metric.A]! - work[hidden.LIES]!;
  const b = work[metric.B]! - work[hidden.LIES + 1]!;
  const m = work[metric.M]! - work[hidden.LIES + 2]!;
  return a >= 0 && b >= 0 && a * b >= m * m;
}

/**
 * Moves the metric to where W0 balances only the regular part: Newton from unstretched cloth, from which it hardly
 * differs.
 */
export function letAllGo(law: TensionLaw, work: Float64Array): void {
  const ke = hidden.regular(law);
  work[metric.A] = Math.exp(2 * law.set.warp);
  work[metric.B] = Math.exp(2 * law.set.weft);
  work[metric.M] = 0;
  for (let i = 0; i < MOST_STEPS; i++) {
    metric.metricEnergy(law, work);
    let left = 0;
    for (let k = 0; k < 3; k++) {
      const regular = (k === 2 ? 2 : 1) * ke * (work[metric.A + k]! - work[hidden.LIES + k]!);
      const unbalanced = work[metric.W_A + k]! + regular;
      work[hidden.E + k] = unbalanced;
      left += Math.abs(unbalanced);
    }
    if (left < BALANCED * law.typicalStiffness) return;
    hidden.solve(work, ke, hidden.E, hidden.F);
    for (let k = 0; k < 3; k++) work[metric.A + k]! -= work[hidden.F + k]!;
  }
}

/** Energy and second derivatives of cloth let go all ways: W'' = R - R (W0'' + R)^-1 R. */
export function deriveSlack(law: TensionLaw, work: Float64Array): void {
  const ke = hidden.regular(law);
  const a = work[metric.A]! - work[hidden.LIES]!;
  const b = work[metric.B]! - work[hidden.LIES + 1]!;
  const m = work[metric.M]! - work[hidden.LIES + 2]!;
  work[metric.ENERGY]! += (ke * (a * a + b * b + 2 * m * m)) / 2;
  for (let column = 0; column < 3; column++) {
    for (let k = 0; k < 3; k++) work[hidden.E + k] = k === column ? (k === 2 ? 2 * ke : ke) : 0;
    hidden.solve(work, ke, hidden.E, SOLVED + 3 * column);
  }
  work[metric.W_AA] = ke - ke * work[SOLVED]!;
  work[metric.W_BB] = ke - ke * work[SOLVED + 4]!;
  work[metric.W_MM] = 2 * ke - 2 * ke * work[SOLVED + 8]!;
  work[metric.W_AB] = -ke * work[SOLVED + 3]!;
  work[metric.W_AM] = -ke * work[SOLVED + 6]!;
  work[metric.W_BM] = -ke * work[SOLVED + 7]!;
}
