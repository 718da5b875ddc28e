/** The measures of a size, picked by its name from a size chart. */
import { Fault } from '../fault/fault.ts';
import { mmFromMetres } from '../units/units.ts';
import { FIT_PARAMETERS, type FitParameterName } from './fit-parameters.ts';
import type { FitFigureKind } from './fit-measures.ts';
import { NEEDED_MEASURES, type FitValues } from './fit-values.ts';
import type { SizeChart } from './size-chart.ts';

/** A typical breast, where a chart gives no under-bust: mm. Set by hand, from memory. */
const USUAL_CUP = 130;

/**
 * What a chart says of one size, in the parameters' own units, to be laid under what is asked besides. A chart's chest
 * is the male figure's bust.
 *
 * @param over - What is asked for besides: it need not be in the chart.
 * @throws {Fault} `fit/size-unknown`, `fit/size-incomplete`.
 */
export function valuesOfSize(
  chart: SizeChart,
  size: string,
  { figure, over }: { readonly figure: FitFigureKind; readonly over: FitValues },
): FitValues & Readonly<Record<(typeof NEEDED_MEASURES)[number], number>> {
  const column = chart.sizes.indexOf(size);
  if (column < 0) {
    throw new Fault('fit/size-unknown', { size, chart: chart.name, known: chart.sizes.join(', ') });
  }
  const mm = (measure: string): number | undefined => {
    const metres = chart.rows.find((row) => row.measure === measure)?.values[column];
    return metres === undefined || metres === null ? undefined : mmFromMetres(metres);
  };
  const charted: Partial<Record<FitParameterName, number>> = {};
  for (const { name } of FIT_PARAMETERS) {
    const value = mm(name);
    if (value !== undefined) charted[name] = value;
  }
  const values: FitValues = { ...charted, ...over };
  const bust = values.bust ?? mm('chest');
  // The male figure is not shaped by it: the chest is measured once.
  const below = bust === undefined ? undefined : bust - (figure === 'male' ? 0 : USUAL_CUP);
  const found = { ...values, bust, underbust: values.underbust ?? below };
  const needed = (name: (typeof NEEDED_MEASURES)[number]): number => {
    const value = found[name];
    if (value !== undefined) return value;
    throw new Fault('fit/size-incomplete', { size, chart: chart.name, measure: name });
  };
  return {
    ...values,
    stature: needed('stature'),
    bust: needed('bust'),
    underbust: needed('underbust'),
    waist: needed('waist'),
    hip: needed('hip'),
  };
}
