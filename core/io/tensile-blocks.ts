import { looksLikeNumber } from './table-number.ts';
import type { ContextRow } from './tensile-context.ts';
import { readContextRow } from './tensile-context.ts';
import { isUnitRow, readColumns, tagsIn } from './tensile-columns.ts';
import type { ReadColumn, Tags } from './tensile-columns.ts';
import { groupColumns } from './tensile-groups.ts';
import type { ColumnGroup } from './tensile-groups.ts';
import { isStatistic, plainWords } from './tensile-names.ts';
import type { TableQuestion, TableWish } from './tensile-table.ts';

/** A row of column names and what hangs on it. */
export interface TableHeader {
  readonly columns: readonly ReadColumn[];
  readonly groups: readonly ColumnGroup[];
  readonly questions: readonly TableQuestion[];
}

/** Rows of readings under one header and one set of context lines; row indices count from 0. */
export interface TableBlock {
  readonly header: TableHeader;
  /** Lines above it and below the block before. */
  readonly context: readonly ContextRow[];
  readonly rows: readonly number[];
}

/** A table cut into blocks. */
export interface TableBlocks {
  readonly headers: readonly TableHeader[];
  readonly blocks: readonly TableBlock[];
  /** Lines under the readings that are none; indices from 0. */
  readonly passedOver: readonly number[];
}

type Rows = readonly (readonly string[])[];

/** A header row before its columns are read. */
interface HeaderPlace {
  /** Row of the names; null for a table without header. */
  readonly at: number | null;
  /** Row of the titles over them, or none. */
  readonly titles: number | null;
  readonly units: number | null;
  readonly dataFrom: number;
}

/**
 * Finds the blocks of a table: headers by the names in them, one or several under one another, each with titles above
 * and units below, and the lines between them that say which strip it is.
 *
 * A row that is neither reading nor known line stays in its block, so that the reading of its numbers refuses it; only
 * after an empty or a known line may unknown lines stand.
 */
export function findBlocks(rows: Rows, wish: TableWish): TableBlocks {
  const places = findHeaders(rows);
  const state: Walk = { rows, blocks: [], passedOver: [], context: [] };
  const headers: TableHeader[] = [];
  let from = 0;
  for (const [i, place] of places.entries()) {
    const before = place.titles ?? place.at ?? place.dataFrom;
    if (i === 0) state.context.push(...contextRows(rows, from, before));
    const header = readHeaderAt(rows, place, wish);
    headers.push(header);
    const next = places[i + 1];
    from = next === undefined ? rows.length : (next.titles ?? next.at!);
    walkBlock(state, header, { from: place.dataFrom, to: from });
  }
  // Context with nothing under it is no context.
  return { headers, blocks: state.blocks, passedOver: state.passedOver };
}

interface Walk {
  readonly rows: Rows;
  readonly blocks: TableBlock[];
  readonly passedOver: number[];
  /** Gathered for the next block. */
  context: ContextRow[];
}

function contextRows(rows: Rows, from: number, to: number): ContextRow[] {
  const found: ContextRow[] = [];
  for (let r = from; r < to; r++) found.push(readContextRow(rows[r]!, r));
  return found;
}

/** Rows of one header's territory into blocks; lines in gaps become the context of what follows. */
function walkBlock(walk: Walk, header: TableHeader, span: { from: number; to: number }): void {
  const { rows } = walk;
  const labels = labelColumns(header);
  let current: number[] = [];
  let gap: number[] = [];
  let inGap = false;
  const close = (): void => {
    if (current.length > 0) walk.blocks.push({ header, context: walk.context, rows: current });
    if (current.length > 0) walk.context = [];
    current = [];
  };
  const endGap = (): void => {
    const context = gap.map((r) => readContextRow(rows[r]!, r));
    // A gap of empty rows does not end a block; a line that names a strip does.
    if (context.some((line) => line.says)) close();
    else walk.passedOver.push(...gap);
    walk.context.push(...(context.some((line) => line.says) ? context : []));
    gap = [];
    inGap = false;
  };
  for (let r = span.from; r < span.to; r++) {
    const cells = rows[r]!;
    if (isEmptyRow(cells)) inGap = true;
    else if (isReading(cells, header.groups)) {
      if (inGap) endGap();
      current.push(r);
    } else if (inGap ? !startsWithNumber(cells) : isKnownLine(cells, r, labels)) {
      gap.push(r);
      inGap = true;
    } else {
      if (inGap) endGap();
      current.push(r);
    }
  }
  close();
  const left = gap.map((r) => readContextRow(rows[r]!, r));
  if (span.to < rows.length) walk.context.push(...left);
  else walk.passedOver.push(...gap);
}

/** Some group has numbers, or what should be numbers, in both of its columns. */
function isReading(cells: readonly string[], groups: readonly ColumnGroup[]): boolean {
  return groups.some(
    ({ extension, force }) =>
      looksLikeNumber(cells[extension.column - 1] ?? '') && looksLikeNumber(cells[force.column - 1] ?? ''),
  );
}

/** Columns whose cells name a strip in every row, so that a name there starts no new block. */
function labelColumns({ columns }: TableHeader): ReadonlySet<number> {
  const labels = columns.filter(({ meaning }) =>
    ['specimen', 'direction', 'cycle', 'branch'].includes(meaning),
  );
  return new Set(labels.map(({ column }) => column - 1));
}

