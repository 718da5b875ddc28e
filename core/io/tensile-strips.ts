import type { Branch, Direction } from '../fabric/fabric.ts';
import { Fault } from '../fault/fault.ts';
import type { Finding } from '../fault/finding.ts';
import type { TableBlock } from './tensile-blocks.ts';
import { NO_TAGS } from './tensile-columns.ts';
import type { ReadColumn } from './tensile-columns.ts';
import { strandOf } from './tensile-context.ts';
import type { StripRow } from './tensile-cycles.ts';
import { joinTags } from './tensile-groups.ts';
import type { ColumnGroup } from './tensile-groups.ts';
import { branchIn, directionIn, plainWords } from './tensile-names.ts';
import { readNumber } from './table-number.ts';
import type { TableQuestion, TableWish } from './tensile-table.ts';
import { cellAt, readReading, stripWidthAt, textAt } from './tensile-reading.ts';
import type { Conversion, ReadingSource, StripNow } from './tensile-reading.ts';

/** All readings of one strip, in the order of the file. */
export interface StripSeries {
  readonly direction: Direction | null;
  /** As the file names it; null where it does not. */
  readonly name: string | null;
  readonly stripWidthMm: number | null;
  readonly rows: readonly StripRow[];
}

type Rows = readonly (readonly string[])[];

/** A strip while it is gathered. */
interface Gathered {
  readonly direction: Direction | null;
  readonly name: string | null;
  stripWidthMm: number | null;
  readonly rows: StripRow[];
}

/** Everything that reading a row needs and changes. */
interface Reader extends ReadingSource {
  readonly strips: Map<string, Gathered>;
  readonly unknownDirections: Map<string, TableQuestion>;
}

/** Which strip, cycle and branch a row belongs to. */
interface RowNames extends StripNow {
  specimen: string | null;
  direction: Direction | null;
}

/** A group of columns within a block. */
interface Strand {
  readonly group: ColumnGroup;
  readonly autoLabel: string;
  /** What lines, titles and headers say; a column of names overrides it, though perhaps in the first of many rows only. */
  readonly now: RowNames;
}

/**
 * The readings of every strip in a table.
 *
 * @throws {Fault} the `table/` faults of single cells.
 */
export function readStrips(
  rows: Rows,
  blocks: readonly TableBlock[],
  options: { readonly wish: TableWish; readonly conversion: Conversion },
): { strips: StripSeries[]; questions: TableQuestion[]; findings: Finding[] } {
  const reader: Reader = { rows, ...options, strips: new Map(), unknownDirections: new Map(), leftOut: [] };
  const seen = new Map<string, number>();
  let before = NO_TAGS;
  for (const block of blocks) {
    before = strandOf(block.context, before);
    const key = JSON.stringify(before);
    const ordinal = (seen.get(key) ?? 0) + 1;
    seen.set(key, ordinal);
    const strands = block.header.groups.map((group): Strand => {
      const now = { ...joinTags(group.tags, before), stripWidthMm: null };
      return { group, autoLabel: `#${ordinal}.${group.ordinal}`, now };
    });
    checkIdleRows(reader, block.header.groups, block.rows);
    for (const strand of strands) readStrand(reader, strand, block.rows);
    for (const { group } of strands) checkSigns(reader, block, group);
  }
  const first = reader.leftOut[0];
  const findings: Finding[] =
    first === undefined
      ? []
      : [{ code: 'table/rows-left-out', facts: { ...first, count: reader.leftOut.length } }];
  return { strips: [...reader.strips.values()], questions: [...reader.unknownDirections.values()], findings };
}

/** The readings of one group of columns, row by row. */
function readStrand(reader: Reader, strand: Strand, rows: readonly number[]): void {
  const { group, now } = strand;
  let strip: Gathered | null = null;
  for (const r of rows) {
    const { specimen, direction } = now;
    readNames(reader, strand, r);
    const cells = reader.rows[r]!;
    if (textAt(cells, group.extension) === '' && textAt(cells, group.force) === '') continue;
    if (strip === null || now.specimen !== specimen || now.direction !== direction)
      strip = stripFor(reader, strand);
    now.stripWidthMm = stripWidthAt(reader, group, r) ?? strip.stripWidthMm ?? reader.conversion.widthMm;
    const reading = readReading(reader, group, r, now);
    if (reading === null) continue;
    strip.stripWidthMm ??= now.stripWidthMm;
    strip.rows.push(reading);
  }
}

