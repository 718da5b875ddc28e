import { curvature, E, F, LIES, multiply, regular } from './hidden-length.ts';
import * as metric from './metric-energy.ts';
import { SLACK_SIZE } from './slack-all-ways.ts';
import type { TensionLaw } from './tension-law.ts';

/** Places in the working array: the direction n in which length is hidden, in the unstretched cloth, and how much of it. */
const N_U = SLACK_SIZE;
const N_V = SLACK_SIZE + 1;
const HIDDEN = SLACK_SIZE + 2;
/**
 * With e, the metric's change as more is hidden along n, and f, its change as n turns: what is left of both conditions of
 * balance, the pull along the wrinkles, the second derivatives along e and f, and a step.
 */
const ALONG_E = SLACK_SIZE + 3;
const ALONG_F = SLACK_SIZE + 4;
const PULL = SLACK_SIZE + 5;
const EE = SLACK_SIZE + 6;
const EF = SLACK_SIZE + 7;
const FF = SLACK_SIZE + 8;
const STEP = SLACK_SIZE + 9;
const TURN = SLACK_SIZE + 10;
/** W0'' e and W0'' f; 3 each. */
const H = SLACK_SIZE + 11;
const K = SLACK_SIZE + 14;
/** Length of the working array. */
export const ONE_WAY_SIZE = SLACK_SIZE + 17;

/** Imbalance at which the search ends, and below which its full step is taken; shares of the typical stiffness. */
const BALANCED = 1e-13;
const NEARLY = 1e-6;
const MOST_STEPS = 60;
const MOST_HALVINGS = 12;
/** The search starts where the cloth lies unless that is sheared or squeezed beyond these; then from round about rest. */
const MOST_SINE = 0.8;
const LEAST_SQUARE = 0.3;

/**
 * Finds the direction n and the amount d of hidden length that leave the least energy, by Newton.
 *
 * @param work - The metric at A, B, M is that of the cloth as it lies; it becomes that of the cloth itself.
 * @returns Whether the cloth pulls along such wrinkles. Where not, it is slack all ways.
 */
export function hideOneWay(law: TensionLaw, work: Float64Array): boolean {
  start(law, work);
  const balanced = BALANCED * law.typicalStiffness;
  lookAround(law, work);
  for (let i = 0; i < MOST_STEPS; i++) {
    if (Math.abs(work[ALONG_E]!) + Math.abs(work[ALONG_F]!) < balanced) break;
    chooseStep(law, work);
    takeStep(law, work);
    lookAround(law, work);
  }
  return work[PULL]! >= 0;
}

/**
 * Energy and second derivatives of cloth let go one way:
 * W'' = W0'' - [h k] Q^-1 [h k]', h = W0'' e, k = d W0'' f, Q the second derivatives by d and the angle; both sides are
 * divided by d, so that nothing is lost where it vanishes.
 */
export function deriveOneWay(law: TensionLaw, work: Float64Array): void {
  const d = work[HIDDEN]!;
  work[metric.ENERGY]! += (regular(law) * d * d) / 2;
  const turning = d * work[FF]! + work[PULL]!;
  const least = 1e-9 * law.typicalStiffness * law.typicalStiffness;
  const determinant = Math.max(work[EE]! * turning - d * work[EF]! * work[EF]!, least);
  const hh = turning / determinant;
  const hk = (-d * work[EF]!) / determinant;
  const kk = (d * work[EE]!) / determinant;
  multiply(work, E, H);
  multiply(work, F, K);
  const less = (i: number, j: number): number =>
    hh * work[H + i]! * work[H + j]! +
    hk * (work[H + i]! * work[K + j]! + work[K + i]! * work[H + j]!) +
    kk * work[K + i]! * work[K + j]!;
  work[metric.W_AA]! -= less(0, 0);
  work[metric.W_BB]! -= less(1, 1);
  work[metric.W_MM]! -= less(2, 2);
  work[metric.W_AB]! -= less(0, 1);
  work[metric.W_AM]! -= less(0, 2);
  work[metric.W_BM]! -= less(1, 2);
}

/**
 * First direction and amount: across the greatest push with nothing hidden, or, of cloth far from what the law was made
 * for, the most compressed direction brought back to its unstretched length.
 */
