import { createBodyDesk } from './body-desk.ts';
import type { FromBodyWorker, ToBodyWorker } from './body-messages.ts';

/** The side of a worker's global scope that is used here; the DOM's types know the window's side only. */
interface WorkerScope {
  readonly postMessage: (message: FromBodyWorker, options: StructuredSerializeOptions) => void;
  readonly addEventListener: (kind: 'message', hear: (event: MessageEvent<ToBodyWorker>) => void) => void;
}

/** Measures the body on the stage and reads its flesh, beside the study's own worker. */
// oxlint-disable-next-line typescript/no-unsafe-type-assertion -- the worker's global scope has no type here
const scope = globalThis as unknown as WorkerScope;
const answer = createBodyDesk((message) => scope.postMessage(message, { transfer: [] }));

scope.addEventListener('message', ({ data }) => answer(data));
