import { monotoneCubic, slopeAt, valueAt } from '../units/monotone-cubic.ts';
import { assembleLaw, sampleAxes, unshearedLaw, withShear } from './assemble-law.ts';
import type { AxisCurve } from './axis-curve.ts';
import { shearFromBias } from './bias-shear.ts';
import { reciprocalCoupling } from './coupling.ts';
import type { TensionLaw } from './tension-law.ts';

/** One idealised strip, points rising in stretch ratio; (1, 0) and (1, 1) may be left out. */
export interface IdealStrip {
  /** [stretch ratio, force per original width in N/m]. */
  readonly load: readonly (readonly [number, number])[];
  /** [stretch ratio, width ratio]; left out where the strip does not narrow. */
  readonly width?: readonly (readonly [number, number])[];
}

/** Strips without noise, from closed forms. */
export interface IdealStrips {
  readonly warp: IdealStrip;
  readonly weft: IdealStrip;
  /** S'(g) = modulus * g (N/m), or the force of a strip cut at 45 degrees. */
  readonly shear: { readonly modulus: number } | { readonly bias: IdealStrip };
  /** c, N/m; from reciprocity if left out. */
  readonly coupling?: number;
}

/**
 * A law from idealised strip curves: no guards, no smoothing; the points are joined by a monotone cubic in the stretch
 * ratio (two points by a straight line).
 */
export function lawFromStrips(strips: IdealStrips): TensionLaw {
  const warp = idealCurve(strips.warp);
  const weft = idealCurve(strips.weft);
  const coupling = strips.coupling ?? reciprocalCoupling(warp, weft, 0.1).coupling;
  if ('modulus' in strips.shear) {
    const { modulus } = strips.shear;
    return assembleLaw({ warp, weft, coupling, shear: (angle) => modulus * angle });
  }
  const unsheared = unshearedLaw(sampleAxes(warp, weft, { warp: 0, weft: 0 }), coupling);
  return withShear(unsheared, shearFromBias(unsheared, idealCurve(strips.shear.bias)).slope);
}

/** T(l) and w(x) through the points; tau straight in x beyond the last. */
export function idealCurve(strip: IdealStrip): AxisCurve {
  const load = strip.load.filter(([stretch]) => stretch > 1);
  const tension = monotoneCubic([1, ...load.map(([l]) => l)], [0, ...load.map(([, t]) => t)]);
  const last = load.at(-1)![0];
  const measuredTo = Math.log(last);
  const tauEnd = valueAt(tension, last) * last;
  const tauRise = (slopeAt(tension, last) * last + valueAt(tension, last)) * last;
  return {
    tau: (x) =>
      x <= measuredTo ? valueAt(tension, Math.exp(x)) * Math.exp(x) : tauEnd + tauRise * (x - measuredTo),
    narrowing: narrowingOf(strip.width ?? []),
    measuredTo,
  };
}

function narrowingOf(width: readonly (readonly [number, number])[]): AxisCurve['narrowing'] {
  const narrowed = width.filter(([stretch]) => stretch > 1);
  if (narrowed.every(([, ratio]) => ratio >= 1)) return null;
  const curve = monotoneCubic(
    [0, ...narrowed.map(([l]) => Math.log(l))],
    [0, ...narrowed.map(([, ratio]) => -Math.log(ratio))],
  );
  return (x) => valueAt(curve, x);
}
