import type { Body } from '../body/body.ts';
import type { PlacedPoint } from '../garment/place-pattern.ts';
import type { EdgeOf, FlatPoint } from '../pattern/pattern.ts';
import type { BlockSheet } from './blocks.ts';
import type { DraftedBlock } from './drafted-block.ts';
import { legRow, type LegRow } from './leg-row.ts';
import { pointAt } from './side-seam.ts';
import { STOCKING_POINTS, stockingHeights } from './stocking-levels.ts';
import { relaxedWidths, seamPoints, truedHalf } from './trued-half.ts';

/** Rows of the leg that the draft is taken from. */
const ROWS = 24;
/** Every so many of them guides the cloth round the leg. */
const GUIDING = 4;

const mirrored = (points: readonly FlatPoint[]) => points.map(([x, y]): FlatPoint => [-x, y]);
const point = (at: FlatPoint, body: PlacedPoint['body']): PlacedPoint => ({ panel: 'leg', at, body });
const leg = (edge: string): EdgeOf => ({ panel: 'leg', edge });

/**
 * Drafts a knee stocking for the left leg, from the ankle (B) to below the knee (D): one panel with a seam down the back. The
 * foot is left out.
 *
 * @throws {Fault} `block/no-landmark`; `garment/...` where the body has no such row.
 */
export function draftStocking(
  { skin, landmarks }: Body,
  { girths, lengths, laid }: BlockSheet,
): DraftedBlock {
  const heights = stockingHeights(landmarks, laid);
  const rows = Array.from({ length: ROWS + 1 }, (_, i) =>
    legRow(skin, heights.B + ((heights.D - heights.B) * i) / ROWS),
  );
  const length = lengths['length']!;
  const along = [0];
  for (let i = 1; i < rows.length; i++) along.push(along[i - 1]! + apart(rows[i - 1]!.back, rows[i]!.back));
  const scale = length / along.at(-1)!;
  const ways = along.map((way) => scale * way);
  /** Way up the back of a height between B and D. */
  const wayOf = (height: number): number => {
    const at = Math.max(0, Math.min(ROWS, (ROWS * (height - heights.B)) / (heights.D - heights.B)));
    const i = Math.min(ROWS - 1, Math.floor(at));
    return ways[i]! + (at - i) * (ways[i + 1]! - ways[i]!);
  };
  const measures = STOCKING_POINTS.filter((name) => girths[name] !== undefined).map((name) => ({
    name,
    relaxed: girths[name]!,
    body: legRow(skin, heights[name]).length,
  }));
  const knots = measures.map(({ name, relaxed, body }) => ({
    way: wayOf(heights[name]),
    ratio: relaxed / body,
  }));
  const { widthAt, ratioAt } = relaxedWidths(
    rows.map((row, i) => ({ way: ways[i]!, length: row.length / 2 })),
    knots,
  );
  const half = truedHalf(widthAt, length);
  const whole = (row: readonly FlatPoint[]) => [...mirrored(row).toReversed(), ...row.slice(1)];
  const seam = seamPoints(half, length);
  return {
    pattern: {
      name: 'stocking',
      panels: [
        {
          name: 'leg',
          edges: [
            { name: 'ankle', points: whole(half.row(0)) },
            { name: 'outerBack', points: seam },
            { name: 'top', points: whole(half.row(length)).toReversed() },
            { name: 'innerBack', points: mirrored(seam).toReversed() },
          ],
        },
      ],
      seams: [{ name: 'back', one: leg('outerBack'), other: leg('innerBack'), turned: true }],
      centre: [],
    },
    placing: {
      points: rows
        .filter((_, i) => i % GUIDING === 0)
        .flatMap((row, r) => {
          const way = ways[r * GUIDING]!;
          const flat = half.row(way);
          const [middle, quarter] = [flat[0]!, flat[flat.length >> 1]!];
          return [
            point(middle, row.front),
            point(quarter, row.outside),
            point([-quarter[0], quarter[1]], row.inside),
            point(pointAt(half.seam, way), row.back),
          ];
        }),
      facing: {},
      held: [
        { edge: leg('ankle'), normal: [0, 1, 0], offset: heights.B },
        { edge: leg('top'), normal: [0, 1, 0], offset: heights.D },
      ],
    },
    measures: [...measures.toReversed(), { name: 'length', relaxed: length, body: along.at(-1)! }],
    scaling: { around: (height) => ratioAt(wayOf(height)), along: scale },
  };
}

const apart = (one: LegRow['back'], other: LegRow['back']): number =>
  Math.hypot(other[0] - one[0], other[1] - one[1], other[2] - one[2]);
