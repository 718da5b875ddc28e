import { createStore, type StoreApi } from 'zustand/vanilla';
import type { StudyChange } from '../../core/study/study.ts';
import { sameChange } from './plain-change.ts';
import type { StudyRunner } from './study-runner.ts';
import { wantedChange, type StudyStore } from './study-store.ts';
import type { ViewState, ViewStore } from './view-store.ts';

/** What a step back brings back: how the map is shown, and what is tried. Camera and paper stay. */
export interface StageStand {
  readonly view: Pick<ViewState, 'field' | 'showing' | 'fabric' | 'ramp' | 'ranges'>;
  readonly tried: StudyChange;
}

export interface StageSteps {
  readonly past: readonly StageStand[];
  readonly current: StageStand;
  readonly future: readonly StageStand[];
}

export type HistoryStore = StoreApi<StageSteps>;

export interface StageHistory {
  readonly store: HistoryStore;
  /** Writes a step down, where anything differs from the last one. */
  readonly note: () => void;
  readonly undo: () => void;
  readonly redo: () => void;
}

/** Steps kept. */
const MOST_STEPS = 200;

/** The stage's steps back: every change of the map and every finished try. A new study begins anew. */
export function createStageHistory(study: StudyStore, view: ViewStore, runner: StudyRunner): StageHistory {
  const stand = (tried: StudyChange): StageStand => ({ view: partOf(view.getState()), tried });
  const now = (): StageStand => stand(wantedChange(study.getState()));
  const store = createStore<StageSteps>(() => ({ past: [], current: now(), future: [] }));
  let isGoing = false;

  const note = (): void => {
    const { past, current } = store.getState();
    const next = now();
    if (isGoing || isSame(next, current)) return;
    store.setState({ past: [...past, current].slice(-MOST_STEPS), current: next, future: [] });
  };

  const go = (to: StageStand, steps: Omit<StageSteps, 'current'>): void => {
    isGoing = true;
    store.setState({ ...steps, current: to });
    view.setState(to.view);
    runner.tryOut(to.tried, 'now');
    isGoing = false;
  };

  // A try is a step when the hand lets go, not whenever something else of the view is told meanwhile.
  view.subscribe((state) => {
    if (!isSameView(partOf(state), store.getState().current.view)) note();
  });
  study.subscribe((state, before) => {
    if (state.shown?.laid !== before.shown?.laid) {
      // The view is laid by another listener of the same news; what it changes is no step.
      store.setState({ past: [], current: now(), future: [] });
    } else if (before.activity.kind === 'trying' && state.activity.kind === 'idle') {
      forgetUnsettled(store, before.activity.wanted, state.shown?.tried ?? {});
    }
  });
  return {
    store,
    note,
    undo: () => {
      const { past, current, future } = store.getState();
      const last = past.at(-1);
      if (last !== undefined) go(last, { past: past.slice(0, -1), future: [current, ...future] });
    },
    redo: () => {
      const { past, current, future } = store.getState();
      const [next, ...later] = future;
      if (next !== undefined) go(next, { past: [...past, current], future: later });
    },
  };
}

/** A try that was written down, but stopped or not to be worn, is no step. */
function forgetUnsettled(store: HistoryStore, wanted: StudyChange, tried: StudyChange): void {
  const { past, current } = store.getState();
  if (!sameChange(current.tried, wanted) || sameChange(wanted, tried)) return;
  const stands = { ...current, tried };
  const last = past.at(-1);
  const isBack = last !== undefined && isSame(last, stands);
  store.setState({ current: stands, past: isBack ? past.slice(0, -1) : past });
}

const partOf = ({ field, showing, fabric, ramp, ranges }: ViewState): StageStand['view'] => ({
  field,
  showing,
  fabric,
  ramp,
  ranges,
});

const isSameView = (one: StageStand['view'], other: StageStand['view']): boolean =>
  one.field === other.field &&
  one.showing === other.showing &&
  one.fabric === other.fabric &&
  one.ramp === other.ramp &&
  one.ranges === other.ranges;

const isSame = (one: StageStand, other: StageStand): boolean =>
  isSameView(one.view, other.view) && sameChange(one.tried, other.tried);
