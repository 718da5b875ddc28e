import { fixed } from './number-format.ts';
import { roundStep, ticksBetween } from './ticks.ts';

/** One axis of a chart in the unit that is printed; its ends are round. */
export interface ChartAxis {
  readonly low: number;
  readonly high: number;
  readonly numbered: readonly { readonly at: number; readonly label: string }[];
  /** Places of the fine marks. */
  readonly fine: readonly number[];
}

/**
 * The axis that holds every value: ends on numbered marks, so that pictures drawn with it compare. Below zero it goes no
 * farther than a fine mark asks: a load cell's noise about 0 N does not push the curves together.
 *
 * @param values - In the printed unit; what is not finite is left out.
 * @param atMost - Most parts between numbered marks.
 * @param always - Values that the axis holds whatever was read.
 */
export function axisHolding(values: Iterable<number>, atMost: number, always: readonly number[]): ChartAxis {
  let low = Math.min(...always);
  let high = Math.max(...always);
  for (const value of values) {
    if (!Number.isFinite(value)) continue;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  // Nothing but one value: any axis that has it at its foot will do.
  if (high === low) high = low + 1;
  const step = roundStep(high - low, atMost);
  const ends = { low: downTo(low, step), high: -downTo(-high, step) };
  const ticks = ticksBetween(ends.low, ends.high, (ends.high - ends.low) / step);
  const foot = low < 0 ? Math.max(ends.low, ...ticks.fine.filter((mark) => mark <= low)) : ends.low;
  const isOn = (mark: number): boolean => mark >= foot;
  return {
    low: foot,
    high: ends.high,
    numbered: ticks.numbered.filter(isOn).map((at) => ({ at, label: fixed(at, ticks.decimals) })),
    fine: ticks.fine.filter(isOn),
  };
}

/** Values that miss a mark but for rounding count as on it. */
const SLACK = 1e-9;

const downTo = (value: number, step: number): number =>
  Number((Math.floor(value / step + SLACK) * step).toPrecision(12)) + 0;

/** From an axis to places on paper and back. */
export interface ChartScale {
  readonly place: (value: number) => number;
  readonly value: (place: number) => number;
}

/** The straight scale that puts the axis's low end at `lowAt` and its high end at `highAt`. */
export function scaleAlong(axis: ChartAxis, lowAt: number, highAt: number): ChartScale {
  const perUnit = (highAt - lowAt) / (axis.high - axis.low);
  return {
    place: (value) => lowAt + (value - axis.low) * perUnit,
    value: (place) => axis.low + (place - lowAt) / perUnit,
  };
}
