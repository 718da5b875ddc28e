import type { BodyTape } from '../body/body-tape.ts';
import type { FitFigureKind } from '../body/fit-measures.ts';
import { INVENTED_CHARTS } from '../body/size-chart-invented.ts';
import { nearestSize, type SizeChart } from '../body/size-chart.ts';
import type { ChosenSize } from './tape-table.ts';

/** The program's own chart for a figure, invented, to stand in until the studio opens its own. */
export const houseChart = (figure: FitFigureKind): SizeChart =>
  INVENTED_CHARTS[figure === 'male' ? 'men' : 'women'];

/** The figure whose chart a measured body is held against: a body with a bust is held against a woman's. */
export const figureOf = ({ landmarks }: Pick<BodyTape, 'landmarks'>): FitFigureKind =>
  landmarks.bustFront === undefined && landmarks.chestFront !== undefined ? 'male' : 'female';

/** The size that stands beside a body: the one wanted where the chart has it, else the nearest; null without either. */
export function sizeBeside(tape: BodyTape, chart: SizeChart, wanted: string | null): ChosenSize | null {
  const size = wanted !== null && chart.sizes.includes(wanted) ? wanted : nearestSize(tape, chart);
  return size === null ? null : { chart, size };
}
