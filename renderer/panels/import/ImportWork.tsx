import type { ReactElement } from 'react';
import { IMPORT_STEP_WORDS } from '../../../core/words/import-step-words.ts';
import { IMPORT_DOING_WORDS } from '../../../core/words/import-words.ts';
import type { ImportStand } from '../../store/import-store.ts';
import { useImport, useTable } from '../../table.ts';

/** In the order in which they are done. */
const DOINGS: readonly ImportStand['doing'][] = [
  'reading',
  'welding',
  'choosing',
  'placing',
  'turning',
  'closing',
  'refining',
  'looking for cuts',
  'measuring',
];

/** Work under way and the way to end it; or that it was ended, and the way to go on. */
export function ImportWork(): ReactElement | null {
  const { importDeeds } = useTable();
  const work = useImport((state) => state.work);
  const name = useImport(({ file }) => file?.name ?? '');
  if (work === null) return null;
  const isStopped = work === 'stopped';
  return (
    <div
      className={`slip progress import-work ${isStopped ? '' : 'late'}`}
      role="status"
      aria-label="Progress"
    >
      <div className="slip-words">
        <strong>{isStopped ? IMPORT_STEP_WORDS.stopped : doingWords(work, name)}</strong>
      </div>
      <button className="word" type="button" onClick={isStopped ? importDeeds.goOn : importDeeds.stop}>
        {isStopped ? IMPORT_STEP_WORDS.goOn : IMPORT_STEP_WORDS.stop}
      </button>
      {!isStopped && (
        <span className="progress-line">
          <span style={{ transform: `scaleX(${shareOf(work)})` }} />
        </span>
      )}
    </div>
  );
}

const doingWords = ({ doing }: ImportStand, name: string): string => {
  if (doing === 'reading') return IMPORT_STEP_WORDS.reading(name);
  return doing === 'measuring' ? IMPORT_STEP_WORDS.measuring : IMPORT_DOING_WORDS[doing];
};

const shareOf = ({ doing, share }: ImportStand): number =>
  0.02 + (0.98 * (DOINGS.indexOf(doing) + share)) / DOINGS.length;
