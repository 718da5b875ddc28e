import { couplingShape } from './axis-table.ts';
import type { EnergyTable } from './energy-table.ts';
import { readEnergy } from './energy-table.ts';
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

/**
 * The lengths slack directions take by themselves: one free against the other's stretch and the shear, and both free
 * against the shear. Only starts for a search, so good to 1e-6 is plenty.
 */
export function naturalLengths(axes: CoupledAxes): TensionLaw['natural'] {
  const alone = (axis: EnergyTable): StartTable =>
    startTable(HIGHEST, (zeta) =>
      rootOf((own) => slopeOf(axis, own) + axes.coupling * couplingShape(zeta + own, axes.fade)),
    );
  const both = bothFree(axes);
  return {
    warp: alone(axes.warp),
    weft: alone(axes.weft),
    bothWarp: startTable(0, (k) => straightAt(both.k, both.warp, k)),
    bothWeft: startTable(0, (k) => straightAt(both.k, both.weft, k)),
  };
}

/** Both axes free: phi_u'(X) = phi_v'(Y) = -psi'(z) and k = z - X - Y, marched over z from 0 down. */
function bothFree(axes: CoupledAxes): { k: number[]; warp: number[]; weft: number[] } {
  const free = { k: [0], warp: [0], weft: [0] };
  for (let z = -STEP; free.k[0]! > LOWEST && z > 2 * LOWEST; z -= STEP) {
    const push = axes.coupling * couplingShape(z, axes.fade);
    const warp = rootOf((x) => slopeOf(axes.warp, x) + push);
    const weft = rootOf((y) => slopeOf(axes.weft, y) + push);
    free.k.unshift(Math.min(z - warp - weft, free.k[0]! - 1e-9));
    free.warp.unshift(warp);
    free.weft.unshift(weft);
  }
  return free;
}

function slopeOf(table: EnergyTable, x: number): number {
  const read = new Float64Array(3);
  readEnergy(table, x, read, 0);
  return read[1]!;
}

/** Where a rising function passes 0, by bisection on [-2, 2], widened as needed. */
function rootOf(rising: (at: number) => number): number {
  let low = -2;
  let high = 2;
  for (let i = 0; i < 8 && rising(low) > 0; i++) low *= 2;
  for (let i = 0; i < 8 && rising(high) < 0; i++) high *= 2;
  while (high - low > 1e-7) {
    const middle = (low + high) / 2;
    if (rising(middle) < 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
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
