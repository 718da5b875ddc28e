import { readEnergy } from './energy-table.ts';
import type { StartTable, TensionLaw } from './tension-law.ts';

/** Places in the working array: what goes in, what comes out, what is passed between steps. */
export const X = 0;
export const Y = 1;
export const K = 2;
export const ENERGY = 3;
export const W_X = 4;
export const W_Y = 5;
export const W_K = 6;
export const W_XX = 7;
export const W_YY = 8;
export const W_KK = 9;
export const W_XY = 10;
export const W_XK = 11;
export const W_YK = 12;
const PHI_U = 13;
const PHI_V = 16;
const PSI = 19;
const FREE_X = 22;
const FREE_Y = 23;

/** Which yarn directions carry nothing. */
export type Slack = 'none' | 'weft' | 'warp' | 'both';

/**
 * Cloth gathered to this share of its length lies fold on fold and resists again, with this share of its stiffness. Set by
 * hand: it only keeps cloth that has ridden up into a heap from shrinking to nothing; taut and merely slack cloth never
 * feel it.
 */
export const PACKED_STRETCH = 0.4;
const PACKED_SHARE = 0.03;

/** {@link unpackedEnergy} and the resistance of packed folds: k (ln(l0 / l))^2 / 2 below l0, along either yarn. */
export function relaxedEnergy(law: TensionLaw, work: Float64Array): Slack {
  const slack = unpackedEnergy(law, work);
  const packed = Math.log(PACKED_STRETCH);
  const stiffness = PACKED_SHARE * law.typicalStiffness;
  const warp = work[X]! - packed;
  const weft = work[Y]! - packed;
  if (warp < 0) {
    work[ENERGY]! += (stiffness * warp * warp) / 2;
    work[W_X]! += stiffness * warp;
    work[W_XX]! += stiffness;
  }
  if (weft < 0) {
    work[ENERGY]! += (stiffness * weft * weft) / 2;
    work[W_Y]! += stiffness * weft;
    work[W_YY]! += stiffness;
  }
  return slack;
}

/**
 * The law's energy without shear in log coordinates, let go where a yarn direction would be pushed:
 *
 * W(x, y, k) = min over a, b >= 0 of phi_u(x + a) + phi_v(y + b) + psi(x + a + y + b + k) + ke (a^2 + b^2) / 2.
 *
 * a and b are the length a slack direction hides in wrinkles. The last term (ke about c/1000) keeps the system regular;
 * as the minimum over a closed set the energy is once differentiable everywhere. Slack is decided by the sign of the
 * stress, never by comparing widths, which round-off can turn.
 *
 * @param work - x, y, k at X, Y, K; energy, first and second derivatives are left at their places.
 * @see Pipkin, IMA J. Appl. Math. 36 (1986) 85 (relaxed energy of membranes; here along the two yarn directions).
 */
function unpackedEnergy(law: TensionLaw, work: Float64Array): Slack {
  const x = work[X]!;
  const y = work[Y]!;
  const tensionWarp = stressWarp(law, work, x, y);
  const tensionWeft = work[PHI_V + 1]! + work[PSI + 1]!;
  if (tensionWarp >= 0 && tensionWeft >= 0) {
    writeTaut(work);
    return 'none';
  }
  if (tensionWeft < 0) {
    const free = freeWeft(law, work, x, y);
    if (stressWarp(law, work, x, free) >= 0) {
      writeWeftSlack(law, work, free);
      return 'weft';
    }
  }
  if (tensionWarp < 0) {
    const free = freeWarp(law, work, x, y);
    stressWarp(law, work, free, y);
    if (work[PHI_V + 1]! + work[PSI + 1]! >= 0) {
      writeWarpSlack(law, work, free);
      return 'warp';
    }
  }
  freeBoth(law, work, x, y);
  writeBothSlack(law, work);
  return 'both';
}

/** Reads both axis energies and psi at a state; returns the stress along the warp. */
function stressWarp(law: TensionLaw, work: Float64Array, x: number, y: number): number {
  readEnergy(law.warp, x, work, PHI_U);
  readEnergy(law.weft, y, work, PHI_V);
  readCoupling(law, x + y + work[K]!, work);
  return work[PHI_U + 1]! + work[PSI + 1]!;
}

