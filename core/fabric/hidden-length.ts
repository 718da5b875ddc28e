import * as metric from './metric-energy.ts';
import type { TensionLaw } from './tension-law.ts';

/**
 * Places in the working array, behind those of the metric's energy: the metric of the cloth as it lies, and two changes
 * of the metric; 3 each, (a, b, m).
 */
export const LIES = metric.METRIC_SIZE;
export const E = LIES + 3;
export const F = LIES + 6;
/** Length of the working array. */
export const HIDDEN_SIZE = LIES + 9;

/**
 * ke / 4. Hiding (a, b, m) costs ke (a^2 + b^2 + 2 m^2) / 8 of energy: the regular part R = diag(ke, ke, 2 ke) / 4 of
 * the second derivatives.
 */
export const regular = (law: TensionLaw): number => law.slackStiffness / 4;

/** p' (W0'' + R) q, p and q places of changes of the metric. */
export function curvature(work: Float64Array, ke: number, p: number, q: number): number {
  const a = work[q]!;
  const b = work[q + 1]!;
  const m = work[q + 2]!;
  return (
    work[p]! * ((work[metric.W_AA]! + ke) * a + work[metric.W_AB]! * b + work[metric.W_AM]! * m) +
    work[p + 1]! * (work[metric.W_AB]! * a + (work[metric.W_BB]! + ke) * b + work[metric.W_BM]! * m) +
    work[p + 2]! * (work[metric.W_AM]! * a + work[metric.W_BM]! * b + (work[metric.W_MM]! + 2 * ke) * m)
  );
}

/** W0'' times the change of the metric at `p`. */
export function multiply(work: Float64Array, p: number, into: number): void {
  const a = work[p]!;
  const b = work[p + 1]!;
  const m = work[p + 2]!;
  work[into] = work[metric.W_AA]! * a + work[metric.W_AB]! * b + work[metric.W_AM]! * m;
  work[into + 1] = work[metric.W_AB]! * a + work[metric.W_BB]! * b + work[metric.W_BM]! * m;
  work[into + 2] = work[metric.W_AM]! * a + work[metric.W_BM]! * b + work[metric.W_MM]! * m;
}

/** Solves (W0'' + R) x = right, both at places of three. */
export function solve(work: Float64Array, ke: number, right: number, into: number): void {
  const p = work[metric.W_AA]! + ke;
  const q = work[metric.W_BB]! + ke;
  const r = work[metric.W_MM]! + 2 * ke;
  const x = work[metric.W_AB]!;
  const y = work[metric.W_AM]!;
  const z = work[metric.W_BM]!;
  const pp = q * r - z * z;
  const pq = z * y - x * r;
  const pr = x * z - q * y;
  const qq = p * r - y * y;
  const qr = x * y - p * z;
  const rr = p * q - x * x;
  const whole = p * pp + x * pq + y * pr;
  const a = work[right]!;
  const b = work[right + 1]!;
  const m = work[right + 2]!;
  work[into] = (pp * a + pq * b + pr * m) / whole;
  work[into + 1] = (pq * a + qq * b + qr * m) / whole;
  work[into + 2] = (pr * a + qr * b + rr * m) / whole;
}