/** A row that says nothing of any strip, yet something, is refused for its first empty cell. */
function checkIdleRows(reader: Reader, groups: readonly ColumnGroup[], rows: readonly number[]): void {
  const idle = rows.find((r) => {
    const cells = reader.rows[r]!;
    return groups.every(
      ({ extension, force }) => textAt(cells, extension) === '' && textAt(cells, force) === '',
    );
  });
  if (idle !== undefined)
    readReading(reader, groups[0]!, idle, { cycle: null, branch: null, stripWidthMm: null });
}

/** What the columns of names say in a row; an empty cell repeats the one above. */
function readNames(reader: Reader, { group, now }: Strand, r: number): void {
  const cells = reader.rows[r]!;
  if (group.specimen !== null) now.specimen = textAt(cells, group.specimen) || now.specimen;
  if (group.cycle !== null) now.cycle = readCycle(reader, group.cycle, r) ?? now.cycle;
  if (group.direction !== null) now.direction = readDirection(reader, group.direction, r) ?? now.direction;
  if (group.branch !== null)
    now.branch = readBranch(group.branch, r, textAt(cells, group.branch)) ?? now.branch;
}

function readCycle({ rows, conversion }: Reader, column: ReadColumn, r: number): number | null {
  const text = textAt(rows[r]!, column);
  if (text === '') return null;
  const number = readNumber(text, conversion.mark);
  const digits = /^\D*(\d{1,6})\D*$/.exec(text)?.[1];
  const cycle = typeof number === 'number' ? number : Number(digits ?? NaN);
  if (Number.isInteger(cycle) && cycle >= 0 && cycle <= 1e6) return cycle;
  throw new Fault('table/not-a-cycle', cellAt(column, r, text));
}

function readDirection(reader: Reader, column: ReadColumn, r: number): Direction | null {
  const text = textAt(reader.rows[r]!, column);
  if (text === '') return null;
  const { directions = {} } = reader.wish;
  const wished = Object.hasOwn(directions, text) ? directions[text] : undefined;
  const found = wished ?? directionIn(plainWords(text));
  if (found === null && !reader.unknownDirections.has(text)) {
    const { row, header } = cellAt(column, r, text);
    reader.unknownDirections.set(text, { asks: 'direction', text, row, column: column.column, header });
  }
  return found;
}

function readBranch(column: ReadColumn, r: number, text: string): Branch | null {
  if (text === '') return null;
  const branch = branchIn(plainWords(text));
  if (branch === null) throw new Fault('table/not-a-branch', cellAt(column, r, text));
  return branch;
}

function stripFor({ strips }: Reader, { group, autoLabel, now }: Strand): Gathered {
  const { specimen, direction } = now;
  const beside = group.ordinal > 1 && specimen !== null ? ` (${group.ordinal})` : '';
  const name = specimen === null ? null : `${specimen}${beside}`;
  const key = JSON.stringify([direction, name ?? null, name === null ? autoLabel : '']);
  let strip = strips.get(key);
  if (strip === undefined) {
    strip = { direction, name, stripWidthMm: null, rows: [] };
    strips.set(key, strip);
  }
  return strip;
}

/** Share of the greatest value that noise and drift may reach below nothing. Common practice. */
const BELOW_NOTHING = 0.05;

/** Forces and extensions may dip below nothing by noise, not by sign. */
function checkSigns({ rows, conversion }: Reader, { rows: own }: TableBlock, group: ColumnGroup): void {
  for (const column of [group.extension, group.force]) {
    const offset = column.unit === 'stretch ratio' ? 1 : 0;
    const valueAt = (r: number): number => {
      const value = readNumber(textAt(rows[r]!, column), conversion.mark);
      return typeof value === 'number' ? value - offset : 0;
    };
    const isSigned = (r: number): boolean => /^[-−]/.test(textAt(rows[r]!, column));
    if (offset === 0 && !own.some(isSigned)) continue;
    const most = own.reduce((so, r) => Math.max(so, Math.abs(valueAt(r))), 0);
    const below = own.find((r) => valueAt(r) < -BELOW_NOTHING * most);
    if (below !== undefined) {
      const cell = cellAt(column, below, textAt(rows[below]!, column));
      throw new Fault('table/negative', { ...cell, what: column.meaning });
    }
  }
}
