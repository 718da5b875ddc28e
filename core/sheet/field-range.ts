import type { Field, FieldId, FieldKind } from '../fields/field.ts';
import { soundRange, type ColourRange, type RampName } from './colour-scale.ts';
import { tapeUnits } from './display-unit.ts';
import { roundStep } from './ticks.ts';

/** One fabric's own values, or how far the second lies from the first. */
export type Showing = 'values' | 'difference';

/**
 * Ranges that hold until somebody types another: round, and wide enough for worn shapewear (0.4 to 4 kPa). SI.
 * Common practice; the pressure span covers every band of `judgement/limits.ts` but the last.
 */
const VALUE_RANGES: Readonly<Record<FieldId, ColourRange>> = {
  skinPressure: { low: 0, high: 4000 },
  discPressure: { low: 0, high: 4000 },
  stretchAcross: { low: 0, high: 0.5 },
  stretchAlong: { low: -0.2, high: 0.2 },
  tensionAcross: { low: 0, high: 250 },
  tensionAlong: { low: 0, high: 250 },
  gap: { low: 0, high: 0.02 },
  give: { low: 0, high: 0.01 },
};

const DIFFERENCE_REACH: Readonly<Record<FieldId, number>> = {
  skinPressure: 1000,
  discPressure: 1000,
  stretchAcross: 0.1,
  stretchAlong: 0.1,
  tensionAcross: 100,
  tensionAlong: 100,
  gap: 0.005,
  give: 0.005,
};

export function defaultRange(id: FieldId, showing: Showing): ColourRange {
  if (showing === 'values') return VALUE_RANGES[id];
  return { low: -DIFFERENCE_REACH[id], high: DIFFERENCE_REACH[id] };
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
