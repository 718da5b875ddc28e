import { useEffect, useRef, useState, type KeyboardEvent, type ReactElement, type UIEvent } from 'react';
import { comparableThickness } from '../../../core/sheet/derived-weight.ts';
import type { LibraryColumn, LibraryOrder } from '../../../core/sheet/library-order.ts';
import {
  LIBRARY_COLUMN_ORDER,
  LIBRARY_COLUMNS,
  LIBRARY_NOTES,
  LIBRARY_WORDS,
} from '../../../core/words/library-words.ts';
import type { SheetLine } from '../../store/library-store.ts';
import type { LibraryPageProps } from './library-page-props.ts';
import { LibraryRow } from './LibraryRow.tsx';

/** Lines drawn at first, and more as they are scrolled or moved to: all at once would make a key press slow. */
const ROWS = 200;
/** Nearer to the last line drawn than this, px, more are drawn. */
const NEAR_END = 600;
/** Lines that a page key moves. */
const PAGE = 12;

interface LibraryTableProps extends Pick<LibraryPageProps, 'library' | 'deeds' | 'onOpen'> {
  readonly shown: readonly SheetLine[];
}

/** The lines, one under the other: arrows move, Space marks for comparing, Enter opens. */
export function LibraryTable({ library, deeds, shown, onOpen }: LibraryTableProps): ReactElement {
  const { current, marked, order } = library;
  const [most, setMost] = useState(ROWS);
  const at = shown.findIndex(({ path }) => path === current);
  const drawn = shown.slice(0, Math.max(most, at + 1 + PAGE));
  const body = useRef<HTMLTableSectionElement>(null);
  useFollow(body, current);
  const press = (event: KeyboardEvent): void => {
    const work = keyWork(event.key, { shown, at, deeds, onOpen });
    if (work === null || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    event.stopPropagation();
    work();
  };
  const scroll = ({ currentTarget: { scrollTop, clientHeight, scrollHeight } }: UIEvent): void => {
    if (scrollTop + clientHeight > scrollHeight - NEAR_END && shown.length > drawn.length) {
      setMost(drawn.length + ROWS);
    }
  };
  return (
    <div className="library-table" onScroll={scroll}>
      <table role="grid" aria-label={LIBRARY_WORDS.table} aria-rowcount={shown.length + 1}>
        <thead>
          <tr>
            <th scope="col" className="library-mark">
              <span className="hidden">{LIBRARY_WORDS.marks}</span>
            </th>
            {LIBRARY_COLUMN_ORDER.map((column) => (
              <ColumnHead key={column} column={column} order={order} orderBy={deeds.orderBy} />
            ))}
          </tr>
        </thead>
        <tbody ref={body} onKeyDown={press}>
          {drawn.map((line, index) => (
            <LibraryRow
              key={line.path}
              line={line}
              isCurrent={index === at}
              takesTab={index === Math.max(at, 0)}
              mark={markOf(marked, line.path)}
              pick={deeds.pick}
              toggle={deeds.mark}
              open={onOpen}
            />
          ))}
        </tbody>
      </table>
      {shown.length > drawn.length && (
        <p className="library-more soft">
          {LIBRARY_WORDS.moreRows(shown.length - drawn.length)}{' '}
          <button className="plain" type="button" onClick={() => setMost(drawn.length + ROWS)}>
            {LIBRARY_WORDS.showMore}
          </button>
        </p>
      )}
      {drawn.length > 0 && <Notes lines={shown} />}
    </div>
  );
}

const markOf = (marked: readonly string[], path: string): 'A' | 'B' | null =>
  marked[0] === path ? 'A' : marked[1] === path ? 'B' : null;

/** Keeps the current line in sight and the focus on it, once the focus is among the lines. */
function useFollow(body: { readonly current: HTMLTableSectionElement | null }, current: string | null): void {
  useEffect(() => {
    const row = Array.from(body.current?.rows ?? []).find(({ dataset }) => dataset['path'] === current);
    if (row === undefined) return;
    if (body.current?.contains(document.activeElement) === true) row.focus({ preventScroll: true });
    row.scrollIntoView({ block: 'nearest' });
  }, [body, current]);
}

interface KeyPlace extends Pick<LibraryPageProps, 'deeds' | 'onOpen'> {
  readonly shown: readonly SheetLine[];
  /** Of the current line; -1 where there is none. */
  readonly at: number;
}

function keyWork(key: string, { shown, at, deeds, onOpen }: KeyPlace): (() => void) | null {
  const last = shown.length - 1;
  const to = (index: number) => () => deeds.pick(shown[Math.min(Math.max(index, 0), last)]!.path);
  const line = shown[Math.max(at, 0)];
  if (line === undefined) return null;
  switch (key) {
    case 'ArrowDown':
      return to(at + 1);
    case 'ArrowUp':
      return to(at - 1);
    case 'PageDown':
      return to(at + PAGE);
    case 'PageUp':
      return to(at - PAGE);
    case 'Home':
      return to(0);
    case 'End':
      return to(last);
    case ' ':
      return () => {
        deeds.pick(line.path);
        deeds.mark(line.path);
      };
    case 'Enter':
      return line.entry === null ? null : () => onOpen(line.path);
    default:
      return null;
  }
}

interface ColumnHeadProps {
  readonly column: LibraryColumn;
  readonly order: LibraryOrder;
  readonly orderBy: (column: LibraryColumn) => void;
}

function ColumnHead({ column, order, orderBy }: ColumnHeadProps): ReactElement {
  const { title, unit } = LIBRARY_COLUMNS[column];
  const isChosen = order.by === column;
  const sort = isChosen ? (order.falling ? 'descending' : 'ascending') : 'none';
  return (
    <th scope="col" className={`library-${column}`} aria-sort={sort}>
      <button type="button" onClick={() => orderBy(column)}>
        <span>
          {title}
          <i aria-hidden="true">{isChosen ? (order.falling ? ' ↓' : ' ↑') : ''}</i>
        </span>
        <span className="library-unit">{unit === '' ? '\u00a0' : unit}</span>
      </button>
    </th>
  );
}

/** Beneath the lines: what their figures are, and which of them must not be compared. */
function Notes({ lines }: { readonly lines: readonly SheetLine[] }): ReactElement {
  const entries = lines.flatMap(({ entry }) => entry ?? []);
  const first = entries[0];
  const isUnlike =
    first !== undefined && entries.some((entry) => !comparableThickness(first, entry).comparable);
  const isBeyond = entries.some(({ beyond40 }) => beyond40.warp || beyond40.weft);
  return (
    <p className="library-notes soft">
      {first !== undefined && LIBRARY_NOTES.strip} {isBeyond && LIBRARY_NOTES.beyond}{' '}
      {isUnlike && LIBRARY_NOTES.unlikeFeet} {LIBRARY_NOTES.noDelete}
    </p>
  );
}
