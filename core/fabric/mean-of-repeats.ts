import { brokenLine, type CurvePoint } from './broken-line.ts';

/** Mean of the specimens at one extension; the standard deviation (n - 1) is null for one specimen. */
export interface MeanPoint {
  readonly extension: number;
  readonly value: number;
  readonly deviation: number | null;
}

/** More readings than a person takes: a machine's record, averaged into bins before anything else is done to it. */
const DENSE = 80;
const BINS = 40;

/** True for a machine's record. */
export const isDense = (points: readonly unknown[]): boolean => points.length > DENSE;

/**
 * The mean curve of repeated strips, up to where all of them reach.
 *
 * Machine records (more than 80 readings) are averaged into 40 bins, each as the broken line that comes closest to it.
 * Strips read at unlike extensions are read off by straight line at those of the strip with the most readings.
 *
 * @param specimens - At least one, each rising in extension.
 * @param atStart - Value at no extension where a strip was not read there.
 */
export function meanOfRepeats(
  specimens: readonly (readonly CurvePoint[])[],
  atStart: number,
): readonly MeanPoint[] {
  const filled = specimens.filter((points) => points.length > 0);
  if (filled.length === 0) return [];
  const grid = commonGrid(filled);
  const curves = filled.map((points) => (isDense(points) ? brokenLine(points, grid) : points));
  const exact = curves.every(
    (points) => points.length === grid.length && points.every(({ extension }, i) => extension === grid[i]),
  );
  return grid.map((extension, i) => {
    const values = curves.map((points) => (exact ? points[i]!.value : between(points, extension, atStart)));
    return { extension, value: mean(values), deviation: deviationOf(values) };
  });
}

export const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** Standard deviation of a sample (n - 1); null for one value. */
export function deviationOf(values: readonly number[]): number | null {
  if (values.length < 2) return null;
  const middle = mean(values);
  return Math.sqrt(values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / (values.length - 1));
}

/** The extensions at which the specimens are compared. */
function commonGrid(specimens: readonly (readonly CurvePoint[])[]): readonly number[] {
  const reach = Math.min(...specimens.map((points) => points.at(-1)!.extension));
  if (specimens.some(isDense)) {
    const start = Math.min(reach, ...specimens.map((points) => points[0]!.extension));
    return Array.from({ length: BINS + 1 }, (_, i) => start + (i / BINS) * (reach - start));
  }
  const finest = specimens.reduce((most, points) => (points.length > most.length ? points : most));
  const below = finest.map(({ extension }) => extension).filter((extension) => extension <= reach);
  return below.at(-1) === reach ? below : [...below, reach];
}

/** Straight-line reading between points, from `atStart` at no extension; held beyond the last. */
function between(points: readonly CurvePoint[], at: number, atStart: number): number {
  let before: CurvePoint = { extension: 0, value: atStart };
  for (const point of points) {
    if (point.extension >= at) {
      const span = point.extension - before.extension;
      return span > 0
        ? before.value + ((at - before.extension) / span) * (point.value - before.value)
        : point.value;
    }
    before = point;
  }
  return before.value;
}
