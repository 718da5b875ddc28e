import type { FromImport, ToImport } from './import-messages.ts';

/** Starts the worker that reads a mesh and makes a body of it; its messages go to `hear`. */
export function startImportWorker(hear: (message: FromImport) => void): {
  readonly post: (message: ToImport) => void;
  readonly end: () => void;
} {
  const worker = new Worker(new URL('./import.worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', ({ data }: MessageEvent<FromImport>) => hear(data));
  worker.addEventListener('error', ({ message }) =>
    hear({ kind: 'bug', turn: null, message: message || 'the worker that reads bodies did not start' }),
  );
  return { post: (message) => worker.postMessage(message, { transfer: [] }), end: () => worker.terminate() };
}
