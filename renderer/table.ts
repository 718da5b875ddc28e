import { createContext, use, useSyncExternalStore } from 'react';
import type { StoreApi } from 'zustand/vanilla';
import type { StudyChange } from '../core/study/study.ts';
import type { Host } from '../electron/contract.ts';
import type { BenchDeeds } from './lay-bench.ts';
import type { ImportSide } from './lay-import.ts';
import type { BodyDeeds } from './store/body-runner.ts';
import { isBare, type BodyState, type BodyStore } from './store/body-store.ts';
import type { BenchActions, BenchState, BenchStore } from './store/bench-store.ts';
import type { ImportState } from './store/import-store.ts';
import type { LibraryDeeds } from './store/library-deeds.ts';
import type { LibraryState, LibraryStore } from './store/library-store.ts';
import type { SwatchDeeds } from './store/swatch-runner.ts';
import type { SwatchState, SwatchStore } from './store/swatch-store.ts';
import type { StudyRunner, TryPace } from './store/study-runner.ts';
import type { ProofDeeds, ProofState, ProofStore } from './store/proof-store.ts';
import type { StageHistory, StageSteps } from './store/stage-history.ts';
import type { Signal, StageSignals } from './store/stage-signals.ts';
import type { StudyState, StudyStore } from './store/study-store.ts';
import type { ViewActions, ViewState, ViewStore } from './store/view-store.ts';

/** Wishes of the keys that only a component can grant. */
export interface BenchSignals {
  /** Counts how often the dialog for opening a file was asked for. */
  readonly openFile: Signal<number>;
}

/** What lies on the cutting table: everything that scene and panels share. */
export interface Table extends ImportSide {
  readonly host: Host;
  readonly study: StudyStore;
  readonly view: ViewStore;
  readonly actions: ViewActions;
  readonly runner: StudyRunner;
  readonly signals: StageSignals;
  /** Steps back at the stage. */
  readonly history: StageHistory;
  /** Settles the study on the table otherwise; what is tried at once is a step. */
  readonly tryOut: (change: StudyChange, pace: TryPace) => void;
  /** The study with what is tried, as a file. */
  readonly saveTried: () => Promise<void>;
  /** What the body leaf shows. */
  readonly body: BodyStore;
  readonly bodyDeeds: BodyDeeds;
  /** The bench: what lies on it, and everything that can be done there. */
  readonly bench: BenchStore;
  readonly benchActions: BenchActions;
  readonly benchDeeds: BenchDeeds;
  readonly benchSignals: BenchSignals;
  readonly library: LibraryStore;
  readonly libraryDeeds: LibraryDeeds;
  /** The page of outside checks. */
  readonly proof: ProofStore;
  readonly proofDeeds: ProofDeeds;
  readonly saveProof: (as: 'picture' | 'numbers') => Promise<void>;
  readonly swatch: SwatchStore;
  readonly swatchDeeds: SwatchDeeds;
  /** The long ways, each ending in a notice where it goes wrong. */
  readonly openStudy: () => Promise<void>;
  readonly openDemo: () => Promise<void>;
  /** Goes to the body that is being brought in, or asks for one. */
  readonly bringBody: () => void;
  readonly openDropped: (files: readonly File[]) => Promise<void>;
  readonly savePicture: () => Promise<void>;
  readonly saveNumbers: () => void;
}

export const TableContext = createContext<Table | null>(null);

export function useTable(): Table {
  const table = use(TableContext);
  if (table === null) throw new Error('No table is laid above this component.');
  return table;
}

/** A part of a store; `select` gives what the store holds, not something made anew each time. */
function useStore<State, T>(store: StoreApi<State>, select: (state: State) => T): T {
  const read = (): T => select(store.getState());
  return useSyncExternalStore(store.subscribe, read, read);
}

export const useStudy = <T>(select: (state: StudyState) => T): T => useStore(useTable().study, select);

export const useView = <T>(select: (state: ViewState) => T): T => useStore(useTable().view, select);

/** Whether the stage shows the form bare: while it is measured, or its flesh looked at. */
export function useIsBare(): boolean {
  const leaf = useView((view) => view.leaf);
  const part = useBody((body) => body.part);
  return isBare({ leaf }, { part });
}

export const useBody = <T>(select: (state: BodyState) => T): T => useStore(useTable().body, select);

export const useHistory = <T>(select: (steps: StageSteps) => T): T =>
  useStore(useTable().history.store, select);

export const useBench = <T>(select: (state: BenchState) => T): T => useStore(useTable().bench, select);

export const useLibrary = <T>(select: (state: LibraryState) => T): T => useStore(useTable().library, select);

export const useImport = <T>(select: (state: ImportState) => T): T => useStore(useTable().imports, select);

export const useProof = <T>(select: (state: ProofState) => T): T => useStore(useTable().proof, select);

export const useSwatch = <T>(select: (state: SwatchState) => T): T => useStore(useTable().swatch, select);
