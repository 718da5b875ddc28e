import { Fault } from '../../core/fault/fault.ts';
import { openStudy, type FilesBeside } from '../../core/study/open-study.ts';
import { runStudy } from '../../core/study/run-study.ts';
import type { StudyResult } from '../../core/study/study.ts';
import { wornTable } from '../../core/study/worn-table.ts';
import type { FromWorker, ToWorker } from './messages.ts';
import { settledStudy, studySheet } from './settled-study.ts';
import { troubleOf } from './trouble.ts';

/** The side of a worker's global scope that is used here; the DOM's types know the window's side only. */
interface WorkerScope {
  readonly postMessage: (message: FromWorker, options: StructuredSerializeOptions) => void;
  readonly addEventListener: (kind: 'message', hear: (event: MessageEvent<ToWorker>) => void) => void;
}

/** The only place in the window that computes: one worker runs one study and keeps its result for the tables. */
// oxlint-disable-next-line typescript/no-unsafe-type-assertion -- the worker's global scope has no type here
const scope = globalThis as unknown as WorkerScope;
// Arrays are copied, not handed over: the worker keeps its result for the tables.
const post = (message: FromWorker): void => scope.postMessage(message, { transfer: [] });

const waiting = new Map<string, (bytes: Uint8Array | null) => void>();
let result: StudyResult | null = null;

async function fileBeside(path: string): Promise<Uint8Array> {
  const bytes = await new Promise<Uint8Array | null>((resolve) => {
    waiting.set(path, resolve);
    post({ kind: 'wantFile', path });
  });
  waiting.delete(path);
  if (bytes === null) throw new Fault('file/missing', { path });
  return bytes;
}

const files: FilesBeside = {
  bytes: fileBeside,
  text: async (path) => new TextDecoder().decode(await fileBeside(path)),
};

async function run(name: string, text: string): Promise<void> {
  try {
    const study = await openStudy(text, name, files);
    post({ kind: 'opened', sheet: studySheet(study) });
    const chain = runStudy(study);
    let step = chain.next();
    while (!step.done) {
      post({ kind: 'progress', progress: step.value });
      step = chain.next();
    }
    result = step.value;
    post({ kind: 'settled', settled: settledStudy(study, result) });
  } catch (error) {
    post(troubleOf(error));
  }
}

scope.addEventListener('message', ({ data }) => {
  switch (data.kind) {
    case 'run':
      void run(data.name, data.text);
      return;
    case 'file':
      waiting.get(data.path)?.(data.bytes);
      return;
    case 'wantTable': {
      const worn = result?.worn.find(({ fabricId }) => fabricId === data.fabricId);
      if (result !== null && worn !== undefined) {
        post({ kind: 'table', fabricId: data.fabricId, text: wornTable(result, worn) });
      }
      return;
    }
    default:
      data satisfies never;
  }
});
