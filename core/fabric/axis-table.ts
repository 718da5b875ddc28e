import type { AxisCurve } from './axis-curve.ts';
import { tabulateEnergy } from './energy-table.ts';
import type { EnergyTable } from './energy-table.ts';

/** Cells per unit of ln(stretch ratio). */
const CELLS_PER_UNIT = 400;
/** Compression is tabled down to this; a strip of half its width is beyond any knit measured. */
const LOWEST = -0.7;
/** The least stiffness an axis keeps where nothing was measured, as a share of its secant stiffness at x = 0.1. */
const LEAST_SHARE = 1e-3;

/** psi'(z) / c = (1 - exp(-r z)) / r. */
export function couplingShape(z: number, fade: number): number {
  return (1 - Math.exp(-fade * z)) / fade;
}

/** What an axis table is made from. */
export interface AxisTableSource {
  readonly own: AxisCurve;
  readonly other: AxisCurve;
  /** c, N/m. */
  readonly coupling: number;
  /** r. */
  readonly fade: number;
}

/**
 * The energy along one yarn direction such that both strips come back exactly:
 *
 * x >= 0: phi'(x) = tau(x) - psi'(x - w(x)), from this direction's own strip;
 * x < 0: phi'(x) = -psi'(e + x) where the other strip, stretched by e, has narrowed to w(e) = -x.
 *
 * Straight beyond what can be reached. [derived: the strip's two equations, T l = phi_u' + psi' and 0 = phi_v' + psi'.]
 */
export function axisTable(source: AxisTableSource): EnergyTable {
  const { own, other, coupling, fade } = source;
  const step = 1 / CELLS_PER_UNIT;
  const push = compressionSlope(source);
  const narrowing = own.narrowing;
  const pull =
    narrowing === null || coupling === 0
      ? own.tau
      : (x: number): number => own.tau(x) - coupling * couplingShape(x - narrowing(x), fade);
  const top = Math.max(own.measuredTo, 1.5 * other.measuredTo, 0.6) + 0.1;
  return tabulateEnergy({
    slope: (x) => (x < 0 ? push(x) : pull(x)),
    step,
    cellsBelow: Math.round(-LOWEST * CELLS_PER_UNIT),
    cellsAbove: Math.ceil(top * CELLS_PER_UNIT),
  });
}

/** phi' for x < 0. */
function compressionSlope(source: AxisTableSource): (x: number) => number {
  const { own, other, coupling, fade } = source;
  const narrowing = other.narrowing;
  const secant = own.tau(0.1) / 0.1;
  if (narrowing === null || coupling === 0) {
    const first = Math.max(own.tau(1e-3) / 1e-3, LEAST_SHARE * secant);
    return (x) => first * x;
  }
  const farthest = other.measuredTo + 0.3;
  const lowest = Math.max(-narrowing(farthest), LOWEST);
  const at = (x: number): number =>
    -coupling * couplingShape(stretchThatNarrows(narrowing, -x, farthest) + x, fade);
  const step = 0.5 / CELLS_PER_UNIT;
  const endSlope = Math.max((at(lowest + step) - at(lowest)) / step, LEAST_SHARE * secant);
  const end = at(lowest);
  return (x) => (x >= lowest ? at(x) : end + endSlope * (x - lowest));
}

/** e in [0, farthest] with narrowing(e) = w, by bisection (the curve rises strictly). */
function stretchThatNarrows(narrowing: (x: number) => number, w: number, farthest: number): number {
  let low = 0;
  let high = farthest;
  for (let i = 0; i < 60 && high - low > 1e-15; i++) {
    const middle = (low + high) / 2;
    if (narrowing(middle) < w) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
