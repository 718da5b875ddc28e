import type { FitMeasures } from '../body/fit-measures.ts';
import type { ChartMeasure, SizeChart } from '../body/size-chart.ts';
import type { FitMeasureName } from './fit-sliders.ts';

/** A chart's measure that our own form takes under another name; null where it takes none. */
function formMeasure(measure: ChartMeasure): FitMeasureName | null {
  if (measure === 'crotchHeight') return null;
  return measure === 'chest' ? 'bust' : measure;
}

/** What one size of a chart gives, under the names of our own form. m. */
function valuesOf(chart: SizeChart, size: string): [FitMeasureName, number][] {
  const column = chart.sizes.indexOf(size);
  return chart.rows.flatMap(({ measure, values }): [FitMeasureName, number][] => {
    const value = values[column] ?? null;
    const name = formMeasure(measure);
    return value === null || name === null ? [] : [[name, value]];
  });
}

/**
 * Our own form in a size of a chart: what the chart gives holds; of what it leaves out, the five measures every form needs
 * stay as they are and the others are estimated.
 */
export function sizedMeasures(chart: SizeChart, size: string, before: FitMeasures): FitMeasures {
  const { stature, bust, underbust, waist, hip, figure } = before;
  const needed = { stature, bust, underbust, waist, hip, ...(figure && { figure }) };
  return { ...needed, ...Object.fromEntries(valuesOf(chart, size)) };
}

/** Measures nearer than this are the same, m: a tenth of a millimetre. */
const SAME = 1e-4;

/** The size of a chart that has every girth of the form; what the form leaves to be estimated tells nothing. Null where there is none. */
export function sizeOf(chart: SizeChart, measures: FitMeasures): string | null {
  const isWorn = (size: string): boolean => {
    const given = valuesOf(chart, size).filter(([name]) => measures[name] !== undefined);
    return given.length > 0 && given.every(([name, value]) => Math.abs(measures[name]! - value) < SAME);
  };
  return chart.sizes.find(isWorn) ?? null;
}