const startsWithNumber = (cells: readonly string[]): boolean =>
  looksLikeNumber(cells.find((cell) => cell !== '') ?? '');

/** A line that names a strip, a unit row, a statistic; not one whose name stands in a column of names. */
function isKnownLine(cells: readonly string[], row: number, labels: ReadonlySet<number>): boolean {
  const first = cells.findIndex((cell) => cell !== '');
  if (isStatistic(plainWords(cells[first]!)) || isUnitRow(cells)) return true;
  return !labels.has(first) && !looksLikeNumber(cells[first]!) && readContextRow(cells, row).says;
}

/** Every header row; where no name is known, the row over the first numbers. */
function findHeaders(rows: Rows): HeaderPlace[] {
  const places: HeaderPlace[] = [];
  for (let r = 0; r < rows.length; r++) {
    if (isHeader(rows, r)) {
      const place = placeOf(rows, r, places.at(-1)?.dataFrom ?? 0);
      places.push(place);
      r = place.dataFrom - 1;
    }
  }
  return places.length > 0 ? places : headerOverNumbers(rows);
}

/** The row over the first numbers, if it could hold names; a table without header starts with its numbers. */
function headerOverNumbers(rows: Rows): HeaderPlace[] {
  const data = rows.findIndex(isMostlyNumbers);
  if (data < 0) return [];
  let above = data - 1;
  while (above >= 0 && isEmptyRow(rows[above]!)) above--;
  if (above > 0 && isUnitRow(rows[above]!)) above--;
  const names = rows[above]?.filter((cell) => cell !== '') ?? [];
  const isNames = names.length > 1 && !names.some(looksLikeNumber);
  return [isNames ? placeOf(rows, above, 0) : { at: null, titles: null, units: null, dataFrom: data }];
}

const isEmptyRow = (cells: readonly string[]): boolean => cells.every((cell) => cell === '');

const isMostlyNumbers = (cells: readonly string[]): boolean => {
  const filled = cells.filter((cell) => cell !== '');
  const numbers = filled.filter(looksLikeNumber).length;
  return numbers > 1 && numbers * 2 >= filled.length;
};

/** Names of an extension and a force, or one of them beside another known name over numbers. */
function isHeader(rows: Rows, r: number): boolean {
  const filled = rows[r]!.filter((cell) => cell !== '');
  // Readings are told by their first cells, without a look at the rest.
  if (filled.length < 2 || looksLikeNumber(filled[0]!)) return false;
  if (filled.some((cell) => looksLikeNumber(cell) || cell.length > 80)) return false;
  const columns = readColumns({ headers: rows[r]!, units: [], headerRow: null, wish: {} });
  const meanings = new Set(columns.map(({ meaning }) => meaning));
  meanings.delete('ignored');
  if (meanings.has('extension') && meanings.has('force')) return true;
  const below = rows[r + 1] === undefined || !isUnitRow(rows[r + 1]!) ? r + 1 : r + 2;
  const isOverNumbers = rows[below] !== undefined && isMostlyNumbers(rows[below]);
  return meanings.size > 1 && (meanings.has('extension') || meanings.has('force')) && isOverNumbers;
}

function placeOf(rows: Rows, at: number, least: number): HeaderPlace {
  const units = rows[at + 1] !== undefined && isUnitRow(rows[at + 1]!) ? at + 1 : null;
  const hasTitles = at > least && areTitles(rows[at - 1]!);
  return { at, titles: hasTitles ? at - 1 : null, units, dataFrom: (units ?? at) + 1 };
}

/** At least two cells that each name a strip: "Specimen 1;;;Specimen 2". */
function areTitles(cells: readonly string[]): boolean {
  const filled = cells.filter((cell) => cell !== '').map(plainWords);
  const tags = filled.map(tagsIn);
  return filled.length > 1 && tags.every(saysSomething) && !filled.some((cell) => cell.includes(':'));
}

const saysSomething = ({ direction, specimen, cycle, branch }: Tags): boolean =>
  direction !== null || specimen !== null || cycle !== null || branch !== null;

function readHeaderAt(rows: Rows, place: HeaderPlace, wish: TableWish): TableHeader {
  const first = rows[place.dataFrom] ?? [];
  const names = place.at === null ? first.map(() => '') : rows[place.at]!;
  const units = place.units === null ? [] : rows[place.units]!;
  const headers = units.length > names.length ? units.map((_, i) => names[i] ?? '') : names;
  const columns = readColumns({
    headers,
    units,
    headerRow: place.at === null ? null : place.at + 1,
    wish,
  });
  const titles = place.titles === null ? [] : titleTags(rows[place.titles]!, headers.length);
  const numeric = new Set(first.flatMap((cell, i) => (looksLikeNumber(cell) ? [i + 1] : [])));
  return { columns, ...groupColumns({ columns, titles, numeric }) };
}

/** The tags of each column's title; a title reaches to the next one. */
function titleTags(cells: readonly string[], columnCount: number): Tags[] {
  const tags: Tags[] = [];
  let last = tagsIn('');
  for (let c = 0; c < columnCount; c++) {
    const cell = cells[c] ?? '';
    if (cell !== '') last = tagsIn(plainWords(cell));
    tags.push(last);
  }
  return tags;
}
