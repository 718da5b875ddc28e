import { Fault } from '../fault/fault.ts';
import type { TableBlocks } from './tensile-blocks.ts';
import type { ReadColumn } from './tensile-columns.ts';
import type { ColumnGroup } from './tensile-groups.ts';
import { plainWords } from './tensile-names.ts';
import { readNumber } from './table-number.ts';
import type { DecimalMark } from './table-number.ts';
import type { TableQuestion, TableWish } from './tensile-table.ts';
import { isLength, isPerWidth, isShare, unitsFor } from './tensile-units.ts';
import type { TableUnit } from './tensile-units.ts';

/** The lengths that are known of a test, mm. */
export interface KnownLengths {
  readonly test: 'strip' | 'loop';
  readonly gaugeMm: number | null;
  readonly circumferenceMm: number | null;
  readonly widthMm: number | null;
}

/** Columns of a group that stand in a unit. */
const measuredIn = ({ extension, force, width, stripWidth }: ColumnGroup): ReadColumn[] =>
  [extension, force, width, stripWidth].filter((column) => column !== null);

/** Every unit and length that the columns need and nobody gave. */
export function openQuestions(
  rows: readonly (readonly string[])[],
  { headers, blocks }: TableBlocks,
  options: { readonly mark: DecimalMark; readonly known: KnownLengths },
): TableQuestion[] {
  const { known, mark } = options;
  const questions = new Map<string, TableQuestion>();
  for (const header of headers) {
    for (const question of header.questions) questions.set(JSON.stringify(question), question);
    const own = blocks.filter((block) => block.header === header);
    for (const group of header.groups) {
      for (const column of measuredIn(group)) {
        const { meaning } = column;
        if (column.unit !== null) continue;
        const most = own.reduce(
          (so, block) => Math.max(so, greatestIn(rows, block.rows, { column: column.column, mark })),
          0,
        );
        const likely = likelyUnit(column, most);
        const choices = unitsFor(meaning);
        const { column: number, header } = column;
        const asked: TableQuestion = { asks: 'unit', column: number, header, meaning, choices, likely };
        questions.set(`unit ${number}`, asked);
      }
      for (const question of lengthQuestions(group, known)) questions.set(question.asks, question);
    }
  }
  return [...questions.values()];
}

function greatestIn(
  rows: readonly (readonly string[])[],
  block: readonly number[],
  { column, mark }: { readonly column: number; readonly mark: DecimalMark },
): number {
  let most = 0;
  for (const r of block) {
    const value = readNumber(rows[r]![column - 1] ?? '', mark);
    if (typeof value === 'number') most = Math.max(most, Math.abs(value));
  }
  return most;
}

function lengthQuestions(group: ColumnGroup, known: KnownLengths): TableQuestion[] {
  const { extension, stripWidth } = group;
  const questions: TableQuestion[] = [];
  const length = known.test === 'strip' ? 'gaugeMm' : 'circumferenceMm';
  if (stands(extension, isLength) && known[length] === null) questions.push(asking(length, extension));
  if (known.widthMm !== null || stripWidth !== null) return questions;
  const perWidth = [group.force].find((column) => stands(column, isPerWidth));
  const share = [group.width].find((column) => column !== null && stands(column, isShare));
  const needing = perWidth ?? share ?? null;
  return needing === null ? questions : [...questions, asking('widthMm', needing)];
}

const stands = ({ unit }: ReadColumn, test: (unit: TableUnit) => boolean): boolean =>
  unit !== null && test(unit);

const asking = (
  asks: 'gaugeMm' | 'circumferenceMm' | 'widthMm',
  { column, header, unit }: ReadColumn,
): TableQuestion => ({ asks, column, header, unit: unit! });

/**
 * What name and size of the numbers suggest: a proposal, never used without the user's word.
 *
 * @param most - The greatest number in the column.
 */
function likelyUnit({ meaning, header }: ReadColumn, most: number): TableUnit | null {
  if (meaning === 'force') return likelyForce(most);
  if (meaning === 'extension') {
    const isTravel = /weg|travel|position|displac|crosshead|stroke|spost|desplaz|desloc|depla/;
    if (isTravel.test(plainWords(header))) return 'mm';
    return most > 3 ? '%' : 'ratio';
  }
  if (most > 1.5) return 'mm';
  return meaning === 'width' ? 'ratio' : null;
}

/** Stretch fabrics pull 0.5 to 15 N on a strip of 50 mm at 40 % (common practice); a few times that at the end. */
function likelyForce(most: number): TableUnit | null {
  if (most < 0.5 || most > 6000) return null;
  return most <= 60 ? 'N' : 'cN';
}

/**
 * Checks a wish's columns and lengths.
 *
 * @throws {Fault} `table/no-such-column`, `table/length-unfit`.
 */
export function checkWish(wish: TableWish, columnCount: number): void {
  for (const { column } of wish.columns ?? []) {
    if (!Number.isInteger(column) || column < 1 || column > columnCount)
      throw new Fault('table/no-such-column', { column, columnCount });
  }
  for (const what of ['gaugeMm', 'circumferenceMm', 'widthMm'] as const) {
    const valueMm = wish[what];
    if (valueMm !== undefined && !(valueMm > 0 && Number.isFinite(valueMm)))
      throw new Fault('table/length-unfit', { what, valueMm });
  }
}
