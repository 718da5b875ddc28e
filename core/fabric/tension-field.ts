import * as metric from './metric-energy.ts';
import type { TensionLaw } from './tension-law.ts';

/** Places in the working array, behind those of the metric's energy: the cloth as it lies, (a, b, m). */
const LIES = metric.METRIC_SIZE;
/** The direction n in which length is hidden, in the unstretched cloth, and how much of it. */
const N_U = LIES + 3;
const N_V = LIES + 4;
const HIDDEN = LIES + 5;
/** The metric's change e as more is hidden along n, and f as n turns; 3 each. */
const E = LIES + 6;
const F = LIES + 9;
/** What is left of both conditions of balance, the pull across the wrinkles, and the second derivatives along e and f. */
const ALONG_E = LIES + 12;
const ALONG_F = LIES + 13;
const PULL = LIES + 14;
const EE = LIES + 15;
const EF = LIES + 16;
const FF = LIES + 17;
const STEP = LIES + 18;
const TURN = LIES + 19;
/** Three columns for the elimination. */
const SOLVED = LIES + 20;
/** Length of the working array. */
export const FIELD_SIZE = LIES + 29;

/** Imbalance at which the search ends, and below which its full step is taken; shares of the typical stiffness. */
const BALANCED = 1e-13;
const NEARLY = 1e-6;
const MOST_STEPS = 60;
const MOST_HALVINGS = 12;
/** The search starts where the cloth lies unless that is sheared or squeezed beyond these; then from round about rest. */
const MOST_SINE = 0.8;
const LEAST_SQUARE = 0.3;

/** In wrinkles: pulled along them only, or carrying nothing at all. */
export type Wrinkled = 'one way' | 'all ways';

/**
 * The energy of cloth that would be pushed, let go in wrinkles (a tension field):
 *
 * W(C) = min over D of W0(C + D) + ke |D|^2 / 8, D symmetric and not negative,
 *
 * C the metric of the cloth as it lies, C + D that of the cloth itself between the creases. Where one direction would be
 * pushed D = d n n', and what balances is (T + ke D / 2) n = 0 with T = 2 dW0/dC: only a pull along the wrinkles is
 * left. Where that would be a push too, D is whole and the cloth carries nothing. The term with ke (about c/1000) keeps
 * the system regular; as the minimum over a closed convex set the energy is once differentiable everywhere.
 *
 * First derivatives are those of W0 at C + D (envelope theorem), second ones follow by eliminating d and the angle of n.
 *
 * @param work - The metric of the cloth as it lies at A, B, M, where it was read and is not taut; energy and derivatives
 *   are left at the places of metric-energy.ts.
 * @see Pipkin, IMA J. Appl. Math. 36 (1986) 85; Steigmann, Proc. R. Soc. A 429 (1990) 141.
 */
export function relaxInWrinkles(law: TensionLaw, work: Float64Array): Wrinkled {
  work[LIES] = work[metric.A]!;
  work[LIES + 1] = work[metric.B]!;
  work[LIES + 2] = work[metric.M]!;
  if (isBelowRest(law, work)) {
    letAllGo(law, work);
    if (isHidden(work)) return finishSlack(law, work);
    restore(work);
  }
  startOneWay(law, work);
  const balanced = BALANCED * law.typicalStiffness;
  for (let i = 0; i < MOST_STEPS; i++) {
    lookAround(law, work);
    if (Math.abs(work[ALONG_E]!) + Math.abs(work[ALONG_F]!) < balanced) break;
    chooseStep(law, work);
    takeStep(law, work);
  }
  lookAround(law, work);
  if (work[PULL]! >= 0) return finishOneWay(law, work);
  letAllGo(law, work);
  return finishSlack(law, work);
}

/** ke / 4: what multiplies (da^2 + db^2 + 2 dm^2) / 2. */
const regular = (law: TensionLaw): number => law.slackStiffness / 4;

/** Whether the cloth lies closer than unstretched cloth in every direction. */
function isBelowRest({ set }: TensionLaw, work: Float64Array): boolean {
  const a = Math.exp(2 * set.warp) - work[LIES]!;
  const b = Math.exp(2 * set.weft) - work[LIES + 1]!;
  const m = work[LIES + 2]!;
  return a > 0 && b > 0 && a * b > m * m;
}

/** Whether the change from the cloth as it lies hides length in every direction. */
function isHidden(work: Float64Array): boolean {
  const a = work[metric.A]! - work[LIES]!;
  const b = work[metric.B]! - work[LIES + 1]!;
  const m = work[metric.M]! - work[LIES + 2]!;
  return a >= 0 && b >= 0 && a * b >= m * m;
}

function restore(work: Float64Array): void {
  for (let i = 0; i < 3; i++) work[metric.A + i] = work[LIES + i]!;
}

/**
 * First direction and amount: across the greatest push with nothing hidden, or, of cloth far from what the law was made
 * for, the most compressed direction brought back to its unstretched length.
 */
function startOneWay(law: TensionLaw, work: Float64Array): void {
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
  work[E] = n * n;
  work[E + 1] = v * v;
  work[E + 2] = n * v;
  work[F] = -2 * n * v;
  work[F + 1] = 2 * n * v;
  work[F + 2] = n * n - v * v;
  const a = work[metric.W_A]! + ke * d * work[E];
  const b = work[metric.W_B]! + ke * d * work[E + 1]!;
  const m = work[metric.W_M]! + 2 * ke * d * work[E + 2]!;
  work[ALONG_E] = a * work[E] + b * work[E + 1]! + m * work[E + 2]!;
  work[ALONG_F] = a * work[F] + b * work[F + 1]! + m * work[F + 2]!;
  work[PULL] = 2 * (b - a) * work[F + 2]! - 4 * m * work[E + 2]!;
  work[EE] = second(work, ke, E, E);
  work[EF] = second(work, ke, E, F);
  work[FF] = second(work, ke, F, F);
}

