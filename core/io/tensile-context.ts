import { NO_TAGS, readHeader, tagsIn } from './tensile-columns.ts';
import type { Tags } from './tensile-columns.ts';
import { looksLikeNumber, readNumber } from './table-number.ts';
import type { DecimalMark } from './table-number.ts';
import { branchIn, contextKeyOf, directionIn, meaningOf, plainWords } from './tensile-names.ts';
import type { ContextKey } from './tensile-names.ts';
import { isLength, mmFrom, unitOf } from './tensile-units.ts';
import type { NamedValue, NamedValues } from './tensile-table.ts';

/** One "key;value" of a line outside the readings. */
export interface ContextEntry {
  readonly key: ContextKey;
  readonly keyText: string;
  readonly value: string;
  /** Of the value, in the cell behind it; empty without. */
  readonly unit: string;
  /** From 1. */
  readonly column: number;
}

/** A line outside the readings. */
export interface ContextRow {
  /** From 0. */
  readonly row: number;
  readonly entries: readonly ContextEntry[];
  /** Of a title such as "Warp, specimen 2". */
  readonly title: Tags;
  /** Whether it names a direction, specimen, cycle or branch. */
  readonly says: boolean;
}

const STRIP_KEYS: readonly ContextKey[] = ['direction', 'specimen', 'cycle', 'branch'];

