import { readEnergy } from './energy-table.ts';
import type { TensionLaw } from './tension-law.ts';

/** Places in the working array: what goes in and what comes out. */
export const X = 0;
export const Y = 1;
export const SINE = 2;
export const ENERGY = 3;
export const W_X = 4;
export const W_Y = 5;
export const W_S = 6;
export const W_XX = 7;
export const W_YY = 8;
export const W_SS = 9;
export const W_XY = 10;
export const W_XS = 11;
export const W_YS = 12;
const PHI_U = 13;
const PHI_V = 16;
const SHEAR = 19;
/** Length of the working array. */
export const YARN_SIZE = 22;

/**
 * The law's energy per rest area in its own coordinates, pulled or pushed, with all derivatives up to the second:
 *
 * W(x, y, s) = phi_u(x) + phi_v(y) + psi(z) + S(g), z = x + y + k, k = ln cos g = ln(1 - s^2) / 2, s = sin g,
 * psi = (c/r) (z - (1 - q)/r), psi' = c (1 - q)/r, psi'' = c q, with q = exp(-r z).
 *
 * dg/ds = 1 / cos g; k_s = -s / cos^2, k_ss = -(1 + s^2) / cos^4.
 *
 * @param work - x, y, s at X, Y, SINE; the rest is left at its places. All N/m but those three.
 */
export function yarnEnergy(law: TensionLaw, work: Float64Array): void {
  const x = work[X]!;
  const y = work[Y]!;
  const s = work[SINE]!;
  const cos2 = 1 - s * s;
  const cos = Math.sqrt(cos2);
  readEnergy(law.warp, x, work, PHI_U);
  readEnergy(law.weft, y, work, PHI_V);
  readEnergy(law.shear, Math.abs(Math.asin(s)), work, SHEAR);
  const z = x + y + Math.log(cos2) / 2;
  const c = law.coupling;
  const r = law.couplingFade;
  const q = Math.exp(-r * z);
  const h = (1 - q) / r;
  const psi1 = c * h;
  const psi2 = c * q;
  const shear1 = s < 0 ? -work[SHEAR + 1]! : work[SHEAR + 1]!;
  const ks = -s / cos2;
  const kss = -(1 + s * s) / (cos2 * cos2);
  work[ENERGY] = work[PHI_U]! + work[PHI_V]! + (c / r) * (z - h) + work[SHEAR]!;
  work[W_X] = work[PHI_U + 1]! + psi1;
  work[W_Y] = work[PHI_V + 1]! + psi1;
  work[W_S] = shear1 / cos - (psi1 * s) / cos2;
  work[W_XX] = work[PHI_U + 2]! + psi2;
  work[W_YY] = work[PHI_V + 2]! + psi2;
  work[W_SS] = work[SHEAR + 2]! / cos2 + (shear1 * s) / (cos2 * cos) + psi2 * ks * ks + psi1 * kss;
  work[W_XY] = psi2;
  work[W_XS] = psi2 * ks;
  work[W_YS] = psi2 * ks;
}
