import { InvalidArgumentError, Option, type Command } from 'commander';

import type { Direction } from '../../core/fabric/fabric.ts';
import type { DecimalMark } from '../../core/io/table-number.ts';
import { unitsFor, type TableUnit } from '../../core/io/tensile-units.ts';
import type { ColumnMeaning, ColumnWish, TableQuestion, TableWish } from '../../core/io/tensile-table.ts';

/** What a command line says of a tester's table, as Commander hands it over. */
export interface TableOptions {
  readonly gaugeMm?: number;
  readonly widthMm?: number;
  readonly circumferenceMm?: number;
  readonly test?: 'strip' | 'loop';
  readonly column?: readonly ColumnWish[];
  readonly direction?: Readonly<Record<string, Direction>>;
  readonly decimalMark?: DecimalMark;
  readonly leaveOutMissing?: boolean;
}

const meanings: readonly ColumnMeaning[] = [
  'extension',
  'force',
  'width',
  'stripWidth',
  'cycle',
  'specimen',
  'direction',
  'branch',
  'time',
  'ignored',
];
const directions: readonly Direction[] = ['warp', 'weft', 'bias'];

/** The options that answer what a tester's table leaves open. */
export function addTableOptions(command: Command): Command {
  return command
    .option('--gauge-mm <mm>', 'table: gauge length of the strips', lengthMm)
    .option('--width-mm <mm>', 'table: width of the unstretched strips', lengthMm)
    .option('--circumference-mm <mm>', 'table: circumference of the loops', lengthMm)
    .addOption(new Option('--test <kind>', 'table: how it was pulled').choices(['strip', 'loop']))
    .option(
      '--column <N=meaning:unit>',
      `table: what a column holds, from 1, such as 2=force:cN or 3=ignored; may be given again. Meanings: ${meanings.join(', ')}`,
      addColumn,
    )
    .option(
      '--direction <text=direction>',
      'table: what a word for a direction means, such as "A=warp"; may be given again',
      addDirection,
    )
    .addOption(
      new Option('--decimal-mark <mark>', 'table: how decimals are written').choices(['point', 'comma']),
    )
    .option('--leave-out-missing', 'table: pass over rows whose cell holds no value, such as NaN');
}

/** The answers that were given; those that were not are not in it. */
export function tableWish({ column, direction, ...rest }: TableOptions): TableWish {
  const { gaugeMm, widthMm, circumferenceMm, test, decimalMark, leaveOutMissing = false } = rest;
  return {
    ...(gaugeMm === undefined ? {} : { gaugeMm }),
    ...(widthMm === undefined ? {} : { widthMm }),
    ...(circumferenceMm === undefined ? {} : { circumferenceMm }),
    ...(test === undefined ? {} : { test }),
    ...(decimalMark === undefined ? {} : { decimalMark }),
    ...(leaveOutMissing ? { missing: 'leave out' } : {}),
    ...(column === undefined ? {} : { columns: column }),
    ...(direction === undefined ? {} : { directions: direction }),
  };
}

/** The option that answers a question, ready to be filled in. */
export function answeringOption(question: TableQuestion): string {
  switch (question.asks) {
    case 'gaugeMm':
      return '--gauge-mm <mm>';
    case 'circumferenceMm':
      return '--circumference-mm <mm>';
    case 'widthMm':
      return '--width-mm <mm>';
    case 'decimalMark':
      return '--decimal-mark point|comma';
    case 'unit':
      return `--column "${question.column}=${question.meaning}:<unit>"`;
    case 'column':
      return `--column <N>=${question.meaning}`;
    case 'direction':
      return `--direction "${question.text}=warp|weft|bias"`;
  }
}

/** @throws {InvalidArgumentError} */
function lengthMm(text: string): number {
  const value = Number(text);
  if (text.trim() === '' || !(value > 0 && value < Infinity)) {
    throw new InvalidArgumentError('Give a length above 0 in mm, with a decimal point, such as 100 or 49.5.');
  }
  return value;
}

/** @throws {InvalidArgumentError} */
function addColumn(text: string, before: readonly ColumnWish[] = []): readonly ColumnWish[] {
  const [, number = '', named = '', unitText] = /^(\d+)=([^:]*)(?::(.*))?$/.exec(text) ?? [];
  const column = Number(number);
  if (column < 1) {
    throw new InvalidArgumentError('Give the column’s number from 1, what it holds and its unit: 2=force:N.');
  }
  if (before.some((wish) => wish.column === column)) {
    throw new InvalidArgumentError(`Column ${column} has been told before; tell it once.`);
  }
  const meaning = meanings.find((name) => name === named);
  if (meaning === undefined) {
    throw new InvalidArgumentError(
      `"${named}" is nothing a column holds. Choose one of ${meanings.join(', ')}.`,
    );
  }
  return [
    ...before,
    unitText === undefined ? { column, meaning } : { column, meaning, unit: unitOf(unitText, meaning) },
  ];
}

/** @throws {InvalidArgumentError} */
function unitOf(text: string, meaning: ColumnMeaning): TableUnit {
  const units = unitsFor(meaning);
  const unit = units.find((name) => name === text);
  if (unit !== undefined) return unit;
  throw new InvalidArgumentError(
    units.length === 0
      ? `A column "${meaning}" has no unit: leave out ":${text}".`
      : `"${text}" is no unit of ${meaning}. Choose one of ${units.join(', ')}.`,
  );
}

/** @throws {InvalidArgumentError} */
function addDirection(
  text: string,
  before: Readonly<Record<string, Direction>> = {},
): Readonly<Record<string, Direction>> {
  const cut = text.lastIndexOf('=');
  const direction = directions.find((name) => name === text.slice(cut + 1));
  if (cut < 1 || direction === undefined) {
    throw new InvalidArgumentError(
      `Give the table’s word and what it means: "A=warp", with ${directions.join(', ')}.`,
    );
  }
  // Made from entries, so that "__proto__" is a word like any other.
  return Object.fromEntries([...Object.entries(before), [text.slice(0, cut), direction]]);
}
