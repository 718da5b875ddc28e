import { changedStudy } from '../../core/study/changed-study.ts';
import type { StandingStudy, StudyRun } from '../../core/study/standing-study.ts';
import type { Study, StudyChange, StudyProgress, StudyResult } from '../../core/study/study.ts';
import type { FromWorker } from './messages.ts';
import { settledStudy, studySheet } from './settled-study.ts';
import { troubleOf } from './trouble.ts';

/** What a live study needs from outside. */
export interface LiveParts {
  readonly post: (message: FromWorker) => void;
  /** Lets messages that wait be heard. */
  readonly breathe: () => Promise<void>;
  readonly now: () => number;
  readonly run: (study: Study, before?: StandingStudy) => Generator<StudyProgress, StudyRun>;
}

/** A study that stays settled, and can be tried otherwise. */
export interface LiveStudy {
  /** Settles the study as it was opened. */
  readonly lay: (study: Study) => Promise<void>;
  /** Settles it with some answers changed; a change under way is given up between two of its steps. */
  readonly change: (change: StudyChange, id: number) => Promise<void>;
  /** Gives up what is under way; what settled last stays. */
  readonly stop: () => void;
  /** What settled last. */
  readonly result: () => StudyResult | null;
}

/** Progress is told no oftener than this, ms. */
const TELL_EVERY = 40;

/** Keeps what stands of the run that settled last: every change runs on from there. */
export function createLiveStudy({ post, breathe, now, run }: LiveParts): LiveStudy {
  let opened: Study | null = null;
  let last: StudyRun | null = null;
  /** Only the newest search goes on. */
  let newest = 0;

  const settle = async (study: Study, id: number): Promise<void> => {
    const own = ++newest;
    const chain = run(study, last?.standing);
    let toldAt = -Infinity;
    let step = chain.next();
    while (!step.done) {
      if (now() - toldAt >= TELL_EVERY) {
        toldAt = now();
        post({ kind: 'progress', id, progress: step.value });
      }
      await breathe();
      if (own !== newest) return;
      step = chain.next();
    }
    last = step.value;
    post({ kind: 'settled', id, sheet: studySheet(study), settled: settledStudy(study, step.value) });
  };

  const told = async (id: number, work: () => Promise<void>): Promise<void> => {
    try {
      await work();
    } catch (error) {
      post({ id, ...troubleOf(error) });
    }
  };

  return {
    lay: (study) =>
      told(0, () => {
        opened = study;
        return settle(study, 0);
      }),
    change: (change, id) =>
      told(id, async () => {
        if (opened !== null) await settle(changedStudy(opened, change), id);
      }),
    stop: () => {
      newest++;
    },
    result: () => last,
  };
}
