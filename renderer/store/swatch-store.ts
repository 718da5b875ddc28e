import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Direction } from '../../core/fabric/fabric.ts';
import type { SwatchProgress, SwatchWish } from '../../core/swatch/swatch.ts';
import type { SettledSwatch } from '../worker/swatch-messages.ts';
import type { Notice } from './study-store.ts';

export type { SettledSwatch } from '../worker/swatch-messages.ts';

export type SwatchTest = SwatchWish['test'];

/** A fabric whose swatch is shown. */
export interface SwatchSubject {
  readonly letter: string;
  readonly name: string;
  readonly invented: boolean;
  /** Its bench sheet as a file has it. */
  readonly text: string;
}

/** What is going on with one fabric's swatch; the last one at rest stays until the next has settled. */
export interface SwatchRun {
  readonly subject: SwatchSubject;
  readonly settled: SettledSwatch | null;
  /** Null while nothing runs. */
  readonly progress: SwatchProgress | null;
  /** True where the wish has changed since `settled`, or was stopped. */
  readonly stale: boolean;
  readonly notice: Notice | null;
}

export interface SwatchState {
  readonly test: SwatchTest;
  readonly direction: Direction;
  /** Drawing only. */
  readonly thicknessFactor: number;
  readonly bendingFactor: number;
  readonly runs: readonly SwatchRun[];
  /** How both swatches are turned, rad. */
  readonly turn: { readonly around: number; readonly over: number };
}

export type SwatchStore = StoreApi<SwatchState>;

/** The table is looked at from a little above, as one stands before it; the edge from its side, where the bend shows. */
export const FIRST_TURN: Readonly<Record<SwatchTest, SwatchState['turn']>> = {
  drape: { around: 0.5, over: 0.42 },
  cantilever: { around: -0.3, over: 0.2 },
};

export const createSwatchStore = (): SwatchStore =>
  createStore<SwatchState>(() => ({
    test: 'drape',
    direction: 'warp',
    thicknessFactor: 1,
    bendingFactor: 1,
    runs: [],
    turn: FIRST_TURN.drape,
  }));
