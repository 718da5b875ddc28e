/** Between the numbers of a slider or a file and those of core. */
import { mmFromMetres, metresFromMm, degreesFromRadians, radiansFromDegrees } from '../units/units.ts';
import {
  FIT_PARAMETERS,
  isMeasure,
  type FitParameterName,
  type FitShapeName,
  type FitUnit,
} from './fit-parameters.ts';
import type { FitFigureKind, FitMeasures, FurtherGirths } from './fit-measures.ts';
import type { FitShape } from './fit-shape.ts';

/** Numbers in the parameters' own units (mm, degrees, shares). */
export type FitValues = Readonly<Partial<Record<FitParameterName, number>>>;

/** The five that no fit body can do without. */
export const NEEDED_MEASURES = ['stature', 'bust', 'underbust', 'waist', 'hip'] as const;

type Needed = Readonly<Record<(typeof NEEDED_MEASURES)[number], number>>;

const TO_SI: Readonly<Record<FitUnit, (value: number) => number>> = {
  mm: metresFromMm,
  deg: radiansFromDegrees,
  share: (value) => value,
};
const FROM_SI: Readonly<Record<FitUnit, (value: number) => number>> = {
  mm: mmFromMetres,
  deg: degreesFromRadians,
  share: (value) => value,
};

/** What a fit body is made from, in SI, out of numbers in the parameters' own units. */
export function fitFromValues(
  values: FitValues & Needed,
  figure: FitFigureKind,
): { readonly measures: FitMeasures; readonly shape: FitShape } {
  const further: { -readonly [Name in keyof FurtherGirths]: number } = {};
  const shape: { -readonly [Name in FitShapeName]?: number } = {};
  const needed = { stature: 0, bust: 0, underbust: 0, waist: 0, hip: 0 };
  for (const { name, unit } of FIT_PARAMETERS) {
    const value = values[name];
    if (value === undefined) continue;
    const si = TO_SI[unit](value);
    if (isNeeded(name)) needed[name] = si;
    else if (isMeasure(name)) further[name] = si;
    else shape[name] = si;
  }
  return { measures: { ...further, ...needed, figure }, shape };
}

/** Back: numbers in the parameters' own units. */
export function valuesFromFit(measures: FitMeasures, shape: FitShape): FitValues {
  const si: Partial<Record<FitParameterName, number>> = { ...withoutFigure(measures), ...shape };
  const values: Partial<Record<FitParameterName, number>> = {};
  for (const { name, unit } of FIT_PARAMETERS) {
    const value = si[name];
    if (value !== undefined) values[name] = FROM_SI[unit](value);
  }
  return values;
}

function withoutFigure(measures: FitMeasures): Omit<FitMeasures, 'figure'> {
  const { figure: _, ...girths } = measures;
  return girths;
}

const isNeeded = (name: FitParameterName): name is keyof Needed =>
  NEEDED_MEASURES.some((needed) => needed === name);
