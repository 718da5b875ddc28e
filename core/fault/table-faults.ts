/** One cell of a table, as a spreadsheet counts: row and column from 1. */
export interface TableCell {
  readonly row: number;
  readonly column: number;
  /** What stands over the column; empty where nothing does. */
  readonly header: string;
  readonly value: string;
}

/** Tables of a tensile tester that cannot be read. Each names row and column, or says that it is the whole file. */
export interface TableFaults {
  /** The whole file: more than the limit of `what` (characters, rows, columns). */
  'table/too-large': { what: string; found: number; limit: number };
  /** The whole file: nowhere two numbers side by side. */
  'table/no-numbers': { rowCount: number };
  /** A character that no text has; `column` counts characters here. */
  'table/not-text': { row: number; column: number; character: string };
  'table/open-quote': { row: number; column: number };
  'table/stray-after-quote': { row: number; column: number; value: string };
  'table/not-a-number': TableCell;
  'table/not-finite': TableCell;
  'table/empty-cell': TableCell;
  /** Written with the other decimal mark than the rest of the file. */
  'table/other-decimal-mark': TableCell & { decimalMark: string };
  /** `12.345` in a file of decimal commas: twelve thousand, or twelve and a bit. */
  'table/thousands-mark': TableCell & { decimalMark: string };
  /** `column` is the first one too many, or the first missing. */
  'table/ragged-row': { row: number; column: number; cellCount: number; columnCount: number };
  /** The comma separates cells and marks decimals, both without quotes. */
  'table/commas-both-ways': { row: number; column: number; cellCount: number; columnCount: number };
  'table/not-a-cycle': TableCell;
  'table/not-a-branch': TableCell;
  'table/negative': TableCell & { what: string };
  'table/width-not-positive': TableCell;
  /** The whole file: a wish names a column that is not there. */
  'table/no-such-column': { column: number; columnCount: number };
  /** The whole file: a wish gives a column a unit of another quantity. */
  'table/unit-unfit': { column: number; header: string; meaning: string; unit: string };
  /** The whole file: a wish that is no length. */
  'table/length-unfit': { what: string; valueMm: number };
  /** The whole file: no curve of what was asked for. */
  'table/no-such-curve': { direction: string; cycle: number | null };
}
