import type { FromWorker, ToWorker } from './messages.ts';

/** Starts the worker that runs one study; its messages go to `hear`. */
export function startWorker(hear: (message: FromWorker) => void): {
  readonly post: (message: ToWorker) => void;
  readonly end: () => void;
} {
  const worker = new Worker(new URL('./study.worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', ({ data }: MessageEvent<FromWorker>) => hear(data));
  worker.addEventListener('error', ({ message }) =>
    hear({ kind: 'bug', id: 0, message: message || 'the worker did not start' }),
  );
  return { post: (message) => worker.postMessage(message, { transfer: [] }), end: () => worker.terminate() };
}
