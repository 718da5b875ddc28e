import { runStudy } from '../../core/study/run-study.ts';
import type { Study, StudyProgress, StudyResult } from '../../core/study/study.ts';
import { progressWords } from './progress-words.ts';
import { runToEnd } from './run-to-end.ts';
import type { Terminal } from './terminal.ts';

/** How long each part of a study took, s. */
export interface StudyTimes {
  readonly body: number;
  readonly garment: number;
  /** Finding rest and painting fields, by fabric id. */
  readonly fabrics: ReadonlyMap<string, number>;
}

/**
 * Runs a study with its progress on the terminal, and times it.
 *
 * A search says its first word after its first, coarsest step; that step of the first fabric counts to the garment.
 */
export async function runTimed(
  study: Study,
  terminal: Terminal,
): Promise<{ readonly result: StudyResult; readonly times: StudyTimes }> {
  const fabrics = new Map<string, number>();
  let body = 0;
  let garment = 0;
  let before: StudyProgress = { step: 'body' };
  const result = await runToEnd(runStudy(study), terminal.stop, ({ progress, seconds }) => {
    const now = progress ?? before;
    if (before.step === 'body') body += seconds;
    else if (before.step === 'garment') garment += seconds;
    else if (now.step === 'settle') fabrics.set(now.fabricId, (fabrics.get(now.fabricId) ?? 0) + seconds);
    before = now;
    if (progress) terminal.progress(progressWords(progress));
  });
  return { result, times: { body, garment, fabrics } };
}
