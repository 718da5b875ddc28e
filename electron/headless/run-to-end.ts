import { setImmediate as nextTurn } from 'node:timers/promises';

/** How long the work may go on before signals get their turn, ms. */
const longestTurn = 50;

/** One answer of a running computation, and how long it was in coming. */
export interface Heard<Progress> {
  /** The last answer before the result has none of its own. */
  readonly progress: Progress | null;
  readonly seconds: number;
}

/**
 * Runs a computation to its end, and lets Ctrl-C in between its steps.
 *
 * @param work - Yields progress, returns its result.
 * @param hear - Is called after every step.
 * @throws the reason of `stop`, where that was set off.
 */
export async function runToEnd<Progress, Result>(
  work: Generator<Progress, Result>,
  stop: AbortSignal,
  hear: (heard: Heard<Progress>) => void = () => {},
): Promise<Result> {
  let lastTurn = performance.now();
  for (;;) {
    const started = performance.now();
    const step = work.next();
    const now = performance.now();
    hear({ progress: step.done ? null : step.value, seconds: (now - started) / 1000 });
    if (step.done) return step.value;
    if (now - lastTurn > longestTurn) {
      // oxlint-disable-next-line no-await-in-loop -- giving signals their turn is the point
      await nextTurn();
      // Into the work, so that whatever it holds is given back.
      if (stop.aborted) work.throw(stop.reason);
      stop.throwIfAborted();
      lastTurn = performance.now();
    }
  }
}
