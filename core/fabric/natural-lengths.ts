import { couplingShape } from './axis-table.ts';
import type { EnergyTable } from './energy-table.ts';
import { readEnergy } from './energy-table.ts';
import { rootOfRising } from './root-of-rising.ts';
import type { StartTable, TensionLaw } from './tension-law.ts';

/** The two axes and the coupling whose free lengths are wanted. */
export interface CoupledAxes {
  readonly warp: EnergyTable;
  readonly weft: EnergyTable;
  /** c, N/m. */
  readonly coupling: number;
  /** r. */
  readonly fade: number;
}

/** Start tables run over ln of a length ratio in steps of one hundredth. */
const STEP = 0.01;
const LOWEST = -1.5;
const HIGHEST = 1.5;
const TOLERANCE = 1e-7;

/**
 * The lengths slack directions take by themselves: one free against the other's stretch and the shear, and both free
 * against the shear. Only starts for a search, so good to 1e-6 is plenty.
 */
export function naturalLengths(axes: CoupledAxes): TensionLaw['natural'] {
  const both = bothFree(axes);
  return {
    warp: alone(axes, axes.warp),
    weft: alone(axes, axes.weft),
    bothWarp: startTable(0, (k) => straightAt(both.k, both.warp, k)),
    bothWeft: startTable(0, (k) => straightAt(both.k, both.weft, k)),
  };
}

/** One axis free against zeta, the other's stretch and the shear: phi'(own) + psi'(zeta + own) = 0. */
function alone({ coupling, fade }: CoupledAxes, axis: EnergyTable): StartTable {
  const slope = slopeReader(axis);
  // The own length shrinks as zeta grows, by less than zeta does where phi rises: each root brackets the next.
  let own = 2;
  let reach = 4;
  return startTable(HIGHEST, (zeta) => {
    own = rootOfRising(
      (at) => slope(at) + coupling * couplingShape(zeta + at, fade),
      { low: own - reach, high: own },
      TOLERANCE,
    );
    reach = STEP;
    return own;
  });
}

/** Both axes free: phi_u'(X) = phi_v'(Y) = -psi'(z) and k = z - X - Y, marched over z from 0 down. */
function bothFree(axes: CoupledAxes): { k: number[]; warp: number[]; weft: number[] } {
  const warpSlope = slopeReader(axes.warp);
  const weftSlope = slopeReader(axes.weft);
  const k = [0];
  const warp = [0];
  const weft = [0];
  for (let z = -STEP; k.at(-1)! > LOWEST && z > 2 * LOWEST; z -= STEP) {
    const push = axes.coupling * couplingShape(z, axes.fade);
    const x = warp.at(-1)!;
    const y = weft.at(-1)!;
    warp.push(rootOfRising((at) => warpSlope(at) + push, { low: x, high: x + STEP }, TOLERANCE));
    weft.push(rootOfRising((at) => weftSlope(at) + push, { low: y, high: y + STEP }, TOLERANCE));
    k.push(Math.min(z - warp.at(-1)! - weft.at(-1)!, k.at(-1)! - 1e-9));
  }
  return { k: k.toReversed(), warp: warp.toReversed(), weft: weft.toReversed() };
}

/** The slope of a table as a function. */
function slopeReader(table: EnergyTable): (at: number) => number {
  const read = new Float64Array(3);
  return (at) => {
    readEnergy(table, at, read, 0);
    return read[1]!;
  };
}

function startTable(highest: number, value: (at: number) => number): StartTable {
  const count = Math.round((highest - LOWEST) / STEP) + 1;
  return {
    start: LOWEST,
    step: STEP,
    values: Float64Array.from({ length: count }, (_, i) => value(LOWEST + i * STEP)),
  };
}

/** Straight-line reading of y against rising x; held at the ends. */
function straightAt(x: readonly number[], y: readonly number[], at: number): number {
  if (at <= x[0]!) return y[0]!;
  for (let i = 1; i < x.length; i++) {
    if (at <= x[i]!) return y[i - 1]! + ((at - x[i - 1]!) / (x[i]! - x[i - 1]!)) * (y[i]! - y[i - 1]!);
  }
  return y.at(-1)!;
}
