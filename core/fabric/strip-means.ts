import type { BenchReadings, ForceReading, HeldWidthReadings, WidthReading } from './bench-readings.ts';
import type { Direction } from './fabric.ts';
import { isDense, meanOfRepeats } from './mean-of-repeats.ts';

/** Mean force of the specimens at one extension, N. */
export interface MeanForce extends ForceReading {
  /** Standard deviation over the specimens, N; null for one specimen. */
  readonly deviation: number | null;
}

/** Mean width of the specimens at one extension, m. */
export interface MeanWidthReading extends WidthReading {
  readonly deviation: number | null;
}

/** One direction's strips as one strip: the mean of its specimens, rising in extension. */
export interface StripMeans {
  readonly load: readonly MeanForce[];
  readonly return: readonly MeanForce[] | null;
  readonly width: readonly MeanWidthReading[] | null;
}

/** The means over the specimens of every direction. */
export function stripMeans(stretched: BenchReadings['stretched']): Readonly<Record<Direction, StripMeans>> {
  const meansOf = (direction: Direction): StripMeans => {
    const { load, return: back, width } = stretched.strips[direction];
    return {
      load: meanForces(load),
      return: back === null ? null : fromOnset(meanForces(back), isRecord(back)),
      width: width === null ? null : meanWidths(width, stretched.width),
    };
  };
  return { warp: meansOf('warp'), weft: meansOf('weft'), bias: meansOf('bias') };
}

/** The mean of the strips pulled with their width held. */
export function heldMeans(
  held: HeldWidthReadings | null,
): { readonly direction: 'warp' | 'weft'; readonly load: readonly MeanForce[] } | null {
  return held === null ? null : { direction: held.direction, load: meanForces(held.load) };
}

function meanForces(specimens: readonly (readonly ForceReading[])[]): MeanForce[] {
  return meanOfRepeats(
    specimens.map((list) => list.map(({ extension, force }) => ({ extension, value: force }))),
    0,
  ).map(({ extension, value, deviation }) => ({ extension, force: value, deviation }));
}

function meanWidths(specimens: readonly (readonly WidthReading[])[], start: number): MeanWidthReading[] {
  return meanOfRepeats(
    specimens.map((list) => list.map(({ extension, width }) => ({ extension, value: width }))),
    start,
  ).map(({ extension, value, deviation }) => ({ extension, width: value, deviation }));
}

/** Share of the peak force beyond which a strip on its way back surely carries. */
const SURE_SHARE = 0.03;

const isRecord = (specimens: readonly (readonly ForceReading[])[]): boolean => specimens.some(isDense);

/**
 * A machine's record of the way back, begun where force sets in: by the straight line through the first two knots that
 * surely carry. Knots stand too far apart to show that place themselves, and below it there is noise only.
 */
function fromOnset(readings: readonly MeanForce[], record: boolean): readonly MeanForce[] {
  if (!record) return readings;
  const sure = SURE_SHARE * Math.max(...readings.map(({ force }) => force));
  const first = readings.findIndex(({ force }) => force > sure);
  const [one, two] = [readings[first], readings[first + 1]];
  if (one === undefined || two === undefined || two.force <= one.force) return readings;
  const onset = one.extension - (one.force * (two.extension - one.extension)) / (two.force - one.force);
  if (onset <= 0) return readings.slice(first);
  return [{ extension: onset, force: 0, deviation: null }, ...readings.slice(first)];
}
