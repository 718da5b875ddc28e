import { runStudy } from '../../core/study/run-study.ts';
import type { Study, StudyProgress, StudyResult } from '../../core/study/study.ts';
import { progressWords } from './progress-words.ts';
import { runToEnd } from './run-to-end.ts';
import type { Terminal } from './terminal.ts';

/** A study's result, and how long each fabric took to find rest and be painted, s. */
export interface TimedResult {
  readonly result: StudyResult;
  /** By fabric id. */
  readonly seconds: ReadonlyMap<string, number>;
}

/**
 * Runs a study with its progress on the terminal, and times its fabrics.
 *
 * A search says its first word after its first, coarsest step; that step of the first fabric is not counted.
 */
export async function runTimed(study: Study, terminal: Terminal): Promise<TimedResult> {
  const fabrics = new Map<string, number>();
  let before: StudyProgress = { step: 'body' };
  const result = await runToEnd(runStudy(study), terminal.stop, ({ progress, seconds }) => {
    const now = progress ?? before;
    if (before.step === 'settle' && now.step === 'settle') {
      fabrics.set(now.fabricId, (fabrics.get(now.fabricId) ?? 0) + seconds);
    }
    before = now;
    if (progress) terminal.progress(progressWords(progress));
  });
  return { result, seconds: fabrics };
}
