import { createStore, type StoreApi } from 'zustand/vanilla';
import type { BodyTape, TapeLine } from '../../core/body/body-tape.ts';
import type { SizeChart } from '../../core/body/size-chart.ts';
import type { TissueCorrections } from '../../core/body/tissue-map.ts';
import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';
import type { FitFigureKind } from '../../core/body/fit-measures.ts';
import { houseChart } from '../../core/sheet/house-chart.ts';
import type { TapeNotes } from '../../core/study/study.ts';
import type { ShownFlesh } from '../worker/body-messages.ts';

export type { ShownFlesh } from '../worker/body-messages.ts';

/** The parts of the body leaf: our own form by its measures, the tape round it, the flesh in it. */
export const BODY_PARTS_SHOWN = ['form', 'tape', 'flesh'] as const;
export type BodyPartShown = (typeof BODY_PARTS_SHOWN)[number];

/** What the brush lays down. */
export interface Brush {
  readonly isOn: boolean;
  readonly radiusMm: number;
  readonly depthMm: number;
  readonly modulusKPa: number;
}

/** What the body leaf shows, besides the study itself. */
export interface BodyState {
  readonly part: BodyPartShown;
  /** The studio's own chart; null while the house's invented ones stand in. */
  readonly ownChart: SizeChart | null;
  /** The size that the tape's table stands beside; null for the nearest. */
  readonly size: string | null;
  /** Which limb's tapes the table shows. */
  readonly side: 'left' | 'right';
  /** What a tape reads, and the skin that was measured. */
  readonly tape: BodyTape | null;
  readonly measuredSkin: TriangleMesh | null;
  /** Tapes as a hand holds them now; null when none does. */
  readonly held: TapeNotes | null;
  /** `waist middle`: the tape that is chosen, and the one under the pointer. */
  readonly chosen: string | null;
  readonly pointed: string | null;
  readonly flesh: ShownFlesh | null;
  readonly fleshSkin: TriangleMesh | null;
  readonly fleshShown: 'depth' | 'modulus';
  readonly brush: Brush;
  /** Corrections as the brush draws them now; null when it does not. */
  readonly drawn: TissueCorrections | null;
}

export type BodyStore = StoreApi<BodyState>;

export const createBodyStore = (): BodyStore =>
  createStore<BodyState>(() => ({
    part: 'form',
    ownChart: null,
    size: null,
    side: 'left',
    tape: null,
    measuredSkin: null,
    held: null,
    chosen: null,
    pointed: null,
    flesh: null,
    fleshSkin: null,
    fleshShown: 'depth',
    brush: { isOn: false, radiusMm: 40, depthMm: 15, modulusKPa: 40 },
    drawn: null,
  }));

/** The chart that a form of the given figure is read against. */
export const chartFor = ({ ownChart }: Pick<BodyState, 'ownChart'>, figure: FitFigureKind): SizeChart =>
  ownChart ?? houseChart(figure);

/** `waist middle`, `thigh left`: how a tape is called in the store. */
export const tapeKey = ({ name, side }: Pick<TapeLine, 'name' | 'side'>): string => `${name} ${side}`;

/** Whether the stage shows the form bare: while it is measured, or its flesh looked at. */
export const isBare = (
  { leaf }: { readonly leaf: string | null },
  { part }: Pick<BodyState, 'part'>,
): boolean => leaf === 'body' && part !== 'form';
