import type { Finding } from '../fault/finding.ts';
import { Fault } from '../fault/fault.ts';
import { mmFromMetres } from '../units/units.ts';
import type { SewnElastic } from './garment.ts';
import type { TubeBand } from './tube-sheet.ts';

/** The rings of a tube's finest mesh as laid, lower hem first. m. */
export interface TubeRows {
  /** Height of each ring. */
  readonly at: Float64Array;
  /** Way along the skin from the lower hem to each ring, the mean of the columns. */
  readonly along: Float64Array;
  /** Length of each ring along the skin, and unstretched. */
  readonly laid: Float64Array;
  readonly relaxed: Float64Array;
}

/** The rings of one level of a tube. */
export interface LevelRings {
  readonly rowCount: number;
  readonly columnCount: number;
  /** As laid; 3*V, m. */
  readonly positions: Float64Array;
}

/** An elastic is not stretched farther than a tube's own cloth may be. */
const MOST_STRETCH = 4;
/** A ring under less of the band than this counts as not under it: round-off. */
const LEAST_COVER = 1e-9;

/**
 * How much of the strip that each ring stands for lies in a stretch of the way along the tube. A ring stands for half
 * the way to either neighbour, at a hem to one.
 *
 * @param along - Way to each ring, rising; m.
 * @returns Per ring, m.
 */
export function ringOverlaps(along: ArrayLike<number>, [from, to]: readonly [number, number]): Float64Array {
  const last = along.length - 1;
  return Float64Array.from(along, (here, r) => {
    const low = r === 0 ? here : (along[r - 1]! + here) / 2;
    const high = r === last ? here : (here + along[r + 1]!) / 2;
    return Math.max(0, Math.min(high, to) - Math.max(low, from));
  });
}

/** Where a band lies along the tube, m from the lower hem. */
export function bandSpan({ at, width }: TubeBand, rows: TubeRows): readonly [number, number] {
  const end = rows.along.at(-1)!;
  if (at === 'lower') return [0, width];
  if (at === 'upper') return [end - width, end];
  const middle = alongAt(rows, at);
  return [middle - width / 2, middle + width / 2];
}

/** Way along the skin to a height between the hems. */
export function alongAt({ at, along }: TubeRows, height: number): number {
  let r = 0;
  while (r < at.length - 2 && at[r + 1]! < height) r++;
  return along[r]! + ((along[r + 1]! - along[r]!) * (height - at[r]!)) / (at[r + 1]! - at[r]!);
}

/**
 * A band as elastic along the rings of one level of the tube.
 *
 * Each ring's segments carry as much of the force as its strip lies under the band, overlap / width: on the skin of
 * radius R that presses F / (w R) evenly, also where the width is no whole number of rings. The relaxed length is
 * divided along each ring as its laid length is.
 */
export function tubeElastic(band: TubeBand, rows: TubeRows, rings: LevelRings): SewnElastic {
  const { rowCount, columnCount, positions } = rings;
  const stride = (rows.at.length - 1) / rowCount;
  const along = Float64Array.from({ length: rowCount + 1 }, (_, r) => rows.along[r * stride]!);
  const overlaps = ringOverlaps(along, bandSpan(band, rows));
  const segments: number[] = [];
  const restLength: number[] = [];
  const share: number[] = [];
  for (let row = 0; row <= rowCount; row++) {
    if (overlaps[row]! <= LEAST_COVER * band.width) continue;
    const shrink = band.relaxed / rows.laid[row * stride]!;
    for (let column = 0; column < columnCount; column++) {
      const a = row * columnCount + column;
      const b = row * columnCount + ((column + 1) % columnCount);
      segments.push(a, b);
      restLength.push(
        shrink *
          Math.hypot(
            positions[3 * b]! - positions[3 * a]!,
            positions[3 * b + 1]! - positions[3 * a + 1]!,
            positions[3 * b + 2]! - positions[3 * a + 2]!,
          ),
      );
      share.push(overlaps[row]! / band.width);
    }
  }
  return {
    segments: Uint32Array.from(segments),
    restLength: Float64Array.from(restLength),
    share: Float64Array.from(share),
    width: band.width,
    curve: band.curve,
  };
}

/**
 * Looks at bands where they are laid: refuses those that lie off the garment or cannot be stretched that far, and tells
 * of those that hold nothing or are stretched beyond their readings.
 *
 * @throws {Fault} `garment/band-off-garment`, `garment/band-too-small`.
 */
export function checkLaidBands(bands: readonly TubeBand[], rows: TubeRows): Finding[] {
  const end = rows.along.at(-1)!;
  return bands.flatMap((band, index): Finding[] => {
    const [from, to] = bandSpan(band, rows);
    const slack = 1e-9 * end;
    if (from < -slack || to > end + slack) {
      throw new Fault('garment/band-off-garment', {
        index,
        fromMm: mmFromMetres(from),
        toMm: mmFromMetres(to),
        lengthMm: mmFromMetres(end),
      });
    }
    const cover = ringOverlaps(rows.along, [from, to]);
    const laid = weightedMean(rows.laid, cover);
    const cloth = weightedMean(rows.relaxed, cover);
    const stretch = laid / band.relaxed;
    const facts = { index, relaxedMm: mmFromMetres(band.relaxed), bodyMm: mmFromMetres(laid) };
    if (stretch > MOST_STRETCH) {
      throw new Fault('garment/band-too-small', { ...facts, stretchPercent: 100 * (stretch - 1) });
    }
    const lastPercent = 100 * band.curve.at(-1)![0];
    const stretchPercent = 100 * (stretch - 1);
    return [
      ...(band.relaxed >= cloth
        ? [{ code: 'garment/band-loose' as const, facts: { ...facts, clothMm: mmFromMetres(cloth) } }]
        : []),
      ...(stretchPercent > lastPercent
        ? [{ code: 'garment/band-beyond-readings' as const, facts: { index, stretchPercent, lastPercent } }]
        : []),
    ];
  });
}

const weightedMean = (values: Float64Array, weights: Float64Array): number =>
  values.reduce((sum, value, i) => sum + value * weights[i]!, 0) / weights.reduce((a, b) => a + b, 0);
