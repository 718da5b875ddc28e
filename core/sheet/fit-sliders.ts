import type { FitMeasures, FurtherGirths } from '../body/fit-measures.ts';
import { FIT_RANGES } from '../body/fit-range.ts';
import { orderOf } from '../body/fit-stations.ts';
import { metresFromMm } from '../units/units.ts';

/** Measures of our own form that are lengths. */
export type FitMeasureName = Exclude<keyof FitMeasures, 'figure'>;

/** One measure of our own form as a slider shows it. mm. */
export interface FitSlider {
  readonly name: FitMeasureName;
  readonly valueMm: number;
  /** True where nobody gave it: it follows from the others. */
  readonly isEstimated: boolean;
  readonly lowMm: number;
  readonly highMm: number;
}

/** From the neck down, the height first, arms last: as a card of measures reads. */
const ORDER: readonly FitMeasureName[] = [
  'stature',
  'neck',
  'bust',
  'underbust',
  'waist',
  'topHip',
  'hip',
  'thigh',
  'midThigh',
  'knee',
  'calf',
  'ankle',
  'upperArm',
  'elbow',
  'wrist',
];

/** Girths without which there is no form; the others are estimated from these. */
const NEEDED: ReadonlySet<FitMeasureName> = new Set(['stature', 'bust', 'underbust', 'waist', 'hip']);

export const isNeeded = (name: FitMeasureName): name is Exclude<FitMeasureName, keyof FurtherGirths> =>
  NEEDED.has(name);

/** Every measure that a form takes, from the neck down; a male form has one chest girth and no under-bust. */
export function fitSliders(measures: FitMeasures): FitSlider[] {
  const { stature, bust, girths } = orderOf(measures);
  const ranges = new Map<FitMeasureName, readonly [number, number]>(
    FIT_RANGES.map(([name, low, high]) => [name, [low, high]]),
  );
  const reached = { ...girths, stature, bust, underbust: girths.ribs };
  const names = ORDER.filter((name) => measures.figure !== 'male' || name !== 'underbust');
  return names.map((name) => {
    const [lowMm, highMm] = ranges.get(name)!;
    return { name, valueMm: reached[name], isEstimated: measures[name] === undefined, lowMm, highMm };
  });
}

/** Measures with one of them otherwise, brought into its range; null leaves it to be estimated. mm. */
export function withMeasure(
  measures: FitMeasures,
  { name, lowMm, highMm }: Pick<FitSlider, 'name' | 'lowMm' | 'highMm'>,
  valueMm: number | null,
): FitMeasures {
  if (valueMm !== null) {
    return { ...measures, [name]: metresFromMm(Math.min(highMm, Math.max(lowMm, valueMm))) };
  }
  if (isNeeded(name)) return measures;
  const { [name]: _, ...kept } = measures;
  return kept;
}