/** psi = (c/r) (z - (1 - q)/r), psi' = c (1 - q)/r, psi'' = c q, with q = exp(-r z). */
function readCoupling(law: TensionLaw, z: number, work: Float64Array): void {
  const c = law.coupling;
  const r = law.couplingFade;
  const q = Math.exp(-r * z);
  const h = (1 - q) / r;
  work[PSI] = (c / r) * (z - h);
  work[PSI + 1] = c * h;
  work[PSI + 2] = c * q;
}

function writeTaut(work: Float64Array): void {
  const coupling = work[PSI + 1]!;
  const stiffness = work[PSI + 2]!;
  work[ENERGY] = work[PHI_U]! + work[PHI_V]! + work[PSI]!;
  work[W_X] = work[PHI_U + 1]! + coupling;
  work[W_Y] = work[PHI_V + 1]! + coupling;
  work[W_K] = coupling;
  work[W_XX] = work[PHI_U + 2]! + stiffness;
  work[W_YY] = work[PHI_V + 2]! + stiffness;
  work[W_KK] = stiffness;
  work[W_XY] = stiffness;
  work[W_XK] = stiffness;
  work[W_YK] = stiffness;
}

/** Weft let go to ln lv = `free`: the minimum's derivatives (envelope theorem), its Hessian by elimination of `free`. */
function writeWeftSlack(law: TensionLaw, work: Float64Array, free: number): void {
  const ke = law.slackStiffness;
  const psi2 = work[PSI + 2]!;
  const phi2 = work[PHI_V + 2]!;
  const hidden = free - work[Y]!;
  const whole = Math.max(phi2 + psi2 + ke, 1e-9 * law.typicalStiffness);
  const joint = (psi2 * (phi2 + ke)) / whole;
  const mixed = (psi2 * ke) / whole;
  work[ENERGY] = work[PHI_U]! + work[PHI_V]! + work[PSI]! + (ke * hidden * hidden) / 2;
  work[W_X] = work[PHI_U + 1]! + work[PSI + 1]!;
  work[W_Y] = -ke * hidden;
  work[W_K] = work[PSI + 1]!;
  work[W_XX] = work[PHI_U + 2]! + joint;
  work[W_YY] = ke - (ke * ke) / whole;
  work[W_KK] = joint;
  work[W_XY] = mixed;
  work[W_XK] = joint;
  work[W_YK] = mixed;
}

/** The mirror of {@link writeWeftSlack}. */
function writeWarpSlack(law: TensionLaw, work: Float64Array, free: number): void {
  const ke = law.slackStiffness;
  const psi2 = work[PSI + 2]!;
  const phi2 = work[PHI_U + 2]!;
  const hidden = free - work[X]!;
  const whole = Math.max(phi2 + psi2 + ke, 1e-9 * law.typicalStiffness);
  const joint = (psi2 * (phi2 + ke)) / whole;
  const mixed = (psi2 * ke) / whole;
  work[ENERGY] = work[PHI_U]! + work[PHI_V]! + work[PSI]! + (ke * hidden * hidden) / 2;
  work[W_X] = -ke * hidden;
  work[W_Y] = work[PHI_V + 1]! + work[PSI + 1]!;
  work[W_K] = work[PSI + 1]!;
  work[W_XX] = ke - (ke * ke) / whole;
  work[W_YY] = work[PHI_V + 2]! + joint;
  work[W_KK] = joint;
  work[W_XY] = mixed;
  work[W_XK] = mixed;
  work[W_YK] = joint;
}

/** Both let go; the Hessian in (x, y, k) after eliminating the two free lengths. */
function writeBothSlack(law: TensionLaw, work: Float64Array): void {
  const ke = law.slackStiffness;
  const p = work[PSI + 2]!;
  const a = work[PHI_U + 2]! + ke;
  const b = work[PHI_V + 2]! + ke;
  const hiddenX = work[FREE_X]! - work[X]!;
  const hiddenY = work[FREE_Y]! - work[Y]!;
  const determinant = Math.max(a * b + p * (a + b), 1e-18 * law.typicalStiffness * law.typicalStiffness);
  work[ENERGY] =
    work[PHI_U]! + work[PHI_V]! + work[PSI]! + (ke * (hiddenX * hiddenX + hiddenY * hiddenY)) / 2;
  work[W_X] = -ke * hiddenX;
  work[W_Y] = -ke * hiddenY;
  work[W_K] = work[PSI + 1]!;
  work[W_XX] = ke - (ke * ke * (b + p)) / determinant;
  work[W_YY] = ke - (ke * ke * (a + p)) / determinant;
  work[W_KK] = (p * a * b) / determinant;
  work[W_XY] = (ke * ke * p) / determinant;
  work[W_XK] = (ke * p * b) / determinant;
  work[W_YK] = (ke * p * a) / determinant;
}

