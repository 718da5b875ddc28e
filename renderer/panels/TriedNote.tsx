import type { ReactElement } from 'react';
import { TRY_WORDS, triedLine } from '../../core/words/try-words.ts';
import type { ShownStudy } from '../store/study-store.ts';
import { useTable } from '../table.ts';

/** On the stage wherever the garment is not worn as its study says, so that no number is taken for the study's. */
export function TriedNote({ shown }: { readonly shown: ShownStudy }): ReactElement | null {
  const { tryOut } = useTable();
  const line = triedLine(shown.tried, shown.asOpened);
  if (line === '') return null;
  return (
    <div className="tried-note" role="note">
      <span>{line}</span>
      <button className="plain" type="button" onClick={() => tryOut({}, 'now')}>
        {TRY_WORDS.resetAll}
      </button>
    </div>
  );
}
