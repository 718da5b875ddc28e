import type { AxisCurve } from './axis-curve.ts';
import { energyTable } from './energy-table.ts';
import type { EnergyTable } from './energy-table.ts';
import { rootOfRising } from './root-of-rising.ts';

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

/** One axis, read off at the knots of its table: all that does not depend on the coupling's size. */
export interface AxisSamples {
  /** Knots below x = 0. */
  readonly cellsBelow: number;
  /** tau at the knots from x = 0 up, N/m. */
  readonly tau: Float64Array;
  /** psi' / c of the own strip at the same knots; null where the own strip does not narrow. */
  readonly ownShape: Float64Array | null;
  /** psi' / c of the other strip where it has narrowed by -x, at the knots from x = 0 down as far as it does. */
  readonly otherShape: Float64Array | null;
  /** Slope of phi at x = 0 where nothing narrows, and the least slope anywhere below, N/m. */
  readonly firstSlope: number;
  readonly leastSlope: number;
}

/** Reads an axis off at the knots of its table. @param fade - r. */
export function sampleAxis(own: AxisCurve, other: AxisCurve, fade: number): AxisSamples {
  const step = 1 / CELLS_PER_UNIT;
  const top = Math.max(own.measuredTo, 1.5 * other.measuredTo, 0.6) + 0.1;
  const narrowing = own.narrowing;
  const above = Array.from({ length: Math.ceil(top * CELLS_PER_UNIT) + 1 }, (_, i) => i * step);
  const secant = own.tau(0.1) / 0.1;
  const leastSlope = LEAST_SHARE * secant;
  return {
    cellsBelow: Math.round(-LOWEST * CELLS_PER_UNIT),
    tau: Float64Array.from(above, own.tau),
    ownShape:
      narrowing === null ? null : Float64Array.from(above, (x) => couplingShape(x - narrowing(x), fade)),
    otherShape: other.narrowing === null ? null : shapeOfOther(other.narrowing, other.measuredTo, fade),
    firstSlope: Math.max(own.tau(1e-3) / 1e-3, leastSlope),
    leastSlope,
  };
}

/**
 * The energy along one yarn direction such that both strips come back exactly:
 *
 * x >= 0: phi'(x) = tau(x) - psi'(x - w(x)), from this direction's own strip;
 * x < 0: phi'(x) = -psi'(e + x) where the other strip, stretched by e, has narrowed to w(e) = -x.
 *
 * Straight beyond what can be reached. [derived: the strip's two equations, T l = phi_u' + psi' and 0 = phi_v' + psi'.]
 *
 * @param coupling - c, N/m.
 */
export function axisTable(samples: AxisSamples, coupling: number): EnergyTable {
  const { cellsBelow, tau, ownShape, otherShape, firstSlope, leastSlope } = samples;
  const step = 1 / CELLS_PER_UNIT;
  const value = new Float64Array(cellsBelow + tau.length);
  for (let i = 0; i < tau.length; i++) value[cellsBelow + i] = tau[i]! - coupling * (ownShape?.[i] ?? 0);
  const shapes = coupling === 0 ? null : otherShape;
  const reached = Math.min(shapes === null ? 0 : shapes.length - 1, cellsBelow);
  for (let i = 1; i <= reached; i++) value[cellsBelow - i] = -coupling * shapes![i]!;
  const end = value[cellsBelow - reached]!;
  const rise =
    reached > 0
      ? Math.max((value[cellsBelow - reached + 1]! - end) / step, leastSlope)
      : Math.max(firstSlope, leastSlope);
  if (reached === 0) value[cellsBelow] = tau[0]!;
  for (let i = reached + 1; i <= cellsBelow; i++) value[cellsBelow - i] = end - rise * step * (i - reached);
  return energyTable(value, step, cellsBelow);
}

/** psi' / c at (e, -w) for w = 0, one step, two steps, ...; e from the other strip's narrowing. */
function shapeOfOther(narrowing: (x: number) => number, measuredTo: number, fade: number): Float64Array {
  const step = 1 / CELLS_PER_UNIT;
  const farthest = measuredTo + 0.3;
  const count = Math.floor(Math.min(narrowing(farthest), -LOWEST) * CELLS_PER_UNIT + 1e-9);
  const shapes = new Float64Array(count + 1);
  let stretch = 0;
  let stride = step;
  for (let i = 1; i <= count; i++) {
    const w = i * step;
    const low = stretch;
    stretch = rootOfRising((at) => narrowing(at) - w, { low, high: low + 1.1 * stride }, 1e-13);
    stride = stretch - low;
    shapes[i] = couplingShape(stretch - w, fade);
  }
  return shapes;
}
