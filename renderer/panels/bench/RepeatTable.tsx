import type { ReactElement } from 'react';
import { isBlank, trimmed, type Repeats } from '../../store/bench-draft.ts';
import { useBench } from '../../table.ts';
import { ReadingTable } from './ReadingTable.tsx';
import { faultyField, noteAt } from './use-field.ts';

interface RepeatColumn {
  readonly name: string;
  readonly unit: string;
  /** As in the draft: `weigh.warp`. */
  readonly place: string;
  readonly values: Repeats;
}

interface RepeatTableProps {
  readonly caption: string;
  readonly columns: readonly RepeatColumn[];
  /** All columns as they are now; `key` tells the cell that was typed in, null for a paste. */
  readonly change: (columns: readonly Repeats[], key: string | null) => void;
}

/** Rows shown before anything is typed. */
const LEAST = 6;

/** Repeats of one reading, a column per direction. */
export function RepeatTable({ caption, columns, change }: RepeatTableProps): ReactElement {
  const state = useBench((bench) => bench);
  const faulty = faultyField(state);
  const height = Math.max(0, ...columns.map(({ values }) => values.length));
  const rows = Array.from({ length: height }, (_, row) => columns.map(({ values }) => values[row] ?? ''));
  return (
    <ReadingTable
      caption={caption}
      columns={columns}
      rows={rows}
      least={LEAST}
      noteAt={(row, column) => {
        const { place, values } = columns[column]!;
        return noteAt(state, `${place}[${row}]`, values[row] ?? '', faulty)?.text ?? null;
      }}
      change={(next, key) =>
        change(
          columns.map((_, column) =>
            trimmed(
              next.map((row) => row[column] ?? ''),
              isBlank,
            ),
          ),
          key,
        )
      }
    />
  );
}
