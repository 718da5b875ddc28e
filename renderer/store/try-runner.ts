import type { StudyChange } from '../../core/study/study.ts';
import type { FromWorker, ToWorker } from '../worker/messages.ts';
import { plainChange, sameChange, sameWorn } from './plain-change.ts';
import type { TryPace } from './study-runner.ts';
import { noticeOf } from './notice-of.ts';
import type { Notice, Refused, StudyState, StudyStore } from './study-store.ts';

/** Tries on the study on the table: asks its worker, and lays what settles. */
export interface TryRunner {
  readonly tryOut: (change: StudyChange, pace: TryPace) => void;
  /** Gives up what is under way and what waits; the study stays as it settled last. */
  readonly stop: () => void;
  readonly hear: (message: FromWorker) => void;
}

interface Try {
  readonly id: number;
  /** What lies on the table when it has settled. */
  readonly change: StudyChange;
  readonly startedAt: number;
}

/** What was refused is no longer asked for; its notice goes with it. */
const forgetRefused = (store: StudyStore, refused: Refused): void =>
  store.setState(({ notice }) => ({ refused: null, ...(notice === refused.notice && { notice: null }) }));

/** Nothing is tried any more; what was refused stays asked for. */
function rested({ activity, shown }: StudyState, notice: Notice | null): Partial<StudyState> {
  if (activity.kind !== 'trying') return {};
  const { wanted } = activity;
  return {
    activity: { kind: 'idle' },
    ...(notice && { notice, refused: { wanted, notice, laid: shown?.laid ?? 0 } }),
  };
}

export function createTryRunner(
  store: StudyStore,
  post: (message: ToWorker) => void,
  now: () => number,
): TryRunner {
  let lastId = 0;
  let underWay: Try | null = null;
  /** Begun when the one under way has settled. */
  let next: StudyChange | null = null;

  const begin = (change: StudyChange): void => {
    next = null;
    underWay = { id: ++lastId, change, startedAt: now() };
    post({ kind: 'change', id: lastId, change });
  };

  const rest = (notice: Notice | null): void => {
    underWay = null;
    next = null;
    store.setState((state) => rested(state, notice));
  };

  const lay = ({ sheet, settled }: Extract<FromWorker, { kind: 'settled' }>, done: Try): void => {
    underWay = null;
    const seconds = (now() - done.startedAt) / 1000;
    store.setState(({ shown }) => ({
      shown: shown && { ...shown, sheet, settled, seconds, tried: done.change },
      ...(next === null && { activity: { kind: 'idle' } }),
    }));
    if (next !== null) begin(next);
  };

  return {
    tryOut: (wish, pace) => {
      const { shown, activity, refused } = store.getState();
      if (shown === null) return;
      if (refused !== null) forgetRefused(store, refused);
      const change = plainChange(wish, shown.asOpened);
      if (underWay === null && sameChange(change, shown.tried)) return;
      if (underWay === null && sameWorn(change, shown.tried)) {
        // A tape that lies elsewhere: the cloth does not know of it.
        store.setState({ shown: { ...shown, tried: change }, notice: null });
        return;
      }
      const progress = activity.kind === 'trying' ? activity.progress : ({ step: 'garment' } as const);
      store.setState({ activity: { kind: 'trying', wanted: change, progress }, notice: null });
      if (underWay !== null && sameWorn(change, underWay.change)) {
        underWay = { ...underWay, change };
        next = null;
        return;
      }
      if (underWay !== null && pace === 'in turn') {
        next = change;
        return;
      }
      begin(change);
    },
    stop: () => {
      if (underWay === null) return;
      post({ kind: 'stop' });
      rest(null);
    },
    hear: (message) => {
      // What breaks outside any try breaks the one under way.
      if (underWay === null || !('id' in message) || (message.id !== underWay.id && message.id !== 0)) return;
      switch (message.kind) {
        case 'progress':
          store.setState(({ activity }) =>
            activity.kind === 'trying' ? { activity: { ...activity, progress: message.progress } } : {},
          );
          return;
        case 'settled':
          lay(message, underWay);
          return;
        case 'fault':
        case 'bug':
          rest(noticeOf(message));
          return;
        default:
          message satisfies never;
      }
    },
  };
}
