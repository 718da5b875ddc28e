import { Fault } from '../../core/fault/fault.ts';
import { openStudy, type FilesBeside } from '../../core/study/open-study.ts';
import { runStudy } from '../../core/study/run-study.ts';
import { wornTable } from '../../core/study/worn-table.ts';
import { breather } from './breather.ts';
import { createLiveStudy } from './live-study.ts';
import type { FromWorker, ToWorker } from './messages.ts';
import { studySheet } from './settled-study.ts';
import { troubleOf } from './trouble.ts';

/** The side of a worker's global scope that is used here; the DOM's types know the window's side only. */
interface WorkerScope {
  readonly postMessage: (message: FromWorker, options: StructuredSerializeOptions) => void;
  readonly addEventListener: (kind: 'message', hear: (event: MessageEvent<ToWorker>) => void) => void;
}

/** One worker reads one study, keeps it settled, and tries it otherwise as it is asked. */
// oxlint-disable-next-line typescript/no-unsafe-type-assertion -- the worker's global scope has no type here
const scope = globalThis as unknown as WorkerScope;
// Arrays are copied, not handed over: the worker keeps its result for the tables.
const post = (message: FromWorker): void => scope.postMessage(message, { transfer: [] });

const waiting = new Map<string, (bytes: Uint8Array | null) => void>();
const live = createLiveStudy({ post, breathe: breather(), now: () => performance.now(), run: runStudy });

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

async function open(name: string, text: string): Promise<void> {
  try {
    const study = await openStudy(text, name, files);
    post({ kind: 'opened', sheet: studySheet(study) });
    await live.lay(study);
  } catch (error) {
    post({ id: 0, ...troubleOf(error) });
  }
}

function giveTable(fabricId: string): void {
  const result = live.result();
  const worn = result?.worn.find((one) => one.fabricId === fabricId);
  if (result === null || worn === undefined) return;
  post({ kind: 'table', fabricId, text: wornTable(result, worn) });
}

scope.addEventListener('message', ({ data }) => {
  switch (data.kind) {
    case 'run':
      void open(data.name, data.text);
      return;
    case 'file':
      waiting.get(data.path)?.(data.bytes);
      return;
    case 'change':
      void live.change(data.change, data.id);
      return;
    case 'stop':
      live.stop();
      return;
    case 'wantTable':
      giveTable(data.fabricId);
      return;
    default:
      data satisfies never;
  }
});
