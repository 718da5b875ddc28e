import { Fault } from '../fault/fault.ts';
import type { Finding } from '../fault/finding.ts';
import { cutTable } from './delimited-text.ts';
import { findDecimalMark } from './table-number.ts';
import type { MarkWitness } from './table-number.ts';
import { findBlocks } from './tensile-blocks.ts';
import type { TableBlocks } from './tensile-blocks.ts';
import { namedValues } from './tensile-context.ts';
import { curvesOf } from './tensile-curves.ts';
import { checkWish, openQuestions } from './tensile-questions.ts';
import type { KnownLengths } from './tensile-questions.ts';
import { requireEvenRows } from './tensile-rows.ts';
import { readStrips } from './tensile-strips.ts';
import type { NamedValues, TableColumn, TableQuestion, TableWish, TensileTable } from './tensile-table.ts';
import { widthsThatStay } from './tensile-widths.ts';

/**
 * Reads the table that a tensile tester exports: comma, semicolon, tab or spaces; decimal points or commas; lines above
 * the table; units in brackets, behind the name or in a row of their own; strips in a column, side by side or under one
 * another; cycles in a column, in lines between blocks, or to be told by the reversals of the extension.
 *
 * What the file leaves open comes back as questions, which a second reading with a fuller wish answers; nothing is
 * guessed. Curves are in per cent, N on the whole width and mm; forces of a loop are of both legs.
 *
 * @param text - The decoded file.
 * @throws {Fault} the `table/` faults, each naming row and column from 1, or the whole file.
 */
export function readTensileTable(text: string, wish: TableWish = {}): TensileTable {
  const { separator, rows } = cutTable(text, wish.separator);
  const found = findDecimalMark(rows);
  const mark = wish.decimalMark ?? found.mark;
  const cut = findBlocks(rows, wish);
  const columnCount = cut.headers.reduce((most, { columns }) => Math.max(most, columns.length), 0);
  if (cut.headers.length === 0 || (cut.blocks.length === 0 && !cut.headers.some(asksForColumns)))
    throw new Fault('table/no-numbers', { rowCount: rows.length });
  checkWish(wish, columnCount);
  requireEvenRows(rows, cut.blocks, separator);
  const { blocks, findings: stays } = widthsThatStay(rows, cut, { mark, wish });
  const context = cut.blocks.flatMap((block) => block.context);
  const { named, unitless } = namedValues(context, mark);
  const known = knownLengths(named, wish);
  const findings: Finding[] = [
    ...unitless.map((facts): Finding => ({ code: 'table/value-without-unit', facts })),
    ...stays,
    ...passedOver(rows, cut),
  ];
  const unsure = wish.decimalMark === undefined ? markQuestion(found.unsure, cut) : [];
  const questions = [...unsure, ...openQuestions(rows, blocks, { mark, known })];
  const table = { separator, decimalMark: mark, rowCount: rows.length, columns: distinctColumns(blocks) };
  const base = { ...table, named, test: known.test };
  if (questions.length > 0) return withoutCurves(base, questions, findings);

  const isLoop = known.test === 'loop';
  const lengthMm = (isLoop ? half(known.circumferenceMm) : known.gaugeMm) ?? NaN;
  const conversion = { mark, lengthMm, widthMm: known.widthMm };
  const strips = readStrips(rows, blocks.blocks, { wish, conversion });
  if (strips.questions.length > 0) return withoutCurves(base, strips.questions, findings);
  if (strips.strips.length === 0) throw new Fault('table/no-numbers', { rowCount: rows.length });
  const { curves, defaultCycle, findings: cycleFindings } = curvesOf(strips.strips);
  return {
    ...base,
    questions: [],
    curves,
    defaultCycle,
    findings: [...findings, ...strips.findings, ...cycleFindings],
  };
}

const half = (value: number | null): number | null => (value === null ? null : value / 2);

const asksForColumns = ({ questions }: TableBlocks['headers'][number]): boolean => questions.length > 0;

type Base = Pick<TensileTable, 'separator' | 'decimalMark' | 'rowCount' | 'columns' | 'named' | 'test'>;

const withoutCurves = (
  base: Base,
  questions: readonly TableQuestion[],
  findings: readonly Finding[],
): TensileTable => ({ ...base, questions, curves: [], defaultCycle: null, findings });

/** The wish first, then the file; a file that names a circumference and no gauge is of a loop. */
function knownLengths(named: NamedValues, wish: TableWish): KnownLengths {
  const length = (key: 'gaugeMm' | 'circumferenceMm' | 'widthMm'): number | null =>
    wish[key] ?? named[key]?.value ?? null;
  const looks = named.circumferenceMm !== null && named.gaugeMm === null ? 'loop' : 'strip';
  return {
    test: wish.test ?? named.test?.value ?? looks,
    gaugeMm: length('gaugeMm'),
    circumferenceMm: length('circumferenceMm'),
    widthMm: length('widthMm'),
  };
}

function markQuestion(unsure: MarkWitness | null, { blocks, headers }: TableBlocks): TableQuestion[] {
  if (unsure === null) return [];
  const { row, column, value } = unsure;
  const header = blocks.find((block) => block.rows.includes(row))?.header ?? headers[0]!;
  const name = header.columns[column]?.header ?? '';
  return [{ asks: 'decimalMark', row: row + 1, column: column + 1, header: name, value }];
}

function passedOver(rows: readonly (readonly string[])[], cut: TableBlocks): Finding[] {
  const filled = cut.passedOver.filter((r) => rows[r]!.some((cell) => cell !== ''));
  const [first] = filled;
  if (first === undefined) return [];
  const value = rows[first]!.find((cell) => cell !== '')!.slice(0, 40);
  return [{ code: 'table/rows-passed-over', facts: { row: first + 1, count: filled.length, value } }];
}

/** Columns of the first header and of every other that reads otherwise. */
function distinctColumns({ headers }: TableBlocks): TableColumn[] {
  const seen = new Set<string>();
  return headers.flatMap(({ columns }) => {
    const key = JSON.stringify(columns.map(({ header, meaning, unit }) => [header, meaning, unit]));
    if (seen.has(key)) return [];
    seen.add(key);
    return columns.map(({ column, headerRow, header, meaning, unit, from }): TableColumn => ({
      column,
      headerRow,
      header,
      meaning,
      unit,
      from,
    }));
  });
}
