import type { Field, FieldId, FieldKind } from '../fields/field.ts';
import { soundRange, type ColourRange, type RampName } from './colour-scale.ts';
import { tapeUnits } from './display-unit.ts';
import { roundStep } from './ticks.ts';

/** One fabric's own values, or how far the second lies from the first. */
export type Showing = 'values' | 'difference';

/**
 * How far ranges reach, in SI, rising: few and round, so that pictures of different garments stay comparable. The
 * widest pressure holds every band of `judgement/limits.ts`. Common practice.
 */
const VALUE_REACHES: Readonly<Record<FieldId, readonly number[]>> = {
  skinPressure: [1000, 2000, 4000, 8000],
  discPressure: [1000, 2000, 4000, 8000],
  stretchAcross: [0.2, 0.5, 1],
  stretchAlong: [0.1, 0.2, 0.5],
  tensionAcross: [20, 50, 100, 250, 500],
  tensionAlong: [20, 50, 100, 250, 500],
  gap: [0.005, 0.01, 0.02, 0.05],
  give: [0.002, 0.005, 0.01, 0.02],
  gripUsed: [1],
};

const DIFFERENCE_REACHES: Readonly<Record<FieldId, readonly number[]>> = {
  skinPressure: [250, 500, 1000, 2000],
  discPressure: [250, 500, 1000, 2000],
  stretchAcross: [0.02, 0.05, 0.1, 0.2],
  stretchAlong: [0.02, 0.05, 0.1, 0.2],
  tensionAcross: [10, 20, 50, 100, 200],
  tensionAlong: [10, 20, 50, 100, 200],
  gap: [0.001, 0.002, 0.005, 0.01],
  give: [0.0005, 0.001, 0.002, 0.005],
  gripUsed: [0.1, 0.2, 0.5, 1],
};

/** This share of the values must lie inside a standard range; single vertices at a hem may lie outside. */
const HELD = 0.995;

/**
 * The standard range of a quantity: the smallest round one that holds nearly all values of every fabric given. Chosen
 * once when a study is laid on the table and locked from then on; the widest where there are no values.
 */
export function standardRange(id: FieldId, showing: Showing, fields: readonly Field[]): ColourRange {
  const reaches = (showing === 'values' ? VALUE_REACHES : DIFFERENCE_REACHES)[id];
  const sizes = fields.flatMap(({ values, undefinedAt }) =>
    Array.from(values, Math.abs).filter((size, v) => undefinedAt[v] !== 1 && Number.isFinite(size)),
  );
  const isHeld = (reach: number): boolean =>
    sizes.length > 0 && sizes.filter((size) => size <= reach).length >= HELD * sizes.length;
  const reach = reaches.find(isHeld) ?? reaches.at(-1)!;
  const isSymmetric = showing === 'difference' || fields.some(({ kind }) => kind === 'symmetric');
  return { low: isSymmetric ? -reach : 0, high: reach };
}

/** What may be of either sign is shown about zero on blueRed: differences, and stretch along the body. */
export const rampFor = (kind: FieldKind, chosen: RampName): RampName =>
  kind === 'symmetric' ? 'blueRed' : chosen;

/** A range about zero that reaches as far as the farther of the two ends. */
export function symmetricRange(range: ColourRange): ColourRange {
  const reach = Math.max(Math.abs(range.low), Math.abs(range.high));
  return { low: -reach, high: reach };
}

/**
 * The round range that just holds every defined value of all the fields given, or `fallback` where there is nothing
 * to hold (no value, or no two that differ). Sequential quantities start at zero.
 */
export function automaticRange(fields: readonly Field[], fallback: ColourRange): ColourRange {
  const { low, high } = extent(fields);
  const first = fields[0];
  if (first === undefined || low > high) return fallback;
  const { fromSi, toSi } = tapeUnits(first.unit).first;
  const from = fallback.low >= 0 ? Math.min(0, fromSi(low)) : fromSi(low);
  const to = fromSi(high);
  if (!(to > from)) return fallback;
  const step = roundStep(to - from, 10);
  const outward = { low: toSi(Math.floor(from / step) * step), high: toSi(Math.ceil(to / step) * step) };
  const sound = soundRange(outward, fallback);
  return first.kind === 'symmetric' && fallback.low < 0 ? symmetricRange(sound) : sound;
}

/** Smallest and largest defined value; infinite the wrong way round where there is none. */
function extent(fields: readonly Field[]): ColourRange {
  let low = Infinity;
  let high = -Infinity;
  for (const { values, undefinedAt } of fields) {
    for (let v = 0; v < values.length; v++) {
      const value = values[v]!;
      if (undefinedAt[v] === 1 || !Number.isFinite(value)) continue;
      if (value < low) low = value;
      if (value > high) high = value;
    }
  }
  return { low, high };
}
