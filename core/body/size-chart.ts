import { mmFromMetres } from '../units/units.ts';
import type { BodyTape } from './body-tape.ts';
import { ARM_LEVEL_NAMES, LEG_LEVEL_NAMES, TRUNK_LEVEL_NAMES, type LevelName } from './landmarks.ts';

/** What a row of a size chart gives. */
export type ChartMeasure = LevelName | 'stature' | 'crotchHeight';

/** A studio's size chart: one column per size. */
export interface SizeChart {
  readonly name: string;
  /** Where its numbers are from, as it says itself; empty where it says nothing. */
  readonly source: string;
  /** True for the program's own chart, whose numbers are invented. */
  readonly isInvented: boolean;
  /** Names of the sizes, in the chart's order. */
  readonly sizes: readonly string[];
  readonly rows: readonly SizeChartRow[];
}

/** One measure in all sizes. */
export interface SizeChartRow {
  readonly measure: ChartMeasure;
  /** One per size, m; null where the chart leaves it empty. */
  readonly values: readonly (number | null)[];
}

/** One line of the table: the body beside the chart. */
export interface ChartDifference {
  readonly measure: ChartMeasure;
  readonly side: 'left' | 'middle' | 'right';
  /** m; null where the body has none of it. */
  readonly body: number | null;
  /** m; null where the chart leaves it empty. */
  readonly chart: number | null;
  /** Body minus chart, mm; null where either is missing. */
  readonly differenceMm: number | null;
}

/** Everything that a row of a chart may be called. */
export const CHART_MEASURES: readonly ChartMeasure[] = [
  'stature',
  'crotchHeight',
  ...TRUNK_LEVEL_NAMES,
  ...LEG_LEVEL_NAMES,
  ...ARM_LEVEL_NAMES,
];

/**
 * A body beside one size of a chart, row by row; limbs on both sides. A bust is compared with a chart's chest and the
 * other way round, where one has only the other.
 *
 * @param size - One of the chart's sizes.
 */
export function chartDifferences(tape: BodyTape, chart: SizeChart, size: string): ChartDifference[] {
  const column = chart.sizes.indexOf(size);
  return chart.rows.flatMap(({ measure, values }) => {
    const asked = values[column] ?? null;
    return bodyValues(tape, measure).map(({ side, value }): ChartDifference => ({
      measure,
      side,
      body: value,
      chart: asked,
      differenceMm: value === null || asked === null ? null : mmFromMetres(value - asked),
    }));
  });
}

interface BodyValue {
  readonly side: ChartDifference['side'];
  readonly value: number | null;
}

function bodyValues({ readings, heights }: BodyTape, measure: ChartMeasure): BodyValue[] {
  if (measure === 'stature' || measure === 'crotchHeight') {
    const name = measure === 'stature' ? 'stature' : 'crotch';
    return [{ side: 'middle', value: heights.find((one) => one.name === name)?.height ?? null }];
  }
  const called = (name: string): BodyValue[] =>
    readings
      .filter(({ line }) => line.name === name)
      .map(({ line, girth }) => ({ side: line.side, value: girth }));
  const own = called(measure);
  if (own.length > 0) return own;
  const other = measure === 'bust' ? called('chest') : measure === 'chest' ? called('bust') : [];
  return other.length > 0 ? other : [{ side: 'middle', value: null }];
}

/** The size whose bust (or chest), waist and hip together lie nearest to the body's; null where none can be compared. */
export function nearestSize(tape: BodyTape, chart: SizeChart): string | null {
  let best: { readonly size: string; readonly miss: number } | null = null;
  for (const size of chart.sizes) {
    const differences = chartDifferences(tape, chart, size)
      .filter(({ measure }) => ['bust', 'chest', 'waist', 'hip'].includes(measure))
      .flatMap(({ differenceMm }) => (differenceMm === null ? [] : [differenceMm]));
    if (differences.length === 0) continue;
    const miss = Math.hypot(...differences) / Math.sqrt(differences.length);
    if (best === null || miss < best.miss) best = { size, miss };
  }
  return best?.size ?? null;
}