/** What a line outside the readings says; understands "Key;Value;unit", "Key: value" and bare titles. */
export function readContextRow(cells: readonly string[], row: number): ContextRow {
  const entries: ContextEntry[] = [];
  let title: Tags = NO_TAGS;
  for (let c = 0; c < cells.length; c++) {
    const cell = cells[c]!.replace(/^#\s*/, '');
    if (cell === '' || looksLikeNumber(cell) || cell.length > LONGEST_LINE) continue;
    const entry = entryAt(cells, c, cell);
    const tags = tagsIn(plainWords(cell));
    if (entry !== null) {
      entries.push(entry);
      // The value in the next cell is no title.
      c = entry.column - 1;
    } else if (tags.specimen !== null || tags.cycle !== null || tags.direction !== null)
      title = mergeTags(title, tags);
  }
  const says =
    title !== NO_TAGS || entries.some((entry) => STRIP_KEYS.includes(entry.key) && isStripEntry(entry));
  return { row, entries, title, says };
}

/** Longer texts are remarks. */
const LONGEST_LINE = 120;

/** A known key in a cell, with its value behind a colon or in the next cell; null where there is no such thing. */
function entryAt(cells: readonly string[], c: number, cell: string): ContextEntry | null {
  const [, before, inside = ''] = /^([^:=]{1,60})\s*[:=]\s*(.*)$/.exec(cell) ?? [];
  const keyText = (before ?? cell).trim();
  const key = contextKeyOf(plainWords(keyText));
  if (key === null) return null;
  if (inside !== '') return { key, keyText, value: inside, unit: '', column: c + 1 };
  const value = cells[c + 1] ?? '';
  // Two names side by side are a header of results, not a name and its value.
  const isName = ['extension', 'force', 'width', 'stripWidth'].includes(meaningOf(plainWords(value)));
  if (value === '' || isName) return null;
  return { key, keyText, value, unit: cells[c + 2] ?? '', column: c + 2 };
}

const mergeTags = (first: Tags, second: Tags): Tags => ({
  direction: second.direction ?? first.direction,
  specimen: second.specimen ?? first.specimen,
  cycle: second.cycle ?? first.cycle,
  branch: second.branch ?? first.branch,
});

const isStripEntry = (entry: ContextEntry): boolean => {
  const tags = entryTags(entry);
  return tags.direction !== null || tags.specimen !== null || tags.cycle !== null || tags.branch !== null;
};

function entryTags({ key, value }: ContextEntry): Tags {
  const plain = plainWords(value);
  if (key === 'direction') return { ...NO_TAGS, direction: directionIn(plain) };
  if (key === 'specimen') return { ...NO_TAGS, specimen: value };
  if (key === 'cycle') {
    const digits = /^\D*(\d{1,6})\D*$/.exec(plain)?.[1];
    return { ...NO_TAGS, cycle: digits === undefined ? null : Number(digits) };
  }
  return key === 'branch' ? { ...NO_TAGS, branch: branchIn(plain) } : NO_TAGS;
}

/**
 * Which strip the lines over a block speak of, on top of what the block before it was.
 *
 * The direction lasts until another is named; a new direction or specimen forgets specimen and cycle, a new cycle
 * forgets the branch.
 */
export function strandOf(lines: readonly ContextRow[], before: Tags): Tags {
  let now = before;
  for (const line of lines) {
    for (const tags of [line.title, ...line.entries.map(entryTags)]) {
      if (tags.direction !== null && tags.direction !== now.direction)
        now = { ...NO_TAGS, direction: tags.direction };
      if (tags.specimen !== null && tags.specimen !== now.specimen)
        now = { ...NO_TAGS, direction: now.direction, specimen: tags.specimen };
      if (tags.cycle !== null) now = { ...now, cycle: tags.cycle, branch: null };
      if (tags.branch !== null) now = { ...now, branch: tags.branch };
    }
  }
  return now;
}

/** A named length whose unit is missing or is none. */
export interface Unitless {
  readonly row: number;
  readonly column: number;
  readonly key: string;
  readonly value: string;
}

/** Gauge, circumference, width, kind of test and date from the lines outside the readings; the first of each counts. */
export function namedValues(
  lines: readonly ContextRow[],
  mark: DecimalMark,
): { named: NamedValues; unitless: Unitless[] } {
  const unitless: Unitless[] = [];
  const at = lines.flatMap(({ row, entries }) => entries.map((entry) => ({ ...entry, row: row + 1 })));
  const length = (key: ContextKey): NamedValue<number> | null => {
    for (const entry of at) {
      if (entry.key !== key) continue;
      const { row, column, value, keyText } = entry;
      const mm = lengthMm(entry, mark);
      if (mm !== null) return { value: mm, row, column };
      if (looksLikeNumber(value)) unitless.push({ row, column, key: keyText, value });
    }
    return null;
  };
  const test = at.find(({ key, value }) => key === 'test' && testIn(value) !== null);
  const date = at.find(({ key }) => key === 'date');
  const named: NamedValues = {
    gaugeMm: length('gauge'),
    circumferenceMm: length('circumference'),
    widthMm: length('width'),
    test: test === undefined ? null : { value: testIn(test.value)!, row: test.row, column: test.column },
    date: date === undefined ? null : { value: date.value, row: date.row, column: date.column },
  };
  return { named, unitless };
}

function testIn(value: string): 'strip' | 'loop' | null {
  const plain = plainWords(value);
  if (/\bloop\b|schlinge|schlaufe|\bboucle\b|\blazo\b|\bansa\b|\bla[cç]o\b|d ?4964/.test(plain))
    return 'loop';
  return /\bstrips?\b|streifen|\bbande\b|\btira\b|\bstriscia\b/.test(plain) ? 'strip' : null;
}

/** "100 mm", "100" with its unit in the next cell or in the key; null without a positive length. */
function lengthMm(entry: ContextEntry, mark: DecimalMark): number | null {
  const parts = /^([^a-z"″]*\d)\s*(\D*)$/i.exec(entry.value);
  if (parts === null) return null;
  const number = parts[1]!.trim();
  // A line above the table may keep the other mark.
  const read = readNumber(number, mark);
  const value = read === 'other mark' ? readNumber(number, mark === 'comma' ? 'point' : 'comma') : read;
  const spelt = [parts[2]!, entry.unit].map((text) =>
    unitOf(plainWords(text).replaceAll(/^[[(]|[\])]$/g, '')),
  );
  const unit = spelt[0] ?? spelt[1] ?? readHeader(entry.keyText, '').unit;
  if (typeof value !== 'number' || unit === null || unit === undefined || !isLength(unit)) return null;
  const mm = mmFrom(value, unit);
  return mm > 0 && Number.isFinite(mm) ? mm : null;
}
