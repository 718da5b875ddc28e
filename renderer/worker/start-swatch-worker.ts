import type { FromSwatchWorker, SwatchOrder } from './swatch-messages.ts';

/** Starts a worker that lays one swatch down; its messages go to `hear`. */
export function startSwatchWorker(
  order: SwatchOrder,
  hear: (message: FromSwatchWorker) => void,
): { readonly end: () => void } {
  const worker = new Worker(new URL('./swatch.worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', ({ data }: MessageEvent<FromSwatchWorker>) => hear(data));
  worker.addEventListener('error', ({ message }) =>
    hear({ kind: 'bug', message: message || 'the worker did not start' }),
  );
  worker.postMessage(order, { transfer: [] });
  return { end: () => worker.terminate() };
}