/** ln lv of a slack weft: phi_v'(Y) + psi'(x + k + Y) + ke (Y - y) = 0, by safeguarded Newton from the table. */
function freeWeft(law: TensionLaw, work: Float64Array, x: number, y: number): number {
  const tolerance = 1e-14 * law.typicalStiffness;
  const zeta = x + work[K]!;
  let low = y;
  let high = Infinity;
  let free = Math.max(y, startAt(law.natural.weft, zeta));
  for (let i = 0; i < 60; i++) {
    readEnergy(law.weft, free, work, PHI_V);
    readCoupling(law, zeta + free, work);
    const stress = work[PHI_V + 1]! + work[PSI + 1]! + law.slackStiffness * (free - y);
    if (stress < 0) low = free;
    else high = free;
    const next = free - stress / (work[PHI_V + 2]! + work[PSI + 2]! + law.slackStiffness);
    if (Math.abs(stress) < tolerance || Math.abs(next - free) < 1e-16) return free;
    free = inside(next, low, high);
  }
  return free;
}

/** The mirror of {@link freeWeft}. */
function freeWarp(law: TensionLaw, work: Float64Array, x: number, y: number): number {
  const tolerance = 1e-14 * law.typicalStiffness;
  const zeta = y + work[K]!;
  let low = x;
  let high = Infinity;
  let free = Math.max(x, startAt(law.natural.warp, zeta));
  for (let i = 0; i < 60; i++) {
    readEnergy(law.warp, free, work, PHI_U);
    readCoupling(law, zeta + free, work);
    const stress = work[PHI_U + 1]! + work[PSI + 1]! + law.slackStiffness * (free - x);
    if (stress < 0) low = free;
    else high = free;
    const next = free - stress / (work[PHI_U + 2]! + work[PSI + 2]! + law.slackStiffness);
    if (Math.abs(stress) < tolerance || Math.abs(next - free) < 1e-16) return free;
    free = inside(next, low, high);
  }
  return free;
}

/** A Newton step kept between the brackets; half-way (or a little up) where it leaves them. */
function inside(next: number, low: number, high: number): number {
  if (next > low && next < high) return next;
  return high === Infinity ? low + 0.1 : (low + high) / 2;
}

/** Both free lengths at once: two-variable Newton from the table, step halved while the imbalance does not fall. */
function freeBoth(law: TensionLaw, work: Float64Array, x: number, y: number): void {
  const ke = law.slackStiffness;
  const k = work[K]!;
  const tolerance = 1e-14 * law.typicalStiffness;
  let freeX = Math.max(x, startAt(law.natural.bothWarp, k));
  let freeY = Math.max(y, startAt(law.natural.bothWeft, k));
  let stepX = 0;
  let stepY = 0;
  let imbalance = Infinity;
  for (let i = 0; i < 80; i++) {
    const gx = stressWarp(law, work, freeX, freeY) + ke * (freeX - x);
    const gy = work[PHI_V + 1]! + work[PSI + 1]! + ke * (freeY - y);
    const now = Math.abs(gx) + Math.abs(gy);
    if (now < tolerance) break;
    if (now >= imbalance) {
      if (Math.abs(stepX) + Math.abs(stepY) < 1e-16) break;
      stepX /= 2;
      stepY /= 2;
      freeX -= stepX;
      freeY -= stepY;
      continue;
    }
    imbalance = now;
    const p = work[PSI + 2]!;
    const a = work[PHI_U + 2]! + ke;
    const b = work[PHI_V + 2]! + ke;
    const determinant = a * b + p * (a + b);
    stepX = (p * gy - (b + p) * gx) / determinant;
    stepY = (p * gx - (a + p) * gy) / determinant;
    freeX += stepX;
    freeY += stepY;
  }
  work[FREE_X] = freeX;
  work[FREE_Y] = freeY;
}

/** Straight-line reading of a start table. */
function startAt(table: StartTable, at: number): number {
  const { start, step, values } = table;
  const position = (at - start) / step;
  const last = values.length - 2;
  let cell = Math.floor(position);
  if (cell < 0) cell = 0;
  else if (cell > last) cell = last;
  return values[cell]! + (position - cell) * (values[cell + 1]! - values[cell]!);
}
