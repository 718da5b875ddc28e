import type { FromProofWorker } from './proof-messages.ts';

/** Starts a worker that runs the outside checks; its messages go to `hear`. */
export function startProofWorker(hear: (message: FromProofWorker) => void): { readonly end: () => void } {
  const worker = new Worker(new URL('./proof.worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', ({ data }: MessageEvent<FromProofWorker>) => hear(data));
  worker.addEventListener('error', ({ message }) =>
    hear({ kind: 'bug', message: message || 'the worker did not start' }),
  );
  return { end: () => worker.terminate() };
}
