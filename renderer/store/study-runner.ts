import type { FieldId } from '../../core/fields/field.ts';
import type { StudyChange } from '../../core/study/study.ts';
import type { FromWorker, ToWorker } from '../worker/messages.ts';
import { noticeOf } from './notice-of.ts';
import type { Notice, StudyStore } from './study-store.ts';
import { createTryRunner } from './try-runner.ts';

/** A worker as the runner uses it; the tests hand in one of their own. */
export interface StudyWorker {
  readonly post: (message: ToWorker) => void;
  readonly end: () => void;
}

/** Starts a worker whose messages go to `hear`. */
export type StartWorker = (hear: (message: FromWorker) => void) => StudyWorker;

/** A study file and the way to the files it names. */
export interface OpenedStudy {
  readonly name: string;
  readonly text: string;
  readonly readBeside: (path: string) => Promise<Uint8Array | null>;
}

/** Whether a try is begun at once, whatever is under way, or when that has settled: a slider's hand is not at rest yet. */
export type TryPace = 'now' | 'in turn';

export interface StudyRunner {
  /** Reads and runs a study; the one on the table stays until the new one has settled. */
  readonly run: (study: OpenedStudy) => void;
  /** Settles the study on the table with some answers changed; the newest wish wins. */
  readonly tryOut: (change: StudyChange, pace: TryPace) => void;
  /** Ends the run or the try under way; nothing is lost. */
  readonly stop: () => void;
  /** The numbers of one fabric of the study on the table as CSV, through `give`. */
  readonly table: (fabricId: string, give: (text: string) => void) => void;
}

/** The study that is being read and settled. */
interface Running {
  readonly worker: StudyWorker;
  readonly study: OpenedStudy;
  readonly startedAt: number;
}

/** Keeps at most two workers: the one whose result lies on the table, and the one that runs. */
export function createStudyRunner(
  store: StudyStore,
  startWorker: StartWorker,
  now: () => number,
): StudyRunner {
  let settledWorker: StudyWorker | null = null;
  let running: Running | null = null;
  let giveTable: ((text: string) => void) | null = null;
  const tries = createTryRunner(store, (message) => settledWorker?.post(message), now);

  const end = (notice: Notice | null): void => {
    running?.worker.end();
    running = null;
    store.setState({ activity: { kind: 'idle' }, notice });
  };

  const lay = (message: Settled, { worker, startedAt }: Running): void => {
    settledWorker?.end();
    settledWorker = worker;
    running = null;
    layStudy(store, message, (now() - startedAt) / 1000);
  };

  const hear = (message: FromWorker, from: StudyWorker): void => {
    if (message.kind === 'table') {
      giveTable?.(message.text);
      giveTable = null;
    } else if (running?.worker !== from) {
      if (settledWorker === from) tries.hear(message);
    } else if (message.kind === 'settled') lay(message, running);
    else if (message.kind === 'fault' || message.kind === 'bug') end(noticeOf(message, running.study.name));
    else hearRunning(store, message, running);
  };

  return {
    run: (study) => {
      tries.stop();
      running?.worker.end();
      const worker: StudyWorker = startWorker((message) => hear(message, worker));
      running = { worker, study, startedAt: now() };
      store.setState({ activity: { kind: 'reading', name: study.name }, notice: null });
      worker.post({ kind: 'run', name: study.name, text: study.text });
    },
    tryOut: (change, pace) => {
      if (running === null) tries.tryOut(change, pace);
    },
    stop: () => {
      if (running !== null) end(null);
      else tries.stop();
    },
    table: (fabricId, give) => {
      giveTable = give;
      settledWorker?.post({ kind: 'wantTable', fabricId });
    },
  };
}

type Settled = Extract<FromWorker, { kind: 'settled' }>;

function layStudy(store: StudyStore, { sheet, settled }: Settled, seconds: number): void {
  store.setState(({ shown }) => ({
    shown: { sheet, settled, seconds, asOpened: sheet, tried: {}, laid: (shown?.laid ?? 0) + 1 },
    activity: { kind: 'idle' },
  }));
}

/** What a study that is read and settled says on its way. */
function hearRunning(
  store: StudyStore,
  message: Extract<FromWorker, { kind: 'wantFile' | 'opened' | 'progress' }>,
  { worker, study }: Running,
): void {
  switch (message.kind) {
    case 'wantFile':
      void answerFile(worker, study, message.path);
      return;
    case 'opened':
      store.setState({
        activity: { kind: 'settling', sheet: message.sheet, progress: { step: 'body' } },
      });
      return;
    case 'progress':
      store.setState(({ activity }) =>
        activity.kind === 'settling' ? { activity: { ...activity, progress: message.progress } } : {},
      );
      return;
    default:
      message satisfies never;
  }
}

async function answerFile(worker: StudyWorker, study: OpenedStudy, path: string): Promise<void> {
  const bytes = await study.readBeside(path).catch(() => null);
  worker.post({ kind: 'file', path, bytes });
}

/** File name for one fabric's numbers or picture: `harbour-short-tern-210-skinPressure`. */
export const fileNameFor = (study: string, fabricId: string, field?: FieldId): string =>
  [study, fabricId, field]
    .filter((part) => part !== undefined)
    .join(' ')
    .replaceAll(/[^\w-]+/g, '-')
    .replaceAll(/^-+|-+$/g, '');
