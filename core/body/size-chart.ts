import type { LevelName } from './landmarks.ts';

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
