import type { Garment, GarmentLine, GarmentRing } from '../garment/garment.ts';
import type { TubeSheet } from '../garment/tube-sheet.ts';
import { fixed } from './number-format.ts';

/** One level of a tube: flat on the table, on the body, worn. cm. */
export interface GarmentRow {
  readonly heightCm: string;
  readonly relaxedCm: string;
  /** Girth of the skin there, before the cloth presses. */
  readonly bodyCm: string;
  /** How much smaller the garment was cut: `20 %`; negative where it is larger than the body. */
  readonly reduction: string;
  /** Girth as worn, one per fabric. */
  readonly wornCm: readonly string[];
}

/**
 * A tube at each height that its sheet names and at both hems, the highest first.
 *
 * @param worn - Settled positions per fabric, 3·V, m.
 */
export function garmentRows(
  garment: Pick<Garment, 'rings' | 'columnCount'>,
  sheet: TubeSheet,
  worn: readonly Float64Array[],
): readonly GarmentRow[] {
  const heights = [...new Set([sheet.from, ...sheet.girths.map(({ at }) => at), sheet.to])];
  const rings = new Set(heights.map((height) => nearestRing(garment.rings, height)));
  return [...rings]
    .sort((one, other) => other - one)
    .map((ring) => {
      const { at, laid, relaxed } = garment.rings[ring]!;
      return {
        heightCm: fixed(100 * at, 1),
        relaxedCm: fixed(100 * relaxed, 1),
        bodyCm: fixed(100 * laid, 1),
        reduction: `${fixed(100 * (1 - relaxed / laid), 0)}\u00a0%`,
        wornCm: worn.map((positions) => fixed(100 * ringLength(positions, ring, garment.columnCount), 1)),
      };
    });
}

/** Length of one line of the cloth as it lies, m. */
export function lineLength(positions: Float64Array, { segments }: GarmentLine): number {
  let length = 0;
  for (let s = 0; s < segments.length; s += 2) {
    length += distanceBetween(positions, segments[s]!, segments[s + 1]!);
  }
  return length;
}

function nearestRing(rings: readonly GarmentRing[], height: number): number {
  let nearest = 0;
  rings.forEach(({ at }, ring) => {
    if (Math.abs(at - height) < Math.abs(rings[nearest]!.at - height)) nearest = ring;
  });
  return nearest;
}

/** Length of the closed line through one ring's vertices, m. */
function ringLength(positions: Float64Array, ring: number, columnCount: number): number {
  let length = 0;
  for (let column = 0; column < columnCount; column++) {
    const here = ring * columnCount + column;
    length += distanceBetween(positions, here, ring * columnCount + ((column + 1) % columnCount));
  }
  return length;
}

const distanceBetween = (positions: Float64Array, a: number, b: number): number =>
  Math.hypot(
    positions[3 * b]! - positions[3 * a]!,
    positions[3 * b + 1]! - positions[3 * a + 1]!,
    positions[3 * b + 2]! - positions[3 * a + 2]!,
  );
