import { Fault } from '../fault/fault.ts';
import { mmFromMetres } from '../units/units.ts';
import type { FitMeasures } from './fit-measures.ts';
import { FIT_PARAMETERS, isMeasure, type FitMeasureName, type FitParameter } from './fit-parameters.ts';
import type { FitShape } from './fit-shape.ts';
import { valuesFromFit } from './fit-values.ts';

/** What each measure may be, mm. */
export const FIT_RANGES: readonly (readonly [FitMeasureName, number, number])[] = FIT_PARAMETERS.flatMap(
  ({ name, min, max }) => (isMeasure(name) ? [[name, min, max] as const] : []),
);

/** Bust less under-bust that the breasts can make up, mm: below it the smallest still stands out too far. */
const CUP_DIFFERENCE = [35, 270] as const;

/**
 * Refuses measures that the base figures cannot be brought to.
 *
 * @param measures - m.
 * @throws {Fault} `fit/measure-out-of-range`, `fit/bust-against-underbust`.
 */
export function checkMeasures(measures: FitMeasures): void {
  for (const { parameter, value } of asked(measures, {})) {
    const { name, min, max } = parameter;
    if (name === 'underbust' && measures.figure === 'male') continue;
    if (isWithin(parameter, value)) continue;
    throw new Fault('fit/measure-out-of-range', {
      measure: name,
      valueMm: value,
      lowestMm: min,
      highestMm: max,
    });
  }
  if (measures.figure === 'male') return;
  const [leastDifferenceMm, mostDifferenceMm] = CUP_DIFFERENCE;
  const bustMm = mmFromMetres(measures.bust);
  const underbustMm = mmFromMetres(measures.underbust);
  const difference = bustMm - underbustMm;
  if (difference < leastDifferenceMm || difference > mostDifferenceMm) {
    throw new Fault('fit/bust-against-underbust', {
      bustMm,
      underbustMm,
      leastDifferenceMm,
      mostDifferenceMm,
    });
  }
}

/**
 * Refuses a stance or a shape that the base figures cannot take.
 *
 * @throws {Fault} `fit/shape-out-of-range`.
 */
export function checkShape(measures: FitMeasures, shape: FitShape): void {
  for (const { parameter, value } of asked(measures, shape)) {
    const { name, kind, unit, min, max } = parameter;
    if (kind === 'girth' || kind === 'length' || isWithin(parameter, value)) continue;
    throw new Fault('fit/shape-out-of-range', { parameter: name, unit, value, lowest: min, highest: max });
  }
}

function asked(measures: FitMeasures, shape: FitShape): { parameter: FitParameter; value: number }[] {
  const values = valuesFromFit(measures, shape);
  return FIT_PARAMETERS.flatMap((parameter) => {
    const value = values[parameter.name];
    return value === undefined ? [] : [{ parameter, value }];
  });
}

/** Limits count in, whatever a turn from and to SI does to the last digit. */
const isWithin = ({ min, max }: FitParameter, value: number): boolean =>
  value >= min - 1e-9 && value <= max + 1e-9;
