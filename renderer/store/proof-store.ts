import { createStore, type StoreApi } from 'zustand/vanilla';
import type { ProofTable } from '../../core/sheet/proof-table.ts';
import { sayProof } from '../../core/words/proof-words.ts';
import type { FromProofWorker } from '../worker/proof-messages.ts';
import { noticeOfBug } from './notice-of.ts';
import type { Notice } from './study-store.ts';

/** The outside checks as the window shows them. */
export interface ProofState {
  readonly isOpen: boolean;
  /** Every subject of the run, in order; none before the first. */
  readonly subjects: readonly string[];
  /** Those that are through. */
  readonly table: ProofTable;
  /** The subject being checked; null while nothing runs. */
  readonly checking: string | null;
  /** The subject read; null follows the run. */
  readonly chosen: string | null;
}

export type ProofStore = StoreApi<ProofState>;

const NOTHING: ProofTable = { subjects: [], passed: 0, failed: 0 };

export const createProofStore = (): ProofStore =>
  createStore<ProofState>(() => ({
    isOpen: false,
    subjects: [],
    table: NOTHING,
    checking: null,
    chosen: null,
  }));

/** Starts a worker on the checks; the tests hand in one of their own. */
export type StartProofWorker = (hear: (message: FromProofWorker) => void) => { readonly end: () => void };

export interface ProofDeeds {
  /** Opens the page; checks where nothing has been checked yet. */
  readonly open: () => void;
  readonly close: () => void;
  readonly run: () => void;
  /** Ends the run; what is through stays. */
  readonly stop: () => void;
  readonly choose: (subject: string) => void;
}

/** @param tell - Says what went wrong. */
export function createProofDeeds(
  store: ProofStore,
  startWorker: StartProofWorker,
  tell: (notice: Notice) => void,
): ProofDeeds {
  let worker: { readonly end: () => void } | null = null;

  const stop = (): void => {
    worker?.end();
    worker = null;
    store.setState({ checking: null });
  };

  const hear = (message: FromProofWorker): void => {
    switch (message.kind) {
      case 'begun':
        store.setState({ subjects: message.subjects });
        return;
      case 'progress':
        store.setState({ checking: message.progress.subject });
        return;
      case 'proven':
        store.setState(({ table }) => ({ table: sayProof([...resultsOf(table), message.result]) }));
        return;
      case 'done':
        stop();
        return;
      case 'bug':
        stop();
        tell(noticeOfBug(message.message));
        return;
      default:
        message satisfies never;
    }
  };

  const run = (): void => {
    stop();
    store.setState({ table: NOTHING, chosen: null, checking: '' });
    const own = startWorker((message) => {
      if (worker === own) hear(message);
    });
    worker = own;
  };

  return {
    open: () => {
      store.setState({ isOpen: true });
      const { table, checking } = store.getState();
      if (checking === null && table.subjects.length === 0) run();
    },
    close: () => store.setState({ isOpen: false }),
    run,
    stop,
    choose: (chosen) => store.setState({ chosen }),
  };
}

const resultsOf = ({ subjects }: ProofTable) =>
  subjects.map(({ subject, rows }) => ({ subject, checks: rows }));

/** Whether every subject of the run is through. */
export const isWhole = ({ subjects, table }: Pick<ProofState, 'subjects' | 'table'>): boolean =>
  subjects.length > 0 && table.subjects.length === subjects.length;

/** The subject that is read: the one chosen, else the first that fails, else the one that came through last. */
export function subjectRead({ chosen, table }: Pick<ProofState, 'chosen' | 'table'>): string | null {
  if (chosen !== null) return chosen;
  const failing = table.subjects.find(({ failed }) => failed > 0);
  return (failing ?? table.subjects.at(-1))?.subject ?? null;
}
