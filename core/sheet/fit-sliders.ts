import type { FitMeasures } from '../body/fit-measures.ts';
import {
  FIT_PARAMETERS,
  isMeasure,
  usualShape,
  type FitMeasureName,
  type FitParameter,
  type FitParameterName,
} from '../body/fit-parameters.ts';
import { shapeOrderOf, type FitShape } from '../body/fit-shape.ts';
import { orderOf } from '../body/fit-stations.ts';
import { mmFromMetres } from '../units/units.ts';
import { fitFromValues, NEEDED_MEASURES, valuesFromFit } from '../body/fit-values.ts';

export type { FitMeasureName, FitParameterName } from '../body/fit-parameters.ts';

/** All that our own form is asked for. SI. */
export interface AskedForm {
  readonly measures: FitMeasures;
  readonly shape: FitShape;
}

/** One thing that our own form may be asked for, as a slider shows it. Numbers in `unit`: cm, mm, degrees or %. */
export interface FitSlider {
  readonly name: FitParameterName;
  readonly kind: FitParameter['kind'];
  readonly unit: 'cm' | 'mm' | '°' | '%';
  readonly decimals: number;
  readonly value: number;
  /** True where nobody gave it: it follows from the others. */
  readonly isEstimated: boolean;
  readonly low: number;
  readonly high: number;
  readonly step: number;
}

export const isNeeded = (name: FitParameterName): name is (typeof NEEDED_MEASURES)[number] =>
  NEEDED_MEASURES.some((needed) => needed === name);

/** Arms away from the vertical where nobody says how far, degrees: about that of the base figure. */
const USUAL_ARMS = 38;

/**
 * Everything that a form takes, from the height down to its shape; a male form has one chest girth and no bust.
 *
 * @param standingArms - How far its arms stand away now, degrees, where that is known.
 */
export function fitSliders(form: AskedForm, standingArms: number | null = null): FitSlider[] {
  const given = valuesFromFit(form.measures, form.shape);
  const isMale = form.measures.figure === 'male';
  return FIT_PARAMETERS.filter(({ name }) => !isMale || (name !== 'underbust' && name !== 'bustSupport')).map(
    (parameter) => {
      const { name, kind, min, max, step } = parameter;
      const { unit, per, decimals } = shownIn(parameter);
      const value = given[name] ?? estimateOf(form, name) ?? standingArms ?? USUAL_ARMS;
      return {
        name,
        kind,
        unit,
        decimals,
        value: value / per,
        isEstimated: given[name] === undefined && parameter.default === null,
        low: min / per,
        high: max / per,
        step: step / per,
      };
    },
  );
}

/** Girths and heights are read in cm, gaps and furrows in mm. */
function shownIn({ kind, unit, step }: FitParameter): Pick<FitSlider, 'unit' | 'decimals'> & { per: number } {
  if (kind === 'girth' || kind === 'length') return { unit: 'cm', per: 10, decimals: 1 };
  if (unit === 'share') return { unit: '%', per: 0.01, decimals: 0 };
  return { unit: unit === 'deg' ? '°' : 'mm', per: 1, decimals: step < 1 ? 1 : 0 };
}

/** What the form takes where nothing is asked, in the parameter's own unit; null where only the finished form tells. */
function estimateOf(form: AskedForm, name: FitParameterName): number | null {
  const order = orderOf(form.measures);
  if (name === 'stature' || name === 'bust') return order[name];
  if (name === 'underbust') return order.girths.ribs;
  if (isMeasure(name)) return order.girths[name];
  if (name === 'thighGap') return shapeOrderOf(form.shape, order).thighGap;
  return name === 'armAbduction' ? null : usualShape(name);
}

/** A form with one thing asked otherwise, brought into its range; null leaves it to be estimated. In the slider's unit. */
export function withValue(form: AskedForm, slider: FitSlider, value: number | null): AskedForm {
  const { name, low, high } = slider;
  const figure = form.measures.figure ?? 'female';
  const { [name]: _, ...others } = valuesFromFit(form.measures, form.shape);
  if (value === null && isNeeded(name)) return form;
  const parameter = FIT_PARAMETERS.find((one) => one.name === name)!;
  const asked = value === null ? undefined : Math.min(high, Math.max(low, value)) * shownIn(parameter).per;
  const values = { ...others, ...(asked !== undefined && { [name]: asked }) };
  const { stature, bust, underbust, waist, hip } = form.measures;
  const needed = { stature, bust, underbust, waist, hip };
  const neededMm = { ...needed };
  for (const key of NEEDED_MEASURES) neededMm[key] = mmFromMetres(needed[key]);
  return fitFromValues({ ...neededMm, ...values }, figure);
}

/** Whether one of a form's measures is a girth or height, and not a stance or a shape. */
export const isMeasureName = (name: FitParameterName): name is FitMeasureName => isMeasure(name);
