/** What stands before the decimals. */
export type DecimalMark = 'comma' | 'point';

/** Why a cell is no number. */
export type NumberProblem = 'empty' | 'text' | 'not finite' | 'thousands' | 'other mark';

const PLAIN = {
  point: /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i,
  comma: /^[+-]?(\d+,?\d*|,\d+)(e[+-]?\d+)?$/i,
};
/** Groups of three behind one and the same mark: a point, comma, apostrophe or kind of space; decimals may follow. */
const GROUPED = /^[+-]?\d{1,3}(?:([.,'’ \u00a0\u202f])\d{3}(?:\1\d{3})*)(?:([.,])\d+)?$/;
const NUMBER_LIKE = /^[+-]?(\d[\d.,]*|[.,]\d+)(e[+-]?\d+)?$/i;
const NOT_FINITE = /^[+-]?(nan|inf|infinity|∞|1\.#\w+)$/i;
const NOTHING = /^(-+|–|—|n\.?\/?a\.?|#n\/a|#nv|null|none|\?+)$/i;

const withPlainMinus = (text: string): string => (text.includes('−') ? text.replaceAll('−', '-') : text);

/** Whether a cell was meant as a number, in whatever dialect; NaN and infinity count. */
export function looksLikeNumber(text: string): boolean {
  const first = text.charCodeAt(0);
  // Most cells of a large file are plain digits; the rest takes the longer way.
  if (first >= 48 && first <= 57 && NUMBER_LIKE.test(text)) return true;
  const plain = withPlainMinus(text);
  return NUMBER_LIKE.test(plain) || GROUPED.test(plain) || NOT_FINITE.test(plain);
}

/**
 * The number that a cell holds, or why it is none.
 *
 * Thousands may be grouped by spaces, apostrophes or the other mark where that reads one way only ("1.234,5"); a single
 * group behind the other mark ("1.234" in a file of decimal commas) reads two ways and is a problem.
 *
 * @param text - Trimmed.
 */
export function readNumber(text: string, mark: DecimalMark): number | NumberProblem {
  if (text === '' || NOTHING.test(text)) return 'empty';
  const plain = withPlainMinus(text);
  if (PLAIN[mark].test(plain)) {
    const value = Number(mark === 'comma' ? plain.replace(',', '.') : plain);
    return Number.isFinite(value) ? value : 'not finite';
  }
  if (NOT_FINITE.test(plain)) return 'not finite';
  return readGrouped(plain, mark);
}

function readGrouped(text: string, mark: DecimalMark): number | NumberProblem {
  const decimal = mark === 'comma' ? ',' : '.';
  const groups = GROUPED.exec(text);
  if (groups === null) return PLAIN[mark === 'comma' ? 'point' : 'comma'].test(text) ? 'other mark' : 'text';
  const [, group, before] = groups;
  const isMark = group === ',' || group === '.';
  if (group === decimal || (before !== undefined && before !== decimal)) return 'other mark';
  const groupCount = text.split(group!).length - 1;
  if (isMark && before === undefined && groupCount === 1) return 'thousands';
  return Number(text.replaceAll(group!, '').replace(',', '.'));
}

/** One cell that could be told either way. */
export interface MarkWitness {
  /** From 0. */
  readonly row: number;
  readonly column: number;
  readonly value: string;
}

/** Enough cells to be sure of a whole file. */
const ENOUGH = 1000;

/**
 * Which decimal mark the numbers of a table use, by majority of those that read one way only.
 *
 * "1,234" reads both ways; "0,234", "12,3", "1234,5" and "1.234,5" do not.
 *
 * @returns The mark, and the first cell that reads both ways where no other cell settles it.
 */
export function findDecimalMark(rows: readonly (readonly string[])[]): {
  readonly mark: DecimalMark;
  readonly unsure: MarkWitness | null;
} {
  const votes = { comma: 0, point: 0 };
  let unsure: MarkWitness | null = null;
  for (const [row, cells] of rows.entries()) {
    for (const [column, value] of cells.entries()) {
      const vote = voteOf(value);
      if (vote === 'both') unsure ??= { row, column, value };
      else if (vote !== null) votes[vote]++;
    }
    if (votes.comma + votes.point > ENOUGH) break;
  }
  const mark = votes.comma > votes.point ? 'comma' : 'point';
  return { mark, unsure: votes.comma + votes.point > 0 ? null : unsure };
}

function voteOf(text: string): DecimalMark | 'both' | null {
  if (!text.includes(',') && !text.includes('.')) return null;
  const number = withPlainMinus(text);
  const grouped = GROUPED.exec(number);
  if (grouped !== null) return voteOfGroups(number, grouped[1]!, grouped[2]);
  const point = PLAIN.point.test(number);
  return point === PLAIN.comma.test(number) ? null : point ? 'point' : 'comma';
}

/** @param group - The mark between groups of three; `before` that before the decimals, if there are any. */
function voteOfGroups(text: string, group: string, before: string | undefined): DecimalMark | 'both' | null {
  if (before !== undefined) return before === group ? null : markOf(before);
  if (group !== ',' && group !== '.') return null;
  if (text.split(group).length > 2) return markOf(group === ',' ? '.' : ',');
  return /^[+-]?0/.test(text) ? markOf(group) : 'both';
}

const markOf = (mark: string): DecimalMark => (mark === ',' ? 'comma' : 'point');
