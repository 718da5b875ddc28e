import { createStore, type StoreApi } from 'zustand/vanilla';
import type { FitFigureKind } from '../../core/body/fit-measures.ts';
import type { SizeChart } from '../../core/body/size-chart.ts';
import { inventedChart } from '../../core/sheet/invented-charts.ts';

/** The parts of the body leaf: our own form by its measures, the tape round it, the flesh in it. */
export const BODY_PARTS_SHOWN = ['form', 'tape', 'flesh'] as const;
export type BodyPartShown = (typeof BODY_PARTS_SHOWN)[number];

/** What the body leaf shows, besides the study itself. */
export interface BodyState {
  readonly part: BodyPartShown;
  /** The studio's own chart; null while the house's invented ones stand in. */
  readonly ownChart: SizeChart | null;
}

export type BodyStore = StoreApi<BodyState>;

export const createBodyStore = (): BodyStore =>
  createStore<BodyState>(() => ({ part: 'form', ownChart: null }));

/** The chart that a form of the given figure is read against. */
export const chartFor = ({ ownChart }: BodyState, figure: FitFigureKind): SizeChart =>
  ownChart ?? inventedChart(figure);