function start(law: TensionLaw, work: Float64Array): void {
  const a = work[LIES]!;
  const b = work[LIES + 1]!;
  const m = work[LIES + 2]!;
  const restA = Math.exp(2 * law.set.warp);
  const restB = Math.exp(2 * law.set.weft);
  const half = (restA - a - restB + b) / 2;
  const missing = (restA - a + restB - b) / 2 + Math.sqrt(half * half + m * m);
  const isNear =
    Math.abs(m) < MOST_SINE * Math.sqrt(a * b) && a > LEAST_SQUARE * restA && b > LEAST_SQUARE * restB;
  let angle = Math.atan2(-m, half) / 2;
  work[HIDDEN] = missing;
  if (isNear || missing <= 0) {
    metric.metricEnergy(law, work);
    angle = Math.atan2(-work[metric.W_M]!, work[metric.W_B]! - work[metric.W_A]!) / 2;
    work[HIDDEN] = 0;
  }
  work[N_U] = Math.cos(angle);
  work[N_V] = Math.sin(angle);
  if (work[HIDDEN] === 0) return;
  hide(work);
  metric.metricEnergy(law, work);
}

/** The metric of the cloth itself, from what it hides. */
function hide(work: Float64Array): void {
  const n = work[N_U]!;
  const v = work[N_V]!;
  const d = work[HIDDEN]!;
  work[metric.A] = work[LIES]! + d * n * n;
  work[metric.B] = work[LIES + 1]! + d * v * v;
  work[metric.M] = work[LIES + 2]! + d * n * v;
}

/** First and second derivatives along both ways in which what is hidden may change. */
function lookAround(law: TensionLaw, work: Float64Array): void {
  const ke = regular(law);
  const n = work[N_U]!;
  const v = work[N_V]!;
  const d = work[HIDDEN]!;
  const own = n * n;
  const other = v * v;
  const both = n * v;
  work[E] = own;
  work[E + 1] = other;
  work[E + 2] = both;
  work[F] = -2 * both;
  work[F + 1] = 2 * both;
  work[F + 2] = own - other;
  const a = work[metric.W_A]! + ke * d * own;
  const b = work[metric.W_B]! + ke * d * other;
  const m = work[metric.W_M]! + 2 * ke * d * both;
  work[ALONG_E] = a * own + b * other + m * both;
  work[ALONG_F] = 2 * (b - a) * both + m * (own - other);
  work[PULL] = 2 * (b - a) * (own - other) - 4 * m * both;
  work[EE] = curvature(work, ke, E, E);
  work[EF] = curvature(work, ke, E, F);
  work[FF] = curvature(work, ke, F, F);
}

/**
 * Newton's step in the amount d and the angle of n. The derivative by the angle is d times that along f; it is divided
 * by d, so that the step stays well posed as d vanishes at the border to taut cloth.
 */
function chooseStep(law: TensionLaw, work: Float64Array): void {
  const d = work[HIDDEN]!;
  const more = work[ALONG_E]!;
  const turn = work[ALONG_F]!;
  const mixed = d * work[EF]! + (d > 0 ? turn : 0);
  const turning = d * work[FF]! + work[PULL]!;
  const determinant = work[EE]! * turning - mixed * work[EF]!;
  if (work[EE]! > 0 && turning > 0 && determinant > 0.01 * work[EE]! * turning) {
    work[STEP] = (mixed * turn - turning * more) / determinant;
    work[TURN] = (work[EF]! * more - work[EE]! * turn) / determinant;
  } else {
    const least = 1e-3 * law.typicalStiffness;
    work[STEP] = -more / Math.max(Math.abs(work[EE]!), least);
    work[TURN] = -turn / Math.max(Math.abs(turning), d * Math.abs(work[FF]!), least);
  }
  work[STEP] = Math.max(work[STEP], -0.9 * d);
}

/** Goes along the step as far as the energy falls; near balance, where its fall drowns in round-off, all the way. */
function takeStep(law: TensionLaw, work: Float64Array): void {
  const ke = regular(law);
  const d = work[HIDDEN]!;
  const n = work[N_U]!;
  const v = work[N_V]!;
  const before = work[metric.ENERGY]! + (ke * d * d) / 2;
  const slope = Math.min(0, work[ALONG_E]! * work[STEP]! + d * work[ALONG_F]! * work[TURN]!);
  const isNear = Math.abs(work[ALONG_E]!) + Math.abs(work[ALONG_F]!) < NEARLY * law.typicalStiffness;
  let share = Math.min(1, 0.4 / Math.abs(work[TURN]!));
  for (let halving = 0; halving < MOST_HALVINGS; halving++) {
    const cos = Math.cos(share * work[TURN]!);
    const sin = Math.sin(share * work[TURN]!);
    const hidden = d + share * work[STEP]!;
    work[HIDDEN] = hidden;
    work[N_U] = cos * n - sin * v;
    work[N_V] = sin * n + cos * v;
    hide(work);
    metric.metricEnergy(law, work);
    const now = work[metric.ENERGY]! + (ke * hidden * hidden) / 2;
    if (isNear || now <= before + 1e-4 * share * slope) return;
    share /= 2;
  }
}
