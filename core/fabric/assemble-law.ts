import type { AxisCurve } from './axis-curve.ts';
import { secantAt } from './axis-curve.ts';
import { axisTable } from './axis-table.ts';
import { tabulateEnergy } from './energy-table.ts';
import { naturalLengths } from './natural-lengths.ts';
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

/** Lays the parts of a law into tables. */
export function assembleLaw(parts: LawParts): TensionLaw {
  const { warp, weft, coupling } = parts;
  const set = parts.set ?? { warp: 0, weft: 0 };
  const fade = COUPLING_FADE;
  const warpTable = axisTable({ own: warp, other: weft, coupling, fade });
  const weftTable = axisTable({ own: weft, other: warp, coupling, fade });
  const warpStiffness = secantAt(warp, 0.1).stiffness;
  const weftStiffness = secantAt(weft, 0.1).stiffness;
  const softer = Math.min(warpStiffness, weftStiffness);
  return {
    measuredTo: {
      warp: Math.exp(warp.measuredTo + set.warp),
      weft: Math.exp(weft.measuredTo + set.weft),
    },
    set,
    coupling,
    couplingFade: fade,
    slackStiffness: 1e-3 * Math.max(coupling, softer / 10),
    typicalStiffness: coupling + Math.max(warpStiffness, weftStiffness),
    warp: warpTable,
    weft: weftTable,
    shear: tabulateEnergy({
      slope: parts.shear,
      step: LARGEST_ANGLE / SHEAR_CELLS,
      cellsBelow: 0,
      cellsAbove: SHEAR_CELLS,
    }),
    natural: naturalLengths({ warp: warpTable, weft: weftTable, coupling, fade }),
  };
}
