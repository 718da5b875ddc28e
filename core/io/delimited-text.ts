import { Fault } from '../fault/fault.ts';
import { looksLikeNumber } from './table-number.ts';

/** What stands between two cells; `spaces` is two or more of them, between bare numbers one is enough. */
export type Separator = 'tab' | 'semicolon' | 'comma' | 'spaces';

/** The most a table may hold: an hour of a tester at 100 readings a second, and little enough to stay in memory. */
export const TABLE_LIMITS = { characters: 32 * 2 ** 20, rows: 400_000, columns: 1000 } as const;

/** A text cut into rows and cells. */
export interface DelimitedText {
  readonly separator: Separator;
  /** One per row of the file, empty rows included; cells trimmed. */
  readonly rows: readonly (readonly string[])[];
}

const SIGNS: Readonly<Record<Separator, string>> = { tab: '\t', semicolon: ';', comma: ',', spaces: ' ' };
/** In the order in which equals are preferred. */
const SEPARATORS = ['tab', 'semicolon', 'comma', 'spaces'] as const;
/** So much of the text decides which separator it is. */
const SAMPLE = 60_000;

/**
 * Cuts a table's text into cells. A byte order mark, all three line ends, quoted cells (a quote in them doubled, line
 * breaks kept as spaces) and a first line `sep=;` are understood.
 *
 * @param wished - Used as it is; left out, the separator is the one that leaves most numbers standing.
 * @throws {Fault} `table/too-large`, `table/not-text`, `table/open-quote`, `table/stray-after-quote`.
 * @see RFC 4180 for quoting.
 */
export function cutTable(text: string, wished: Separator | undefined): DelimitedText {
  requireWithin('characters', text.length);
  const body = text.startsWith('\uFEFF') ? text.slice(1) : text;
  requireText(body);
  const hint = /^sep=([;,\t])(?=\r|\n)/i.exec(body)?.[1];
  const hinted = SEPARATORS.find((separator) => SIGNS[separator] === hint);
  const separator = wished ?? hinted ?? recognise(body);
  const rows = cut(hinted === undefined ? body : body.slice(5), separator, false);
  return { separator, rows };
}

/** @throws {Fault} `table/too-large`. */
function requireWithin(what: keyof typeof TABLE_LIMITS, found: number): void {
  const limit = TABLE_LIMITS[what];
  if (found > limit) throw new Fault('table/too-large', { what, found, limit });
}

/** A table holds no control characters; a picture or a spreadsheet's own file holds many. */
function requireText(text: string): void {
  // eslint-disable-next-line no-control-regex -- exactly these are looked for
  const at = text.search(/[\u0000-\u0008\u000e-\u001f]/);
  if (at < 0) return;
  const before = text.slice(0, at).split(/\r\n|\r|\n/);
  const code = text.charCodeAt(at).toString(16).toUpperCase().padStart(4, '0');
  throw new Fault('table/not-text', {
    row: before.length,
    column: before.at(-1)!.length + 1,
    character: `U+${code}`,
  });
}

/** The separator under which the rows of a sample hold most numbers for their cells. */
function recognise(text: string): Separator {
  const sample = text.slice(0, SAMPLE);
  const scores = SEPARATORS.map((separator) => {
    // The last row of a sample may be cut.
    const rows = cut(sample, separator, true).slice(0, text.length > SAMPLE ? -1 : undefined);
    return rows.reduce((sum, row) => sum + shareOfNumbers(row), 0);
  });
  return SEPARATORS[scores.indexOf(Math.max(...scores))]!;
}

function shareOfNumbers(row: readonly string[]): number {
  const filled = row.filter((cell) => cell !== '');
  const numbers = filled.filter(looksLikeNumber).length;
  return numbers < 2 ? 0 : (numbers / filled.length) ** 2;
}

