import type { FieldId } from '../../core/fields/field.ts';
import { sayFault } from '../../core/words/say.ts';
import { bugWords } from '../../core/words/stage-words.ts';
import type { FromWorker, ToWorker } from '../worker/messages.ts';
import type { Notice, StudyStore } from './study-store.ts';

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

export interface StudyRunner {
  /** Reads and runs a study; the one on the table stays until the new one has settled. */
  readonly run: (study: OpenedStudy) => void;
  /** Ends the run under way; nothing is lost. */
  readonly stop: () => void;
  /** The numbers of one fabric of the study on the table as CSV, through `give`. */
  readonly table: (fabricId: string, give: (text: string) => void) => void;
}

/** Keeps at most two workers: the one whose result lies on the table, and the one that runs. */
export function createStudyRunner(
  store: StudyStore,
  startWorker: StartWorker,
  now: () => number,
): StudyRunner {
  let settledWorker: StudyWorker | null = null;
  let running: { worker: StudyWorker; study: OpenedStudy; startedAt: number } | null = null;
  let giveTable: ((text: string) => void) | null = null;

  const end = (notice: Notice | null): void => {
    running?.worker.end();
    running = null;
    store.setState({ activity: { kind: 'idle' }, notice });
  };

  const settle = (message: Extract<FromWorker, { kind: 'settled' }>): void => {
    const { activity } = store.getState();
    if (running === null || activity.kind !== 'settling') return;
    settledWorker?.end();
    settledWorker = running.worker;
    const seconds = (now() - running.startedAt) / 1000;
    running = null;
    store.setState({
      shown: { sheet: activity.sheet, settled: message.settled, seconds },
      activity: { kind: 'idle' },
    });
  };

  const hear = (message: FromWorker, worker: () => StudyWorker): void => {
    if (message.kind === 'table') {
      giveTable?.(message.text);
      giveTable = null;
      return;
    }
    if (running?.worker !== worker()) return;
    switch (message.kind) {
      case 'wantFile':
        void answerFile(running.worker, running.study, message.path);
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
      case 'settled':
        settle(message);
        return;
      case 'fault':
        end({ ...sayFault(message.fault), file: message.fault.file, tone: 'fault' });
        return;
      case 'bug':
        end({ ...bugWords(message.message), file: running.study.name, tone: 'fault' });
        return;
      default:
        message satisfies never;
    }
  };

  return {
    run: (study) => {
      running?.worker.end();
      const worker: StudyWorker = startWorker((message) => hear(message, () => worker));
      running = { worker, study, startedAt: now() };
      store.setState({ activity: { kind: 'reading', name: study.name }, notice: null });
      worker.post({ kind: 'run', name: study.name, text: study.text });
    },
    stop: () => {
      if (running !== null) end(null);
    },
    table: (fabricId, give) => {
      giveTable = give;
      settledWorker?.post({ kind: 'wantTable', fabricId });
    },
  };
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
