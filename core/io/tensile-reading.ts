import type { Branch } from '../fabric/fabric.ts';
import { Fault } from '../fault/fault.ts';
import type { TableCell } from '../fault/table-faults.ts';
import { readNumber } from './table-number.ts';
import type { DecimalMark, NumberProblem } from './table-number.ts';
import type { ReadColumn } from './tensile-columns.ts';
import type { StripRow } from './tensile-cycles.ts';
import type { ColumnGroup } from './tensile-groups.ts';
import type { TableWish } from './tensile-table.ts';
import { isPerWidth, isShare, mmFrom, newtonsFromTable, percentFrom, widthMmFrom } from './tensile-units.ts';

/** What turns cells into sheet units. */
export interface Conversion {
  readonly mark: DecimalMark;
  /** Gauge of a strip, half the circumference of a loop; NaN where no column needs it. */
  readonly lengthMm: number;
  /** Of the unstretched strip; null where no column needs it. */
  readonly widthMm: number | null;
}

/** What readings are taken from. */
export interface ReadingSource {
  readonly rows: readonly (readonly string[])[];
  readonly wish: TableWish;
  readonly conversion: Conversion;
  /** Cells for which a row was left out as wished; added to. */
  readonly leftOut: TableCell[];
}

/** Where a row belongs, as far as file and earlier rows say. */
export interface StripNow {
  cycle: number | null;
  branch: Branch | null;
  /** Of the unstretched strip. */
  stripWidthMm: number | null;
}

/** A cell as a fault names it. @param row - From 0. */
export function cellAt(column: ReadColumn, row: number, value: string): TableCell {
  const shown = value.length > 40 ? `${value.slice(0, 37)}...` : value;
  return { row: row + 1, column: column.column, header: column.header, value: shown };
}

/** The text of a row under a column; empty where the row is shorter. */
export const textAt = (cells: readonly string[], column: ReadColumn): string =>
  cells[column.column - 1] ?? '';

/**
 * The numbers of one row in sheet units.
 *
 * @param r - Row from 0.
 * @returns Null where the row is left out as wished.
 * @throws {Fault} the `table/` faults of single cells.
 */
export function readReading(
  source: ReadingSource,
  group: ColumnGroup,
  r: number,
  now: Readonly<StripNow>,
): StripRow | null {
  const pulled = requiredAt(source, group.extension, r);
  const pull = pulled === null ? null : requiredAt(source, group.force, r);
  if (pulled === null || pull === null) return null;
  const own = now.stripWidthMm ?? NaN;
  if (now.stripWidthMm === null && group.stripWidth !== null && needsStripWidth(group))
    throw numberFault(source, group.stripWidth, { r, value: 'empty' });
  const extension = percentFrom(pulled, group.extension.unit!, source.conversion.lengthMm);
  if (!Number.isFinite(extension)) throw numberFault(source, group.extension, { r, value: 'not finite' });
  const force = newtonsFromTable(pull, group.force.unit!, own);
  if (!Number.isFinite(force)) throw numberFault(source, group.force, { r, value: 'not finite' });
  const width = group.width === null ? null : widthAt(source, group.width, r, own);
  return { row: r + 1, extension, force, width, cycle: now.cycle, branch: now.branch };
}

const needsStripWidth = ({ force, width }: ColumnGroup): boolean =>
  isPerWidth(force.unit!) || (width !== null && isShare(width.unit!));

/** Width of the pulled strip in mm; null where none was read. */
function widthAt(source: ReadingSource, column: ReadColumn, r: number, ownMm: number): number | null {
  const value = optionalAt(source, column, r);
  if (value === null) return null;
  const width = widthMmFrom(value, column.unit!, ownMm);
  requirePositive(source, column, { r, value: width });
  return width;
}

/** Width of the unstretched strip in a row, mm; null without a column or a value for it. */
export function stripWidthAt(source: ReadingSource, { stripWidth }: ColumnGroup, r: number): number | null {
  const value = stripWidth === null ? null : optionalAt(source, stripWidth, r);
  if (value === null) return null;
  requirePositive(source, stripWidth!, { r, value });
  // 0.1229 m is 122.9 mm, not 122.89999999999999.
  return Number(mmFrom(value, stripWidth!.unit!).toPrecision(12));
}

function requirePositive(
  source: ReadingSource,
  column: ReadColumn,
  { r, value }: { readonly r: number; readonly value: number },
): void {
  if (value > 0 && value < 1e9) return;
  throw new Fault('table/width-not-positive', cellAt(column, r, textAt(source.rows[r]!, column)));
}

/** A number, or null where the row is to be left out for want of one. */
function requiredAt(source: ReadingSource, column: ReadColumn, r: number): number | null {
  const text = textAt(source.rows[r]!, column);
  const value = readNumber(text, source.conversion.mark);
  if (typeof value === 'number') return value;
  if (!isMissing(value) || source.wish.missing !== 'leave out')
    throw numberFault(source, column, { r, value });
  source.leftOut.push(cellAt(column, r, text));
  return null;
}

/** A number, or null for a cell that may be empty. */
function optionalAt(source: ReadingSource, column: ReadColumn, r: number): number | null {
  const value = readNumber(textAt(source.rows[r]!, column), source.conversion.mark);
  if (typeof value === 'number') return value;
  if (value === 'empty' || (isMissing(value) && source.wish.missing === 'leave out')) return null;
  throw numberFault(source, column, { r, value });
}

const isMissing = (value: NumberProblem): boolean => value === 'empty' || value === 'not finite';

function numberFault(
  source: ReadingSource,
  column: ReadColumn,
  { r, value }: { readonly r: number; readonly value: NumberProblem },
): Fault {
  const cell = cellAt(column, r, textAt(source.rows[r]!, column));
  const decimalMark = source.conversion.mark;
  switch (value) {
    case 'empty':
      return new Fault('table/empty-cell', cell);
    case 'not finite':
      return new Fault('table/not-finite', cell);
    case 'thousands':
      return new Fault('table/thousands-mark', { ...cell, decimalMark });
    case 'other mark':
      return new Fault('table/other-decimal-mark', { ...cell, decimalMark });
    case 'text':
      return new Fault('table/not-a-number', cell);
  }
}
