import { z } from 'zod';
import { CHART_MEASURES, type ChartMeasure, type SizeChart, type SizeChartRow } from '../body/size-chart.ts';
import { Fault } from '../fault/fault.ts';
import { metresFromMm } from '../units/units.ts';
import { cutTable, type Separator } from './delimited-text.ts';
import { checkShape, readJson } from './read-json.ts';
import { findDecimalMark, readNumber, type DecimalMark } from './table-number.ts';

const MM_PER: Readonly<Record<string, number>> = { mm: 1, cm: 10, m: 1000, in: 25.4 };
/** Girths and heights beyond these are a slip of unit, mm. */
const GIRTH_RANGE = [80, 2500] as const;
const HEIGHT_RANGE = [400, 2500] as const;

const chartFile = z.strictObject({
  snugfieldChart: z.literal(1),
  name: z.string().min(1),
  source: z.string().optional(),
  unit: z.string(),
  sizes: z.array(z.string().min(1)).min(1).max(100),
  rows: z.record(z.string(), z.array(z.number().nullable())),
});

/**
 * Reads a size chart, as JSON or as a table.
 *
 * A table's first column holds the measures' names, its first row `measure` and the sizes. Above it may stand rows
 * `name`, `unit` (mm, cm, m or in; cm if left out) and `source`.
 *
 * @param name - Of the chart, where the file gives none.
 * @throws {Fault} `chart/...`, `table/...`, `file/not-json`, `file/wrong-shape`.
 */
export function readSizeChart(text: string, name: string): SizeChart {
  return text.trimStart().startsWith('{') ? chartFromJson(text) : chartFromTable(text, name);
}

function chartFromJson(text: string): SizeChart {
  const file = checkShape(chartFile, readJson(text));
  const cells = Object.entries(file.rows).map(([measure, values], i) => ({ measure, values, row: i + 1 }));
  return chartOf({ name: file.name, source: file.source ?? '', unit: file.unit, sizes: file.sizes }, cells);
}

interface Head {
  readonly name: string;
  readonly source: string;
  readonly unit: string;
  readonly sizes: readonly string[];
}

/** A row as read; rows count from 1 in the file. */
interface ReadRow {
  readonly measure: string;
  readonly values: readonly (number | null)[];
  readonly row: number;
}

function chartFromTable(text: string, fileName: string): SizeChart {
  const { rows } = cutTable(text, separatorOf(text));
  const { head, start } = headOf(rows, fileName);
  const titles = rows[start] ?? [];
  const sizes = titles.slice(1);
  if (sizes.length === 0 || sizes.includes('')) {
    throw new Fault('chart/no-sizes', { found: titles.join(', ').slice(0, 80) });
  }
  const { mark } = findDecimalMark(rows.slice(start + 1));
  const read = rows
    .map((cells, i) => ({ cells, row: i + 1 }))
    .slice(start + 1)
    .filter(({ cells }) => cells.some((cell) => cell !== ''))
    .map(({ cells, row }) => rowOf(cells, row, sizes, mark));
  return chartOf({ ...head, sizes }, read);
}

/** Decimal commas may stand beside semicolons and tabs, so those are looked for first. */
function separatorOf(text: string): Separator {
  if (text.includes(';')) return 'semicolon';
  return text.includes('\t') ? 'tab' : 'comma';
}

const HEAD_KEYS = ['name', 'unit', 'source'] as const;

/** What stands above the row of sizes, and where that row is. */
function headOf(
  rows: readonly (readonly string[])[],
  fileName: string,
): { readonly head: Omit<Head, 'sizes'>; readonly start: number } {
  const head = { name: fileName, source: '', unit: 'cm' };
  for (const [start, [key = '', value = '', ...rest]] of rows.entries()) {
    const known = HEAD_KEYS.find((name) => name === key.toLowerCase());
    // A spreadsheet parts a source with commas in it.
    if (known !== undefined) head[known] = [value, ...rest].filter((cell) => cell !== '').join(', ');
    else if (key !== '' || value !== '') return { head, start };
  }
  return { head, start: rows.length };
}

function rowOf(cells: readonly string[], row: number, sizes: readonly string[], mark: DecimalMark): ReadRow {
  if (cells.length !== sizes.length + 1) {
    throw new Fault('chart/ragged-row', { row, cellCount: cells.length, columnCount: sizes.length + 1 });
  }
  const values = cells.slice(1).map((cell, k): number | null => {
    const value = readNumber(cell, mark);
    if (typeof value === 'number') return value;
    if (value === 'empty') return null;
    throw new Fault('chart/bad-value', { row, column: k + 2, size: sizes[k]!, value: cell.slice(0, 40) });
  });
  return { measure: cells[0]!, values, row };
}

function chartOf({ name, source, unit, sizes }: Head, rows: readonly ReadRow[]): SizeChart {
  const mmPer = MM_PER[unit.toLowerCase()];
  if (mmPer === undefined) {
    throw new Fault('chart/bad-unit', { value: unit.slice(0, 40), known: Object.keys(MM_PER).join(', ') });
  }
  if (rows.length === 0) throw new Fault('chart/no-rows', { name });
  const doubled = sizes.find((size, i) => sizes.indexOf(size) !== i);
  if (doubled !== undefined) throw new Fault('chart/twice', { row: 1, what: 'size', value: doubled });
  const seen = new Set<ChartMeasure>();
  return {
    name,
    source,
    isInvented: false,
    sizes,
    rows: rows.map((read): SizeChartRow => {
      const measure = measureCalled(read);
      if (seen.has(measure))
        throw new Fault('chart/twice', { row: read.row, what: 'measure', value: measure });
      seen.add(measure);
      if (read.values.length !== sizes.length) {
        const facts = { row: read.row, cellCount: read.values.length + 1, columnCount: sizes.length + 1 };
        throw new Fault('chart/ragged-row', facts);
      }
      return {
        measure,
        values: read.values.map((value, k) => checked(value, { read, measure, mmPer, size: sizes[k]! })),
      };
    }),
  };
}

/** Letters only, small. */
const plain = (text: string): string => text.toLowerCase().replaceAll(/[^a-z]/g, '');

/** As people write them: `Under-bust`, `mid thigh`, `crotch height`. */
function measureCalled({ measure, row }: ReadRow): ChartMeasure {
  const found = CHART_MEASURES.find((name) => plain(name) === plain(measure));
  if (found !== undefined) return found;
  throw new Fault('chart/unknown-measure', {
    row,
    value: measure.slice(0, 40),
    known: CHART_MEASURES.join(', '),
  });
}

function checked(
  value: number | null,
  at: {
    readonly read: ReadRow;
    readonly measure: ChartMeasure;
    readonly mmPer: number;
    readonly size: string;
  },
): number | null {
  if (value === null) return null;
  const valueMm = value * at.mmPer;
  const isHeight = at.measure === 'stature' || at.measure === 'crotchHeight';
  const [lowestMm, highestMm] = isHeight ? HEIGHT_RANGE : GIRTH_RANGE;
  if (valueMm >= lowestMm && valueMm <= highestMm) return metresFromMm(valueMm);
  const { read, measure, size } = at;
  throw new Fault('chart/out-of-range', { row: read.row, size, measure, valueMm, lowestMm, highestMm });
}
