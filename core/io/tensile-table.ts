import type { Branch, Direction } from '../fabric/fabric.ts';
import type { Finding } from '../fault/finding.ts';
import type { Separator } from './delimited-text.ts';
import type { DecimalMark } from './table-number.ts';
import type { TableUnit } from './tensile-units.ts';

/** What a column of a tensile tester's table holds; `stripWidth` is that of the unstretched strip. */
export type ColumnMeaning =
  | 'extension'
  | 'force'
  | 'width'
  | 'stripWidth'
  | 'cycle'
  | 'specimen'
  | 'direction'
  | 'branch'
  | 'time'
  | 'ignored';

/** One column as it was understood. */
export interface TableColumn {
  /** From 1. */
  readonly column: number;
  /** Of its header, from 1; null where the table has none. */
  readonly headerRow: number | null;
  /** As the file has it. */
  readonly header: string;
  readonly meaning: ColumnMeaning;
  /** Null where the column needs none, or where it is asked for. */
  readonly unit: TableUnit | null;
  /** Whether the file said so, the user did, or nothing was understood. */
  readonly from: 'file' | 'wish' | 'nothing';
}

/** What the user says of a column; wins over the header. */
export interface ColumnWish {
  /** From 1. */
  readonly column: number;
  readonly meaning?: ColumnMeaning;
  readonly unit?: TableUnit;
}

/** What the user says of a table; wins over what the file says, save that a column `stripWidth` wins over `widthMm`. */
export interface TableWish {
  readonly separator?: Separator;
  readonly decimalMark?: DecimalMark;
  readonly columns?: readonly ColumnWish[];
  /** Of the test; a strip unless the file or the wish says loop. */
  readonly test?: 'strip' | 'loop';
  readonly gaugeMm?: number;
  readonly circumferenceMm?: number;
  /** Of the unstretched strip. */
  readonly widthMm?: number;
  /** What a word in a direction column means. */
  readonly directions?: Readonly<Record<string, Direction>>;
  /** Rows without a force or an extension (empty, a dash, NaN): refused unless wished otherwise. */
  readonly missing?: 'refuse' | 'leave out';
}

/** Something that the file leaves open; no curves until `TableWish` answers it. */
export type TableQuestion =
  /** Every number in question reads both ways; the first is named. Answer: `decimalMark`. */
  | {
      readonly asks: 'decimalMark';
      readonly row: number;
      readonly column: number;
      readonly header: string;
      readonly value: string;
    }
  /** Which of these columns holds it? Answer: `columns`, with that meaning. */
  | { readonly asks: 'column'; readonly meaning: ColumnMeaning; readonly candidates: readonly TableColumn[] }
  /** Answer: `columns`, with that unit. */
  | {
      readonly asks: 'unit';
      readonly column: number;
      readonly header: string;
      readonly meaning: ColumnMeaning;
      readonly choices: readonly TableUnit[];
      /** What the size of the numbers suggests; null where nothing. */
      readonly likely: TableUnit | null;
    }
  /** Needed to convert a column. Answer: the key of that name. */
  | {
      readonly asks: 'gaugeMm' | 'circumferenceMm' | 'widthMm';
      readonly column: number;
      readonly header: string;
      readonly unit: TableUnit;
    }
  /** Answer: `directions`. */
  | {
      readonly asks: 'direction';
      readonly text: string;
      readonly row: number;
      readonly column: number;
      readonly header: string;
    };

/** A value that the file names outside its columns ("Gauge length;100 mm"). */
export interface NamedValue<T> {
  readonly value: T;
  readonly row: number;
  readonly column: number;
}

/** What the file says of the test as a whole; null where it says nothing (or nothing with a unit). */
export interface NamedValues {
  readonly gaugeMm: NamedValue<number> | null;
  readonly circumferenceMm: NamedValue<number> | null;
  readonly widthMm: NamedValue<number> | null;
  readonly test: NamedValue<'strip' | 'loop'> | null;
  /** As the file has it. */
  readonly date: NamedValue<string> | null;
}

/** One branch of one cycle of one specimen, in the order of the test. */
export interface TableCurve {
  readonly direction: Direction | null;
  /** From 1, per direction; the file's own number where it gives one. */
  readonly specimen: number;
  /** As the file names it; null where it does not. */
  readonly specimenName: string | null;
  readonly cycle: number;
  readonly branch: Branch;
  /** [extension in per cent, force in N on the whole width, both legs of a loop]. */
  readonly points: readonly (readonly [number, number])[];
  /** Row of each point, from 1. */
  readonly rows: readonly number[];
  /** [extension in per cent, width in mm], where the width was read. */
  readonly widths: readonly (readonly [number, number])[];
  readonly widthRows: readonly number[];
  /** Of the unstretched strip, mm; null where neither file nor wish says. */
  readonly stripWidthMm: number | null;
}

/** A tensile tester's table as read: what was understood, what is left open, and the curves. */
export interface TensileTable {
  readonly separator: Separator;
  readonly decimalMark: DecimalMark;
  readonly rowCount: number;
  /** Of every header of the file that differs. */
  readonly columns: readonly TableColumn[];
  readonly named: NamedValues;
  readonly test: 'strip' | 'loop';
  /** Empty when the curves are there. */
  readonly questions: readonly TableQuestion[];
  /** By direction, specimen, cycle, load before return. Empty while a question is open. */
  readonly curves: readonly TableCurve[];
  /** The last cycle that every specimen went through to the end; null without curves. */
  readonly defaultCycle: number | null;
  readonly findings: readonly Finding[];
}
