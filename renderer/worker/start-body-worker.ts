import type { FromBodyWorker, ToBodyWorker } from './body-messages.ts';

/** Starts the worker that measures bodies; its messages go to `hear`. */
export function startBodyWorker(hear: (message: FromBodyWorker) => void): {
  readonly post: (message: ToBodyWorker) => void;
  readonly end: () => void;
} {
  const worker = new Worker(new URL('./body.worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', ({ data }: MessageEvent<FromBodyWorker>) => hear(data));
  worker.addEventListener('error', ({ message }) =>
    hear({ kind: 'bug', id: 0, message: message || 'the worker did not start' }),
  );
  return { post: (message) => worker.postMessage(message, { transfer: [] }), end: () => worker.terminate() };
}
