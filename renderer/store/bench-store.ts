import { createStore, type StoreApi } from 'zustand/vanilla';
import type { BenchPart, BenchStep } from '../../core/words/bench-place-words.ts';
import type { FitOutcome, FittedFabric, PartNumbers } from '../worker/bench-messages.ts';
import { EMPTY_DRAFT, type BenchDraft, type StripName } from './bench-draft.ts';
import type { Incoming } from './bench-import.ts';
import { sheetFromDraft, type ReadDraft } from './bench-to-sheet.ts';

export type { FitOutcome, FittedFabric, PartNumbers } from '../worker/bench-messages.ts';

/** What comes out of the draft as it stands. */
export interface Reading {
  readonly numbers: PartNumbers;
  readonly outcome: FitOutcome;
  /** True while a newer draft is being fitted; what is shown is of the one before. */
  readonly isStale: boolean;
}

/** A fabric set beside the draft, and where it came from. */
export interface Beside {
  /** `study tern-210` or `library jersey/tern-210.bench.json`. */
  readonly key: string;
  /** Its sheet as a file has it. */
  readonly text: string;
  readonly fabric: FittedFabric;
}

/** Drafts before and after the one that lies on the bench. */
export interface DraftHistory {
  readonly past: readonly BenchDraft[];
  readonly future: readonly BenchDraft[];
  /** The field that was changed last: typing on in it is one step. */
  readonly lastKey: string | null;
}

export interface BenchState {
  /** True where the bench stands in the window, not the stage. */
  readonly isOpen: boolean;
  readonly part: BenchPart;
  readonly step: BenchStep;
  /** Which strip's tables lie open, and which of its specimens. */
  readonly strip: StripName;
  readonly specimen: number;
  readonly draft: BenchDraft;
  /** The draft as far as it can be read. */
  readonly read: ReadDraft;
  readonly history: DraftHistory;
  readonly reading: Reading;
  readonly beside: Beside | null;
  /** A tester's table that waits to be taken over. */
  readonly incoming: Incoming | null;
}

export type BenchStore = StoreApi<BenchState>;

const NOTHING_READ: Reading = {
  numbers: { arealDensity: null, thickness: null, bendingRigidity: null },
  outcome: { kind: 'unfinished' },
  isStale: false,
};

const NO_HISTORY: DraftHistory = { past: [], future: [], lastKey: null };

/** Steps kept for going back. */
const MOST_STEPS = 200;

export const createBenchStore = (): BenchStore =>
  createStore<BenchState>(() => ({
    isOpen: false,
    part: 'readings',
    step: 'weigh',
    strip: 'warp',
    specimen: 0,
    draft: EMPTY_DRAFT,
    read: sheetFromDraft(EMPTY_DRAFT),
    history: NO_HISTORY,
    reading: NOTHING_READ,
    beside: null,
    incoming: null,
  }));

/** Everything that words and keys of the bench can do to what lies on it. */
export interface BenchActions {
  readonly open: () => void;
  readonly close: () => void;
  readonly choosePart: (part: BenchPart) => void;
  readonly chooseStep: (step: BenchStep) => void;
  readonly chooseStrip: (strip: StripName) => void;
  readonly chooseSpecimen: (specimen: number) => void;
  /** Changes the draft; changes of one `key` after another are one step back, those without a key one each. */
  readonly change: (key: string | null, make: (draft: BenchDraft) => BenchDraft) => void;
  readonly undo: () => void;
  readonly redo: () => void;
}

export function benchActions(store: BenchStore): BenchActions {
  return {
    open: () => store.setState({ isOpen: true }),
    close: () => store.setState({ isOpen: false }),
    choosePart: (part) => store.setState({ part }),
    chooseStep: (step) => store.setState({ part: 'readings', step }),
    chooseStrip: (strip) => store.setState({ strip, specimen: 0 }),
    chooseSpecimen: (specimen) => store.setState({ specimen }),
    change: (key, make) =>
      store.setState((state) => {
        const draft = make(state.draft);
        return draft === state.draft ? {} : withDraft({ ...state, ...changed(state, key, draft) });
      }),
    undo: () =>
      store.setState((state) => {
        const { past, future } = state.history;
        const draft = past.at(-1);
        if (draft === undefined) return {};
        const history = { past: past.slice(0, -1), future: [state.draft, ...future], lastKey: null };
        return withDraft({ ...state, draft, history });
      }),
    redo: () =>
      store.setState((state) => {
        const { past, future } = state.history;
        const [draft, ...rest] = future;
        if (draft === undefined) return {};
        return withDraft({
          ...state,
          draft,
          history: { past: [...past, state.draft], future: rest, lastKey: null },
        });
      }),
  };
}

function changed(
  { draft: before, history }: BenchState,
  key: string | null,
  draft: BenchDraft,
): Pick<BenchState, 'draft' | 'history'> {
  const isSameField = key !== null && key === history.lastKey;
  const past = isSameField ? history.past : [...history.past, before].slice(-MOST_STEPS);
  return { draft, history: { past, future: [], lastKey: key } };
}

/** Reads the draft, and keeps the open specimen one that is there. */
function withDraft(state: BenchState): BenchState {
  const count = state.draft.stretch.strips[state.strip].length;
  return {
    ...state,
    read: sheetFromDraft(state.draft),
    specimen: Math.min(state.specimen, count - 1),
    reading: { ...state.reading, isStale: true },
  };
}
