import { createContext, use } from 'react';
import { useStore } from 'zustand';
import type { Host } from '../electron/contract.ts';
import type { StudyRunner } from './store/study-runner.ts';
import type { StageSignals } from './store/stage-signals.ts';
import type { StudyState, StudyStore } from './store/study-store.ts';
import type { ViewActions, ViewState, ViewStore } from './store/view-store.ts';

/** What lies on the cutting table: everything that scene and panels share. */
export interface Table {
  readonly host: Host;
  readonly study: StudyStore;
  readonly view: ViewStore;
  readonly actions: ViewActions;
  readonly runner: StudyRunner;
  readonly signals: StageSignals;
  /** The long ways, each ending in a notice where it goes wrong. */
  readonly openStudy: () => Promise<void>;
  readonly openDemo: () => Promise<void>;
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

export const useStudy = <T>(select: (state: StudyState) => T): T => useStore(useTable().study, select);

export const useView = <T>(select: (state: ViewState) => T): T => useStore(useTable().view, select);
