import { curveLength } from '../pattern/arc-length.ts';
import type { FlatPoint } from '../pattern/pattern.ts';
import { monotoneCubic, valueAt } from '../units/monotone-cubic.ts';
import { bowOf, pointAt, seamOf, truedRow, type SideSeam } from './side-seam.ts';

/** Half a panel between its centre (x = 0) and a seam, whose rows meet both square. */
export interface TruedHalf {
  readonly seam: SideSeam;
  /** From the centre to the seam, as long as the sheet's row. */
  readonly row: (way: number) => FlatPoint[];
  /** Where that row meets the centre. */
  readonly centre: (way: number) => FlatPoint;
}

/** Points of a drafted seam. */
const SAMPLES = 96;
/** Rounds in which rows are brought to their length. */
const TRUING = 8;
/** Rounds in which a seam's kinks are smoothed out. */
const SMOOTHING = 30;
/** Where along the seam rows are trued: denser, and the seam's slope answers to its own corrections until it breaks up. */
const TRUED = Array.from({ length: 5 }, (_, i) => i / 4);

/**
 * Drafts half a panel from the length of its rows by the way along its seam.
 *
 * Rows bow as much as the seam leans (a cone unrolls to arcs); the seam then moves in by what a bowed row is longer than
 * its chord.
 *
 * @param widthAt - Relaxed length of the row from centre to seam, m.
 * @param length - Along the seam, m.
 */
export function truedHalf(widthAt: (way: number) => number, length: number): TruedHalf {
  const ways = Array.from({ length: SAMPLES + 1 }, (_, i) => (length * i) / SAMPLES);
  const xs = smoothed(ways.map(widthAt));
  let seam = seamOf(monotoneCubic(ways, xs), ways);
  const centre = (way: number): FlatPoint => [0, pointAt(seam, way)[1] + bowOf(seam, way)];
  const row = (way: number) => truedRow(seam, way, centre(way));
  for (let round = 0; round < TRUING; round++) {
    const misses = TRUED.map((share) => widthAt(share * length) - curveLength(row(share * length)));
    const miss = monotoneCubic(TRUED, misses);
    for (let i = 0; i <= SAMPLES; i++) xs[i]! += valueAt(miss, i / SAMPLES);
    seam = seamOf(monotoneCubic(ways, xs), ways);
  }
  return { seam, row, centre };
}

/** A run of numbers with its kinks smoothed out by (1, 2, 1) / 4; its ends stay. */
export function smoothed(values: readonly number[]): number[] {
  let now = [...values];
  for (let round = 0; round < SMOOTHING; round++) {
    now = now.map((value, i) =>
      i === 0 || i === now.length - 1 ? value : (now[i - 1]! + 2 * value + now[i + 1]!) / 4,
    );
  }
  return now;
}

/** A seam from its lower end to its upper. */
export const seamPoints = ({ seam }: TruedHalf, length: number): FlatPoint[] =>
  Array.from({ length: SAMPLES + 1 }, (_, i) => pointAt(seam, (length * i) / SAMPLES));

/** Relaxed lengths of rows by way: the body's own rows times a ratio that runs smoothly between the sheet's levels. */
export function relaxedWidths(
  body: readonly { readonly way: number; readonly length: number }[],
  knots: readonly { readonly way: number; readonly ratio: number }[],
): { widthAt: (way: number) => number; ratioAt: (way: number) => number } {
  const rowAt = monotoneCubic(
    body.map(({ way }) => way),
    body.map(({ length }) => length),
  );
  const sorted = knots.toSorted((one, other) => one.way - other.way);
  const ratios = monotoneCubic(
    sorted.map(({ way }) => way),
    sorted.map(({ ratio }) => ratio),
  );
  const ratioAt = (way: number): number => valueAt(ratios, way);
  return { widthAt: (way) => valueAt(rowAt, way) * ratioAt(way), ratioAt };
}
