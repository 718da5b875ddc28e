import { useId, type KeyboardEvent, type ReactElement } from 'react';
import { sheetFileName } from '../../../core/sheet/library-entry.ts';
import {
  brokenWords,
  countWords,
  LIBRARY_WORDS,
  READ_ONLY_HINT,
  readingWords,
  stoppedWords,
} from '../../../core/words/library-words.ts';
import type { LibraryDeeds } from '../../store/library-deeds.ts';
import { isWritable, unreadCount, type LibraryPlace, type LibraryState } from '../../store/library-store.ts';
import type { LibraryPageProps } from './library-page-props.ts';

interface LibraryHeadProps extends Pick<LibraryPageProps, 'library' | 'deeds' | 'draft'> {
  readonly shownCount: number;
  readonly toTable: () => void;
}

/** Where the fabrics lie, how many there are, and the search among them. */
export function LibraryHead(props: LibraryHeadProps): ReactElement {
  const { library, deeds, draft, shownCount, toTable } = props;
  const { place, lines, activity } = library;
  const brokenCount = lines.filter(({ broken }) => broken !== null).length;
  const canSave = isWritable(place);
  return (
    <header className="library-head">
      <div className="library-place">
        <h2>{placeName(place)}</h2>
        <span className="soft figures">{countWords(shownCount, lines.length)}</span>
        {brokenCount > 0 && (
          <button
            className="plain figures"
            type="button"
            aria-pressed={library.onlyBroken}
            onClick={() => deeds.showOnlyBroken(!library.onlyBroken)}
          >
            {library.onlyBroken ? LIBRARY_WORDS.showAll : brokenWords(brokenCount)}
          </button>
        )}
        <span className="library-deeds">
          {place.kind === 'open' && place.writes === 'folder' && (
            <button
              className="plain"
              type="button"
              disabled={activity.kind !== 'idle'}
              onClick={() => void deeds.lookAgain()}
            >
              {LIBRARY_WORDS.readAgain}
            </button>
          )}
          <button className="plain" type="button" onClick={() => void deeds.choose()}>
            {chooseWords(place)}
          </button>
          {draft !== null && (
            <button
              className="plain"
              type="button"
              disabled={!canSave}
              title={canSave ? undefined : READ_ONLY_HINT}
              onClick={() => deeds.ask({ kind: 'draft', fileName: sheetFileName(draft.name, draft.lot) })}
            >
              {LIBRARY_WORDS.saveDraft}
            </button>
          )}
        </span>
      </div>
      <div className="library-find">
        <Search search={library.search} deeds={deeds} toTable={toTable} />
        <Progress library={library} deeds={deeds} />
      </div>
    </header>
  );
}

function placeName(place: LibraryPlace): string {
  switch (place.kind) {
    case 'unopened':
      return LIBRARY_WORDS.title;
    case 'none':
      return LIBRARY_WORDS.demonstration;
    case 'open':
      return place.writes === 'downloads' ? LIBRARY_WORDS.handed : place.name;
    case 'locked':
    case 'missing':
      return place.name;
  }
}

function chooseWords(place: LibraryPlace): string {
  const isHanded =
    (place.kind === 'none' && !place.keepsFolder) || (place.kind === 'open' && place.writes === 'downloads');
  if (place.kind === 'none' || place.kind === 'unopened')
    return isHanded ? LIBRARY_WORDS.handOver : LIBRARY_WORDS.choose;
  return isHanded ? LIBRARY_WORDS.handOverAgain : LIBRARY_WORDS.chooseAgain;
}

interface SearchProps {
  readonly search: string;
  readonly deeds: LibraryDeeds;
  readonly toTable: () => void;
}

function Search({ search, deeds, toTable }: SearchProps): ReactElement {
  const field = useId();
  const press = (event: KeyboardEvent): void => {
    if (event.key === 'ArrowDown' || event.key === 'Enter') {
      event.preventDefault();
      toTable();
    } else if (event.key === 'Escape' && search !== '') {
      // One thing at a time: what lies around it stays open.
      event.stopPropagation();
      deeds.search('');
    }
  };
  return (
    <div className="library-search">
      <label className="hidden" htmlFor={field}>
        {LIBRARY_WORDS.search}
      </label>
      <input
        id={field}
        type="text"
        value={search}
        placeholder={LIBRARY_WORDS.searchEmpty}
        autoComplete="off"
        spellCheck={false}
        onChange={({ target }) => deeds.search(target.value)}
        onKeyDown={press}
      />
      {search !== '' && (
        <button className="plain" type="button" onClick={() => deeds.search('')}>
          {LIBRARY_WORDS.clear}
        </button>
      )}
    </div>
  );
}

function Progress({
  library: { activity, lines },
  deeds,
}: {
  readonly library: LibraryState;
  readonly deeds: LibraryDeeds;
}): ReactElement | null {
  if (activity.kind === 'reading' && activity.total > 0) {
    return (
      <div className="library-progress">
        <progress max={activity.total} value={activity.done} aria-label={LIBRARY_WORDS.reading} />
        <span className="soft figures">{readingWords(activity.done + 1, activity.total)}</span>
        <button className="plain" type="button" onClick={deeds.stop}>
          {LIBRARY_WORDS.stop}
        </button>
      </div>
    );
  }
  const left = unreadCount(lines);
  if (activity.kind !== 'idle' || left === 0) return null;
  return (
    <div className="library-progress">
      <span className="soft figures">{stoppedWords(left)}</span>
      <button className="plain" type="button" onClick={() => void deeds.goOn()}>
        {LIBRARY_WORDS.goOn}
      </button>
    </div>
  );
}
