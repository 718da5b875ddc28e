import type { AxisCurve } from './axis-curve.ts';
import { secantAt } from './axis-curve.ts';
import { couplingShape } from './axis-table.ts';

/** What the strips' stiffness and narrowing say about the coupling of the two directions. */
export interface Reciprocity {
  /** c, N/m. */
  readonly coupling: number;
  /** Both directions' own answers, N/m. */
  readonly fromWarpWidth: number;
  readonly fromWeftWidth: number;
  /** Factor by which the two answers differ, >= 1; 1 where neither direction narrows. */
  readonly disagreement: number;
  /** n_u n_v; at 1 the fabric would gain no area when stretched. */
  readonly contractionProduct: number;
}

/** How the coupling was come by; the widest band belongs to the weakest evidence. */
export interface CouplingEvidence {
  readonly from: 'reciprocity' | 'held width';
  /** The direction of the strip whose width was held; left out where there was none. */
  readonly heldDirection?: 'warp' | 'weft';
  /** Factor by which warp and weft widths disagree, >= 1. */
  readonly disagreement: number;
  /** c used over c from reciprocity. */
  readonly factor: number;
  /** x at which secants were compared. */
  readonly secantAt: number;
}

/** Above this factor the two widths are taken to contradict each other, and the smaller answer is used. */
export const LARGEST_DISAGREEMENT = 3;

/**
 * The coupling from reciprocity: for small stretch, energy demands n_u E_v = n_v E_u, and
 * c = sqrt(n_u n_v E_u E_v) / (1 - n_u n_v). Where the two sides differ by more than a factor 3, the smaller counts.
 *
 * @param at - x at which secants are taken.
 * @see Lekhnitskii, Theory of Elasticity of an Anisotropic Body, 1963 (reciprocity of an orthotropic sheet).
 */
export function reciprocalCoupling(warp: AxisCurve, weft: AxisCurve, at: number): Reciprocity {
  const u = secantAt(warp, at);
  const v = secantAt(weft, at);
  const contractionProduct = u.contraction * v.contraction;
  const gain = 1 - Math.min(contractionProduct, 0.9);
  const fromWarpWidth = (u.contraction * v.stiffness) / gain;
  const fromWeftWidth = (v.contraction * u.stiffness) / gain;
  const smaller = Math.min(fromWarpWidth, fromWeftWidth);
  const disagreement = smaller > 0 ? Math.max(fromWarpWidth, fromWeftWidth) / smaller : 1;
  return {
    coupling: disagreement > LARGEST_DISAGREEMENT ? smaller : Math.sqrt(fromWarpWidth * fromWeftWidth),
    fromWarpWidth,
    fromWeftWidth,
    disagreement,
    contractionProduct,
  };
}

/** A strip pulled while its width is held. */
export interface HeldWidthStrip {
  /** The curve of the free strip cut the same way. */
  readonly free: AxisCurve;
  /** [x = ln stretch ratio, tau = T l in N/m, and, for repeats, their standard deviation over tau]. */
  readonly readings: readonly (readonly [x: number, tau: number, deviation?: number])[];
  /** The coupling expected before looking, N/m. */
  readonly expected: number;
  readonly fade: number;
}

/** Share of the force that one bench reading is trusted to. */
const FORCE_SHARE = 0.01;
/** Spread of ln c before looking, and where it is centred: strips' reciprocity tends to overshoot. */
const PRIOR_SPREAD = 0.7;
const PRIOR_SHARE = 0.7;

/**
 * The coupling from a strip whose width was held: T_held l = tau(x) + psi'(x) - psi'(x - w(x)), linear in c; least
 * squares on ln c with a broad expectation around the strips' own answer.
 *
 * @returns c in N/m.
 */
export function couplingFromHeldWidth(strip: HeldWidthStrip): number {
  const { free, readings, expected, fade } = strip;
  const narrowing = free.narrowing;
  if (narrowing === null || expected <= 0) return expected;
  const rows = readings.map(([x, tau, deviation]) => ({
    gain: couplingShape(x, fade) - couplingShape(x - narrowing(x), fade),
    excess: tau - free.tau(x),
    spread: Math.max(FORCE_SHARE, deviation ?? 0) * tau,
  }));
  const centre = Math.log(PRIOR_SHARE * expected);
  let logC = centre;
  for (let i = 0; i < 50; i++) {
    const c = Math.exp(logC);
    let gradient = (logC - centre) / (PRIOR_SPREAD * PRIOR_SPREAD);
    let curvature = 1 / (PRIOR_SPREAD * PRIOR_SPREAD);
    for (const { gain, excess, spread } of rows) {
      const slope = (c * gain) / spread;
      gradient += slope * ((c * gain - excess) / spread);
      curvature += slope * slope;
    }
    const step = Math.max(-1, Math.min(1, gradient / curvature));
    logC -= step;
    if (Math.abs(step) < 1e-12) break;
  }
  return Math.exp(logC);
}