/** p' (W0'' + regular part) q, p and q places of changes of the metric. */
function second(work: Float64Array, ke: number, p: number, q: number): number {
  const a = work[q]!;
  const b = work[q + 1]!;
  const m = work[q + 2]!;
  return (
    work[p]! * ((work[metric.W_AA]! + ke) * a + work[metric.W_AB]! * b + work[metric.W_AM]! * m) +
    work[p + 1]! * (work[metric.W_AB]! * a + (work[metric.W_BB]! + ke) * b + work[metric.W_BM]! * m) +
    work[p + 2]! * (work[metric.W_AM]! * a + work[metric.W_BM]! * b + (work[metric.W_MM]! + 2 * ke) * m)
  );
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

/**
 * W'' = W0'' - [h k] Q^-1 [h k]', h = W0'' e, k = d W0'' f, Q the second derivatives by d and the angle; both sides are
 * divided by d, so that nothing is lost where it vanishes.
 */
function finishOneWay(law: TensionLaw, work: Float64Array): Wrinkled {
  const d = work[HIDDEN]!;
  work[metric.ENERGY]! += (regular(law) * d * d) / 2;
  const turning = d * work[FF]! + work[PULL]!;
  const least = 1e-9 * law.typicalStiffness * law.typicalStiffness;
  const determinant = Math.max(work[EE]! * turning - d * work[EF]! * work[EF]!, least);
  const hh = turning / determinant;
  const hk = (-d * work[EF]!) / determinant;
  const kk = (d * work[EE]!) / determinant;
  const h = SOLVED;
  const k = SOLVED + 3;
  multiply(work, E, h);
  multiply(work, F, k);
  const less = (i: number, j: number): number =>
    hh * work[h + i]! * work[h + j]! +
    hk * (work[h + i]! * work[k + j]! + work[k + i]! * work[h + j]!) +
    kk * work[k + i]! * work[k + j]!;
  work[metric.W_AA]! -= less(0, 0);
  work[metric.W_BB]! -= less(1, 1);
  work[metric.W_MM]! -= less(2, 2);
  work[metric.W_AB]! -= less(0, 1);
  work[metric.W_AM]! -= less(0, 2);
  work[metric.W_BM]! -= less(1, 2);
  return 'one way';
}

/** W0'' times the change of the metric at `p`. */
function multiply(work: Float64Array, p: number, into: number): void {
  const a = work[p]!;
  const b = work[p + 1]!;
  const m = work[p + 2]!;
  work[into] = work[metric.W_AA]! * a + work[metric.W_AB]! * b + work[metric.W_AM]! * m;
  work[into + 1] = work[metric.W_AB]! * a + work[metric.W_BB]! * b + work[metric.W_BM]! * m;
  work[into + 2] = work[metric.W_AM]! * a + work[metric.W_BM]! * b + work[metric.W_MM]! * m;
}

/** The metric at which nothing balances but the regular part: Newton from unstretched cloth, from which it hardly differs. */
function letAllGo(law: TensionLaw, work: Float64Array): void {
  const ke = regular(law);
  work[metric.A] = Math.exp(2 * law.set.warp);
  work[metric.B] = Math.exp(2 * law.set.weft);
  work[metric.M] = 0;
  for (let i = 0; i < MOST_STEPS; i++) {
    metric.metricEnergy(law, work);
    work[E] = work[metric.W_A]! + ke * (work[metric.A] - work[LIES]!);
    work[E + 1] = work[metric.W_B]! + ke * (work[metric.B]! - work[LIES + 1]!);
    work[E + 2] = work[metric.W_M]! + 2 * ke * (work[metric.M]! - work[LIES + 2]!);
    const left = Math.abs(work[E]) + Math.abs(work[E + 1]!) + Math.abs(work[E + 2]!);
    if (left < BALANCED * law.typicalStiffness) return;
    solve(work, ke, E, F);
    for (let k = 0; k < 3; k++) work[metric.A + k]! -= work[F + k]!;
  }
}

/** (W0'' + regular part) x = right, both at places of three. */
function solve(work: Float64Array, ke: number, right: number, into: number): void {
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

/** W'' = R - R (W0'' + R)^-1 R, R the regular part: diag(ke, ke, 2 ke) / 4. */
function finishSlack(law: TensionLaw, work: Float64Array): Wrinkled {
  const ke = regular(law);
  const a = work[metric.A]! - work[LIES]!;
  const b = work[metric.B]! - work[LIES + 1]!;
  const m = work[metric.M]! - work[LIES + 2]!;
  work[metric.ENERGY]! += (ke * (a * a + b * b + 2 * m * m)) / 2;
  for (let column = 0; column < 3; column++) {
    for (let k = 0; k < 3; k++) work[E + k] = k === column ? (k === 2 ? 2 * ke : ke) : 0;
    solve(work, ke, E, SOLVED + 3 * column);
  }
  work[metric.W_AA] = ke - ke * work[SOLVED]!;
  work[metric.W_BB] = ke - ke * work[SOLVED + 4]!;
  work[metric.W_MM] = 2 * ke - 2 * ke * work[SOLVED + 8]!;
  work[metric.W_AB] = -ke * work[SOLVED + 3]!;
  work[metric.W_AM] = -ke * work[SOLVED + 6]!;
  work[metric.W_BM] = -ke * work[SOLVED + 7]!;
  return 'all ways';
}
