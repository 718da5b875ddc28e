import {
  memo,
  useCallback,
  useLayoutEffect,
  useRef,
  type ClipboardEvent,
  type KeyboardEvent,
  type ReactElement,
} from 'react';
import { isSeveralCells, pastedCells, withPasted } from '../../store/bench-paste.ts';

/** One column of a reading table. */
export interface ReadingColumn {
  readonly name: string;
  readonly unit: string;
}

type Row = readonly string[];

/** What is to be said at one cell; null where all is well. */
export type CellNote = (row: number, column: number) => string | null;

interface ReadingTableProps {
  readonly caption: string;
  /** True where the words round the table say what it is. */
  readonly isCaptionHidden?: boolean;
  readonly columns: readonly ReadingColumn[];
  readonly rows: readonly Row[];
  /** Rows shown at least; the last one is always blank, for typing on. */
  readonly least: number;
  readonly change: (rows: readonly Row[], key: string | null) => void;
  readonly noteAt: CellNote;
}

/** A table for typing readings: Enter and the arrows go down and up, several cells can be pasted at once. */
export function ReadingTable(props: ReadingTableProps): ReactElement {
  const { caption, isCaptionHidden = false, columns, rows, least, change, noteAt } = props;
  const body = useRef<HTMLTableSectionElement>(null);
  const count = Math.max(least, rows.length + 1);
  const latest = useRef({ rows, change, columnCount: columns.length });
  // Rows that have not changed keep their deeds, so that a long table is not drawn anew at every key.
  useLayoutEffect(() => {
    latest.current = { rows, change, columnCount: columns.length };
  });

  const type = useCallback((row: number, column: number, text: string): void => {
    const { rows: before, change: give, columnCount } = latest.current;
    give(withPasted(before, [[text]], { row, column, columnCount }), `${row},${column}`);
  }, []);
  const paste = useCallback((event: ClipboardEvent, row: number, column: number): void => {
    const cells = pastedCells(event.clipboardData.getData('text'));
    if (!isSeveralCells(cells)) return;
    event.preventDefault();
    const { rows: before, change: give, columnCount } = latest.current;
    give(withPasted(before, cells, { row, column, columnCount }), null);
  }, []);
  const go = useCallback((event: KeyboardEvent, row: number, column: number): void => {
    const step = event.key === 'Enter' || event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
    if (step === 0 || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    const cell = body.current?.querySelector<HTMLInputElement>(`[data-cell="${row + step},${column}"]`);
    cell?.focus();
    cell?.select();
  }, []);

  const notes = rows.flatMap((_, row) =>
    columns.flatMap((__, column) => {
      const text = noteAt(row, column);
      return text === null || text === '' ? [] : [{ row, text }];
    }),
  );
  return (
    <div className="reading-table">
      <div className="reading-sheet">
        <table>
          <caption className={isCaptionHidden ? 'hidden' : ''}>{caption}</caption>
          <thead>
            <tr>
              <th scope="col">
                <span className="hidden">Row</span>
              </th>
              {columns.map(({ name, unit }) => (
                <th scope="col" key={name}>
                  {name}
                  <span className="unit">, {unit}</span>
                </th>
              ))}
            </tr>
          </thead>
          <tbody ref={body}>
            {Array.from({ length: count }, (_, row) => (
              <ReadingRow
                key={row}
                row={row}
                first={rows[row]?.[0] ?? ''}
                second={rows[row]?.[1] ?? ''}
                third={rows[row]?.[2] ?? ''}
                columnCount={columns.length}
                names={columns.map(({ name }) => `${caption}, ${name}`).join('|')}
                faulty={columns.map((__, column) => (noteAt(row, column) === null ? '' : '!')).join('|')}
                type={type}
                paste={paste}
                go={go}
              />
            ))}
          </tbody>
        </table>
      </div>
      {notes.slice(0, 2).map(({ row, text }) => (
        <p className="field-note" key={`${row} ${text}`}>
          Row {row + 1}: {text}
        </p>
      ))}
      {notes.length > 2 && <p className="field-note">{notes.length - 2} more.</p>}
    </div>
  );
}

interface ReadingRowProps {
  readonly row: number;
  readonly first: string;
  readonly second: string;
  readonly third: string;
  readonly columnCount: number;
  /** Names of the columns and their marks, joined so that a row that did not change is not drawn again. */
  readonly names: string;
  readonly faulty: string;
  readonly type: (row: number, column: number, text: string) => void;
  readonly paste: (event: ClipboardEvent, row: number, column: number) => void;
  readonly go: (event: KeyboardEvent, row: number, column: number) => void;
}

const ReadingRow = memo(function ReadingRow(props: ReadingRowProps): ReactElement {
  const { row, columnCount, type, paste, go } = props;
  const texts = [props.first, props.second, props.third].slice(0, columnCount);
  const names = props.names.split('|');
  const faulty = props.faulty.split('|');
  return (
    <tr>
      <th scope="row">{row + 1}</th>
      {texts.map((text, column) => (
        <td key={names[column]}>
          <input
            data-cell={`${row},${column}`}
            aria-label={`${names[column]}, row ${row + 1}`}
            aria-invalid={faulty[column] === '!'}
            inputMode="decimal"
            autoComplete="off"
            spellCheck={false}
            value={text}
            onChange={({ target }) => type(row, column, target.value)}
            onPaste={(event) => paste(event, row, column)}
            onKeyDown={(event) => go(event, row, column)}
          />
        </td>
      ))}
    </tr>
  );
});
