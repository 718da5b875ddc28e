import type { Direction } from '../../core/fabric/fabric.ts';
import type { SwatchProgress, SwatchWish } from '../../core/swatch/swatch.ts';
import { sayFault } from '../../core/words/say.ts';
import { bugWords } from '../../core/words/stage-words.ts';
import type { FromSwatchWorker, SwatchOrder } from '../worker/swatch-messages.ts';
import type { Notice } from './study-store.ts';
import {
  FIRST_TURN,
  type SwatchRun,
  type SwatchStore,
  type SwatchSubject,
  type SwatchTest,
} from './swatch-store.ts';

/** Starts a worker on one order; the tests hand in one of their own. */
export type StartSwatchWorker = (
  order: SwatchOrder,
  hear: (message: FromSwatchWorker) => void,
) => { readonly end: () => void };

/** Everything the swatch page can do. */
export interface SwatchDeeds {
  /** Lays these fabrics down; those that lie there already with the same readings stay. */
  readonly show: (subjects: readonly SwatchSubject[]) => void;
  readonly chooseTest: (test: SwatchTest) => void;
  readonly chooseDirection: (direction: Direction) => void;
  /** Drawing only: nothing is settled anew. */
  readonly exaggerateThickness: (factor: number) => void;
  readonly exaggerateBending: (factor: number) => void;
  /** Ends what runs; what lay there stays. */
  readonly stop: () => void;
  /** Runs again what was stopped. */
  readonly goOn: () => void;
  readonly turn: (around: number, over: number) => void;
  readonly turnBack: () => void;
}

/** Vertices of the draped disc: enough for its folds, quick enough to wait for. */
const VERTEX_COUNT = 3000;
/** Slope of the standard cantilever, rad. */
const STANDARD_SLOPE = (41.5 * Math.PI) / 180;
/** How steeply one may look down and up, rad. */
const STEEPEST = 1.45;
const LOWEST = -0.2;

/** One worker per fabric while it settles, none otherwise. */
export function createSwatchRunner(store: SwatchStore, startWorker: StartSwatchWorker): SwatchDeeds {
  const { run, end, stop } = createRuns(store, startWorker);
  const runAll = (): void => store.getState().runs.forEach((_, index) => run(index));
  return {
    ...turnDeeds(store),
    show: (subjects) => {
      const before = store.getState().runs;
      const same = (index: number): boolean => before[index]?.subject.text === subjects[index]?.text;
      before.forEach((_, index) => {
        if (!same(index)) end(index);
      });
      store.setState({
        runs: subjects.map((subject, index) =>
          same(index)
            ? { ...before[index]!, subject }
            : { subject, settled: null, progress: null, stale: true, notice: null },
        ),
      });
      subjects.forEach((_, index) => {
        if (!same(index)) run(index);
      });
    },
    chooseTest: (test) => {
      if (store.getState().test === test) return;
      store.setState({ test, turn: FIRST_TURN[test] });
      runAll();
    },
    chooseDirection: (direction) => {
      if (store.getState().direction === direction) return;
      store.setState({ direction });
      runAll();
    },
    exaggerateThickness: (thicknessFactor) => store.setState({ thicknessFactor }),
    exaggerateBending: (bendingFactor) => {
      if (store.getState().bendingFactor === bendingFactor) return;
      store.setState({ bendingFactor });
      runAll();
    },
    stop,
    goOn: () =>
      store.getState().runs.forEach(({ stale, progress }, index) => {
        if (stale && progress === null) run(index);
      }),
  };
}

/** Starts, hears and ends the workers, one per place on the page. */
interface Runs {
  readonly run: (index: number) => void;
  readonly end: (index: number) => void;
  readonly stop: () => void;
}

function createRuns(store: SwatchStore, startWorker: StartSwatchWorker): Runs {
  const workers = new Map<number, { readonly end: () => void }>();

  const change = (index: number, part: Partial<SwatchRun>): void =>
    store.setState(({ runs }) => ({
      runs: runs.map((run, i) => (i === index ? { ...run, ...part } : run)),
    }));

  const end = (index: number): void => {
    workers.get(index)?.end();
    workers.delete(index);
  };

  const fail = (index: number, notice: Notice): void => {
    end(index);
    change(index, { progress: null, notice });
  };

  const hear = (index: number, message: FromSwatchWorker): void => {
    switch (message.kind) {
      case 'progress':
        change(index, { progress: message.progress });
        return;
      case 'settled':
        end(index);
        change(index, { settled: message.swatch, progress: null, stale: false, notice: null });
        return;
      case 'fault':
        fail(index, { ...sayFault(message.fault), file: message.fault.file, tone: 'fault' });
        return;
      case 'bug':
        fail(index, { ...bugWords(message.message), file: null, tone: 'fault' });
        return;
      default:
        message satisfies never;
    }
  };

  return {
    end,
    run: (index) => {
      const state = store.getState();
      const subject = state.runs[index]?.subject;
      if (subject === undefined) return;
      end(index);
      change(index, { stale: true, notice: null, progress: NOT_BEGUN });
      const { text, name } = subject;
      const order: SwatchOrder = { text, name, wish: wishOf(state), bendingFactor: state.bendingFactor };
      const worker = startWorker(order, (message) => {
        if (workers.get(index) === worker) hear(index, message);
      });
      workers.set(index, worker);
    },
    stop: () => {
      for (const index of workers.keys()) {
        end(index);
        change(index, { progress: null });
      }
    },
  };
}

const NOT_BEGUN: SwatchProgress = { level: 0, levelCount: 1, iteration: 0, residual: 1 };

const turnDeeds = (store: SwatchStore): Pick<SwatchDeeds, 'turn' | 'turnBack'> => ({
  turn: (around, over) =>
    store.setState(({ turn }) => ({
      turn: {
        around: turn.around + around,
        over: Math.min(STEEPEST, Math.max(LOWEST, turn.over + over)),
      },
    })),
  turnBack: () => store.setState(({ test }) => ({ turn: FIRST_TURN[test] })),
});

const wishOf = ({ test, direction }: { test: SwatchTest; direction: Direction }): SwatchWish =>
  test === 'drape' ? { test, vertexCount: VERTEX_COUNT } : { test, direction, slope: STANDARD_SLOPE };
