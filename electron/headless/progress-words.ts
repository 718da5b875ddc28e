import type { StudyProgress } from '../../core/study/study.ts';

/** Where a study's computation stands, in one short line. */
export function progressWords(progress: StudyProgress): string {
  switch (progress.step) {
    case 'body':
      return 'making the body';
    case 'garment':
      return 'laying the garment on it';
    case 'settle': {
      const { level, levelCount, iteration, residual } = progress.settle;
      const fineness = levelCount > 1 ? `mesh ${level + 1} of ${levelCount}, ` : '';
      return `${progress.fabricId}: ${fineness}step ${iteration}, ${residual.toExponential(1)} out of balance`;
    }
  }
}
