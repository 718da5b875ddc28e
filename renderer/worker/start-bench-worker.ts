import type { FromBench, ToBench } from './bench-messages.ts';

/** Starts the worker that computes for the bench; its messages go to `hear`. */
export function startBenchWorker(hear: (message: FromBench) => void): {
  readonly post: (message: ToBench) => void;
  readonly end: () => void;
} {
  const worker = new Worker(new URL('./bench.worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', ({ data }: MessageEvent<FromBench>) => hear(data));
  worker.addEventListener('error', ({ message }) =>
    hear({ kind: 'bug', turn: null, message: message || 'the worker of the bench did not start' }),
  );
  return { post: (message) => worker.postMessage(message, { transfer: [] }), end: () => worker.terminate() };
}
