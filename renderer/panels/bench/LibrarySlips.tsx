import type { ReactElement } from 'react';
import { LIBRARY_STATES, LIBRARY_WORDS, leftOutWords } from '../../../core/words/library-words.ts';
import type { FaultSentence } from '../../../core/words/word-tables.ts';
import type { LibraryDeeds } from '../../store/library-deeds.ts';
import type { LibraryState } from '../../store/library-store.ts';

interface LibrarySlipsProps {
  readonly library: LibraryState;
  readonly deeds: LibraryDeeds;
  readonly shownCount: number;
}

/** What is to be said of the folder as a whole, and of what was done last. */
export function LibrarySlips({ library, deeds, shownCount }: LibrarySlipsProps): ReactElement {
  const { place, notice, leftOut } = library;
  const state = stateWords(library, shownCount);
  return (
    <div className="library-slips">
      {notice !== null && (
        <div className={`library-slip ${notice.tone}`} role={notice.tone === 'fault' ? 'alert' : 'status'}>
          <Sentence words={notice} />
          <button className="plain" type="button" onClick={deeds.putAway}>
            {LIBRARY_WORDS.putAway}
          </button>
        </div>
      )}
      {state !== null && (
        <div className="library-slip" role="status">
          <Sentence words={state} />
          {place.kind === 'locked' && (
            <button className="plain" type="button" onClick={() => void deeds.allow()}>
              {LIBRARY_WORDS.allow}
            </button>
          )}
          {place.kind === 'missing' && (
            <button className="plain" type="button" onClick={() => void deeds.lookAgain()}>
              {LIBRARY_WORDS.readAgain}
            </button>
          )}
        </div>
      )}
      {leftOut > 0 && <p className="library-slip">{leftOutWords(leftOut)}</p>}
    </div>
  );
}

const Sentence = ({ words: { what, remedy } }: { readonly words: FaultSentence }): ReactElement => (
  <p>
    <strong>{what}</strong> {remedy}
  </p>
);

function stateWords(
  { place, lines, search, activity }: LibraryState,
  shownCount: number,
): FaultSentence | null {
  switch (place.kind) {
    case 'none':
      return place.keepsFolder ? LIBRARY_STATES.noFolder : LIBRARY_STATES.noFoldersHere;
    case 'locked':
      return LIBRARY_STATES.locked(place.name);
    case 'missing':
      return place.reason === 'gone'
        ? LIBRARY_STATES.gone(place.name)
        : LIBRARY_STATES.mayNotRead(place.name);
    case 'open':
      if (lines.length === 0 && activity.kind === 'idle') return LIBRARY_STATES.empty(place.name);
      return shownCount === 0 && search.trim() !== '' ? LIBRARY_STATES.nothingFound(search.trim()) : null;
    case 'unopened':
      return null;
  }
}