/** @param lenient - For a sample: takes quotes as they come. */
function cut(text: string, separator: Separator, lenient: boolean): string[][] {
  const sign = SIGNS[separator];
  const rows = text.includes('"')
    ? cutQuoted(text, sign, lenient)
    : text.split(/\r\n|\n|\r/).map((line) => line.split(sign));
  // What follows the last line end is no row.
  if (rows.length > 1 && rows.at(-1)!.join('').trim() === '') rows.pop();
  if (!lenient) requireWithin('rows', rows.length);
  for (const [r, row] of rows.entries()) {
    if (separator === 'spaces') rows[r] = joinWords(row);
    else for (let c = 0; c < row.length; c++) row[c] = row[c]!.trim();
    if (!lenient) requireWithin('columns', rows[r]!.length);
  }
  return rows;
}

/** Cells of a row that was cut at every space: words one space apart belong together, unless all are numbers. */
function joinWords(words: readonly string[]): string[] {
  const filled = words.map((word) => word.trim()).filter((word) => word !== '');
  if (filled.every(looksLikeNumber)) return filled;
  return words
    .join(' ')
    .trim()
    .split(/\s{2,}|\t/);
}

/** As RFC 4180; a quote inside a bare cell is a character like any other (an inch). */
function cutQuoted(text: string, sign: string, lenient: boolean): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let at = 0;
  const bare = new RegExp(`[^${sign}\\r\\n]*`, 'y');
  for (;;) {
    const place = { row: rows.length + 1, column: row.length + 1 };
    const quote = openingQuote(text, at, sign);
    const { cell, end } =
      quote === null
        ? bareCell(text, at, bare)
        : quotedCell(text, quote, { bare, place: lenient ? null : place });
    row.push(cell);
    at = end;
    if (at < text.length && text[at] === sign) {
      at++;
      continue;
    }
    rows.push(row);
    row = [];
    if (at >= text.length) return rows;
    at += text.startsWith('\r\n', at) ? 2 : 1;
  }
}

interface CutCell {
  readonly cell: string;
  /** Where the separator or line end behind it stands. */
  readonly end: number;
}

function bareCell(text: string, at: number, bare: RegExp): CutCell {
  bare.lastIndex = at;
  const cell = bare.exec(text)![0];
  return { cell, end: at + cell.length };
}

/** @param how - `place` is where faults are told for; null takes quotes as they come. */
function quotedCell(
  text: string,
  quote: number,
  how: { readonly bare: RegExp; readonly place: { row: number; column: number } | null },
): CutCell {
  const close = closingQuote(text, quote);
  if (close === null && how.place !== null) throw new Fault('table/open-quote', how.place);
  if (close === null) return { cell: text.slice(quote + 1), end: text.length };
  const { cell: rest, end } = bareCell(text, close + 1, how.bare);
  if (rest.trim() !== '' && how.place !== null)
    throw new Fault('table/stray-after-quote', { ...how.place, value: rest.trim().slice(0, 40) });
  const cell = text
    .slice(quote + 1, close)
    .replaceAll('""', '"')
    .replaceAll(/[\r\n]+/g, ' ');
  return { cell, end };
}

/** Index of a quote that opens the cell at `at`, spaces before it passed over; null for a bare cell. */
function openingQuote(text: string, at: number, sign: string): number | null {
  let start = at;
  if (sign !== ' ') while (text[start] === ' ') start++;
  return text[start] === '"' ? start : null;
}

/** Longest text that one quoted cell may hold, and most lines: beyond, the closing quote was forgotten. */
const LONGEST_CELL = 2000;
const MOST_LINES = 8;

function closingQuote(text: string, open: number): number | null {
  let at = open + 1;
  for (;;) {
    const quote = text.indexOf('"', at);
    if (quote < 0 || quote - open > LONGEST_CELL) return null;
    if (text[quote + 1] === '"') at = quote + 2;
    else return text.slice(open, quote).split(/\r\n|\n|\r/).length > MOST_LINES ? null : quote;
  }
}
