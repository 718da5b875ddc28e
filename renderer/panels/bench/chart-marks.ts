import type { ChartReading, CurveTrace } from '../../../core/sheet/strip-chart-trace.ts';
import type { StripChartSheet } from '../../../core/sheet/strip-chart.ts';
import { modulusWords, readingWords, type ChartedCurve } from '../../../core/words/chart-words.ts';
import type { ChartPanel } from './chart-layout.ts';
import type { Place } from './chart-shapes.ts';

/** One point that can be pointed at and read out. */
export interface ChartMark {
  readonly at: Place;
  /** %. */
  readonly extension: number;
  /** In words. */
  readonly says: () => string;
}

/** Marks of one curve, rising in extension. */
export type MarkRow = readonly ChartMark[];

/** Where one stands among the marks of a panel. */
export interface MarkPlace {
  readonly row: number;
  readonly mark: number;
}

/** Every curve of a panel as marks, in the order in which the arrow keys go down; stated extensions that nobody read included. */
export function markRows(sheet: StripChartSheet, panel: ChartPanel): readonly MarkRow[] {
  const { direction, extensionScale, forceScale, widthScale } = panel;
  const chart = sheet.charts.find((candidate) => candidate.direction === direction);
  const rows = (chart?.traces ?? []).flatMap((trace, fabric) => {
    const letter = sheet.fabrics.length > 1 ? sheet.fabrics[fabric]!.letter : null;
    const rowOf = (curve: ChartedCurve, { readings }: CurveTrace): MarkRow =>
      readings.filter(isSound).map((reading) => ({
        at: [
          extensionScale.place(reading.extension),
          (curve === 'width' ? widthScale : forceScale).place(reading.value),
        ],
        extension: reading.extension,
        says: () => readingWords({ direction, letter, curve }, reading, sheet.unit),
      }));
    const isRead = (at: number): boolean =>
      trace.load.readings.some(({ extension }) => Math.abs(extension - at) < 0.5);
    const unread: MarkRow = trace.modulus
      .filter(({ extension, load }) => !isRead(extension) && isInside(sheet, extension, load))
      .map((mark) => ({
        at: [extensionScale.place(mark.extension), forceScale.place(mark.load)],
        extension: mark.extension,
        says: () => modulusWords({ direction, letter, curve: 'load' }, mark, sheet.unit),
      }));
    return [
      [...rowOf('load', trace.load), ...unread].toSorted((a, b) => a.extension - b.extension),
      trace.back === null ? [] : rowOf('back', trace.back),
      trace.held === null ? [] : rowOf('held', trace.held),
      rowOf('width', trace.width),
    ];
  });
  return rows.filter((row) => row.length > 0);
}

const isSound = ({ extension, value }: ChartReading): boolean =>
  Number.isFinite(extension) && Number.isFinite(value);

const isInside = ({ extension, force }: StripChartSheet, at: number, load: number): boolean =>
  at <= extension.high + 1e-9 && load <= force.high + 1e-9;

/** The mark nearest to a place on the sheet; null farther than `reach` px. */
export function nearestMark(rows: readonly MarkRow[], [x, y]: Place, reach: number): MarkPlace | null {
  let nearest: MarkPlace | null = null;
  let least = reach;
  for (const [row, marks] of rows.entries()) {
    for (const [mark, { at }] of marks.entries()) {
      const distance = Math.hypot(at[0] - x, at[1] - y);
      if (distance > least) continue;
      least = distance;
      nearest = { row, mark };
    }
  }
  return nearest;
}

/** Where an arrow key leads: along the curve, or to the next curve at about the same extension. Null for other keys. */
export function stepMark(rows: readonly MarkRow[], from: MarkPlace, key: string): MarkPlace | null {
  const marks = rows[from.row];
  if (marks === undefined) return null;
  const last = marks.length - 1;
  switch (key) {
    case 'ArrowRight':
      return { ...from, mark: Math.min(last, from.mark + 1) };
    case 'ArrowLeft':
      return { ...from, mark: Math.max(0, from.mark - 1) };
    case 'Home':
      return { ...from, mark: 0 };
    case 'End':
      return { ...from, mark: last };
    case 'ArrowDown':
    case 'ArrowUp':
      return otherRow(rows, from, key === 'ArrowDown' ? 1 : -1);
    default:
      return null;
  }
}

function otherRow(rows: readonly MarkRow[], from: MarkPlace, way: 1 | -1): MarkPlace {
  const row = (from.row + way + rows.length) % rows.length;
  const { extension } = rows[from.row]![from.mark]!;
  const marks = rows[row]!;
  const miss = (mark: number): number => Math.abs(marks[mark]!.extension - extension);
  const mark = marks.reduce(
    (nearest, _, candidate) => (miss(candidate) < miss(nearest) ? candidate : nearest),
    0,
  );
  return { row, mark };
}
