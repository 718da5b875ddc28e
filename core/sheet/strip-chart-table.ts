import type { Direction } from '../fabric/fabric.ts';
import type { CurveEvidence, WidthEvidence } from '../fabric/strip-evidence.ts';
import { percentFromRatio } from '../units/units.ts';
import { STRIP_WIDTH } from './display-unit.ts';
import { CHART_DIRECTIONS, type ChartedFabric } from './strip-chart.ts';

/** The columns, in order; what does not belong to a row is left empty. */
export const STRIP_TABLE_COLUMNS = [
  'fabric',
  'name',
  'lot',
  'invented',
  'direction',
  'branch',
  'row',
  'extension_percent',
  'force_N_per_50mm',
  'tension_N_per_m',
  'sd_N_per_50mm',
  'n',
  'fitted_N_per_50mm',
  'residual_N_per_50mm',
  'width_ratio',
  'sd_width_ratio',
  'fitted_width_ratio',
  'residual_width_ratio',
  'width_assumed',
] as const;

type Column = (typeof STRIP_TABLE_COLUMNS)[number];
type Row = Readonly<Partial<Record<Column, string | number | boolean | null>>>;

/**
 * Every reading and every point of the fitted strips as comma-separated text (RFC 4180, decimal points).
 *
 * `branch`: load, return, held width, width. `row`: the number of a specimen, `mean`, or `fitted` (a strip of the
 * fitted law, its force and width in the same columns as those read). Residual is fitted - read.
 */
export function stripTable(fabrics: readonly ChartedFabric[]): string {
  const lines = [STRIP_TABLE_COLUMNS.join(',')];
  for (const fabric of fabrics) {
    for (const direction of CHART_DIRECTIONS) {
      for (const row of directionRows(fabric, direction)) lines.push(lineOf(row));
    }
  }
  return `${lines.join('\r\n')}\r\n`;
}

function* directionRows(fabric: ChartedFabric, direction: Direction): Generator<Row> {
  const { letter, name, lot, invented, strips, held } = fabric;
  const subject: Row = { fabric: letter, name, lot, invented, direction };
  const strip = strips[direction];
  yield* curveRows(strip.load, { ...subject, branch: 'load' });
  if (strip.return !== null) yield* curveRows(strip.return, { ...subject, branch: 'return' });
  if (held?.direction === direction) yield* curveRows(held.load, { ...subject, branch: 'held width' });
  yield* widthRows(strip.width, { ...subject, branch: 'width', width_assumed: strip.width.assumed });
}

const forceCells = (tension: number): Row => ({
  force_N_per_50mm: tension * STRIP_WIDTH,
  tension_N_per_m: tension,
});

function* curveRows(curve: CurveEvidence, subject: Row): Generator<Row> {
  for (const [index, points] of curve.specimens.entries()) {
    for (const [extension, tension] of points) {
      yield {
        ...subject,
        row: index + 1,
        extension_percent: percentFromRatio(extension),
        ...forceCells(tension),
        n: 1,
      };
    }
  }
  for (const { extension, tension, deviation, fitted } of curve.readings) {
    yield {
      ...subject,
      row: 'mean',
      extension_percent: percentFromRatio(extension),
      ...forceCells(tension),
      sd_N_per_50mm: deviation === null ? null : deviation * STRIP_WIDTH,
      n: countAt(curve.specimens, extension),
      fitted_N_per_50mm: fitted * STRIP_WIDTH,
      residual_N_per_50mm: (fitted - tension) * STRIP_WIDTH,
    };
  }
  for (const [i, extension] of curve.fitted.extensions.entries()) {
    yield {
      ...subject,
      row: 'fitted',
      extension_percent: percentFromRatio(extension),
      ...forceCells(curve.fitted.tensions[i]!),
    };
  }
}

function* widthRows(width: WidthEvidence, subject: Row): Generator<Row> {
  for (const [index, points] of width.specimens.entries()) {
    for (const [extension, ratio] of points) {
      yield {
        ...subject,
        row: index + 1,
        extension_percent: percentFromRatio(extension),
        n: 1,
        width_ratio: ratio,
      };
    }
  }
  for (const { extension, ratio, deviation, fitted } of width.readings) {
    yield {
      ...subject,
      row: 'mean',
      extension_percent: percentFromRatio(extension),
      n: countAt(width.specimens, extension),
      width_ratio: ratio,
      sd_width_ratio: deviation,
      fitted_width_ratio: fitted,
      residual_width_ratio: fitted - ratio,
    };
  }
  for (const [i, extension] of width.fitted.extensions.entries()) {
    yield {
      ...subject,
      row: 'fitted',
      extension_percent: percentFromRatio(extension),
      width_ratio: width.fitted.ratios[i]!,
    };
  }
}

/** Specimens read as far as that. */
const countAt = (specimens: CurveEvidence['specimens'], extension: number): number =>
  specimens.filter((points) => (points.at(-1)?.[0] ?? -1) >= extension - 1e-9).length;

const lineOf = (row: Row): string =>
  STRIP_TABLE_COLUMNS.map((column) => cellOf(row[column] ?? null)).join(',');

function cellOf(value: string | number | boolean | null): string {
  if (value === null) return '';
  if (typeof value === 'number') return Number.isFinite(value) ? String(Number(value.toPrecision(7))) : '';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return /[",\r\n]/.test(value) ? `"${value.replaceAll('"', '""')}"` : value;
}
