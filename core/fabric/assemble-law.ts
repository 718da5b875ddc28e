import type { AxisCurve } from './axis-curve.ts';
import { secantAt } from './axis-curve.ts';
import { axisTable, sampleAxis } from './axis-table.ts';
import type { AxisSamples } from './axis-table.ts';
import { tabulateEnergy } from './energy-table.ts';
import type { EnergyTable } from './energy-table.ts';
import type { TensionLaw } from './tension-law.ts';

/**
 * How fast the resistance to a change of area fades with area, r. Chosen, not measured by strips: r = 1.5 lets the law
 * pass the biaxial rubber readings of Kawabata et al. (1981); 1 to 2 is the usable range.
 */
export const COUPLING_FADE = 1.5;

/** All that a law is made of. */
export interface LawParts {
  readonly warp: AxisCurve;
  readonly weft: AxisCurve;
  /** c, N/m. */
  readonly coupling: number;
  /** S'(g) for g >= 0, N/m; rising from 0. */
  readonly shear: (angle: number) => number;
  /** ln of the stretch ratio at which force sets in; 0 if left out. */
  readonly set?: { readonly warp: number; readonly weft: number };
}

/** Shear is tabled to this angle (rad) and straight beyond. */
const LARGEST_ANGLE = 1.4;
const SHEAR_CELLS = 280;

/** Both axes of a law read off at their tables' knots: what laws of any coupling share. */
export interface SampledAxes {
  readonly curves: { readonly warp: AxisCurve; readonly weft: AxisCurve };
  readonly set: { readonly warp: number; readonly weft: number };
  readonly warp: AxisSamples;
  readonly weft: AxisSamples;
}

/** Reads both strips off once, for laws of several couplings. */
export function sampleAxes(
  warp: AxisCurve,
  weft: AxisCurve,
  set: { readonly warp: number; readonly weft: number },
): SampledAxes {
  return {
    curves: { warp, weft },
    set,
    warp: sampleAxis(warp, weft, COUPLING_FADE),
    weft: sampleAxis(weft, warp, COUPLING_FADE),
  };
}

/** Lays the parts of a law into tables. */
export function assembleLaw(parts: LawParts): TensionLaw {
  const axes = sampleAxes(parts.warp, parts.weft, parts.set ?? { warp: 0, weft: 0 });
  return withShear(unshearedLaw(axes, parts.coupling), parts.shear);
}

/** The law that resists no shear, S = 0. @param coupling - c, N/m. */
export function unshearedLaw(axes: SampledAxes, coupling: number): TensionLaw {
  const { set, curves } = axes;
  const fade = COUPLING_FADE;
  const warp = axisTable(axes.warp, coupling);
  const weft = axisTable(axes.weft, coupling);
  const warpStiffness = secantAt(curves.warp, 0.1).stiffness;
  const weftStiffness = secantAt(curves.weft, 0.1).stiffness;
  const softer = Math.min(warpStiffness, weftStiffness);
  return {
    measuredTo: {
      warp: Math.exp(curves.warp.measuredTo + set.warp),
      weft: Math.exp(curves.weft.measuredTo + set.weft),
    },
    set,
    coupling,
    couplingFade: fade,
    slackStiffness: 1e-3 * Math.max(coupling, softer / 10),
    typicalStiffness: coupling + Math.max(warpStiffness, weftStiffness),
    warp,
    weft,
    shear: shearTable(() => 0),
  };
}

/** The same law with a resistance to shear. @param shear - S'(g) for g >= 0, N/m; rising from 0. */
export function withShear(law: TensionLaw, shear: (angle: number) => number): TensionLaw {
  return { ...law, shear: shearTable(shear) };
}

const shearTable = (slope: (angle: number) => number): EnergyTable =>
  tabulateEnergy({ slope, step: LARGEST_ANGLE / SHEAR_CELLS, cellsBelow: 0, cellsAbove: SHEAR_CELLS });
