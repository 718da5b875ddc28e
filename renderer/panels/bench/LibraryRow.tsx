import { memo, type ReactElement } from 'react';
import { entryFigures, type LibraryEntry } from '../../../core/sheet/library-entry.ts';
import { LIBRARY_COLUMN_ORDER, LIBRARY_WORDS } from '../../../core/words/library-words.ts';
import type { SheetLine } from '../../store/library-store.ts';

interface LibraryRowProps {
  readonly line: SheetLine;
  readonly isCurrent: boolean;
  /** One line of all takes the tab key. */
  readonly takesTab: boolean;
  readonly mark: 'A' | 'B' | null;
  readonly pick: (path: string) => void;
  readonly toggle: (path: string) => void;
  readonly open: (path: string) => void;
}

/** One sheet's line. Drawn anew only when something in it has changed. */
export const LibraryRow = memo(function LibraryRow(props: LibraryRowProps): ReactElement {
  const { line, isCurrent, takesTab, mark, pick, toggle, open } = props;
  const { path, entry, broken } = line;
  return (
    <tr
      tabIndex={takesTab ? 0 : -1}
      aria-selected={isCurrent}
      data-path={path}
      className={entry === null ? 'unread' : undefined}
      onClick={({ currentTarget }) => {
        pick(path);
        currentTarget.focus({ preventScroll: true });
      }}
      onDoubleClick={() => {
        if (entry !== null) open(path);
      }}
    >
      <td className="library-mark">
        {entry !== null && (
          <button
            type="button"
            tabIndex={-1}
            aria-pressed={mark !== null}
            aria-label={LIBRARY_WORDS.mark(entry.name)}
            onClick={() => toggle(path)}
          >
            {mark ?? ''}
          </button>
        )}
      </td>
      {entry === null ? (
        <>
          <th scope="row" className="library-name">
            {path}
          </th>
          <td colSpan={LIBRARY_COLUMN_ORDER.length - 1}>
            <span className="library-reason">
              {broken === null ? LIBRARY_WORDS.unread : `${broken.what} ${broken.remedy}`}
            </span>
          </td>
        </>
      ) : (
        <Cells entry={entry} />
      )}
    </tr>
  );
});

function Cells({ entry }: { readonly entry: LibraryEntry }): ReactElement {
  const figures = entryFigures(entry);
  return (
    <>
      <th scope="row" className="library-name">
        {entry.name}
        {entry.invented && !/invented/i.test(entry.name) && (
          <span className="soft"> {LIBRARY_WORDS.invented}</span>
        )}
        {entry.note !== null && <span className="library-note">{entry.note}</span>}
      </th>
      <td className="library-lot">{entry.lot}</td>
      <td className="library-date">{entry.date}</td>
      <td className="library-weight">{figures.weight}</td>
      <td className="library-thickness">
        {figures.thickness} <span className="soft">at {figures.pressure}</span>
      </td>
      <Force text={figures.warp40} isBeyond={entry.beyond40.warp} column="warp40" />
      <Force text={figures.weft40} isBeyond={entry.beyond40.weft} column="weft40" />
      <td className="library-remarks">{entry.remarkCount === 0 ? '–' : entry.remarkCount}</td>
    </>
  );
}

interface ForceProps {
  readonly text: string;
  readonly isBeyond: boolean;
  readonly column: 'warp40' | 'weft40';
}

/** The star hangs, so that figures stay under each other. */
const Force = ({ text, isBeyond, column }: ForceProps): ReactElement => (
  <td className={`library-${column}`}>
    {text}
    <span className="library-star">{isBeyond ? '*' : ''}</span>
  </td>
);
