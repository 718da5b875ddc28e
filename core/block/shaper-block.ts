import type { Body } from '../body/body.ts';
import type { Landmarks } from '../body/landmarks.ts';
import { Fault } from '../fault/fault.ts';
import type { PlacedPoint } from '../garment/place-pattern.ts';
import type { EdgeOf, Panel } from '../pattern/pattern.ts';
import { bodyRow } from './body-rows.ts';
import type { BlockSheet } from './blocks.ts';
import type { DraftedBlock } from './drafted-block.ts';
import { pointAt } from './side-seam.ts';
import { rowsUpSide, type SideRows } from './rows-up-side.ts';
import { relaxedWidths, seamPoints, truedHalf, type TruedHalf } from './trued-half.ts';
import type { Side } from './trouser-rows.ts';

/** Every so many of the body's rows guides the cloth. */
const GUIDING = 8;
const SIDES = ['front', 'back'] as const;
const edge = (panel: Side, name: string): EdgeOf => ({ panel, edge: name });

/**
 * Drafts a waist shaper: front and back of a tube round the trunk, sewn at the sides, from its top (under the bust) as far
 * down as its side seam reaches.
 *
 * @throws {Fault} `block/no-landmark`; `garment/...` where the body has no such row.
 */
export function draftShaper(body: Body, { girths, lengths, laid = {} }: BlockSheet): DraftedBlock {
  const length = lengths['side']!;
  const heights = shaperHeights(body.landmarks, length, laid);
  const rows = rowsUpSide(body.skin, heights.hem, heights.top, length);
  const measures = Object.entries(girths).map(([name, relaxed]) => {
    const height = heights[name];
    if (height === undefined) throw new Fault('block/no-landmark', { landmark: name });
    const { front, back } = bodyRow(body.skin, 'trunk', height);
    return { name, relaxed, height, body: 2 * (front + back) };
  });
  const knots = measures.map((measure) => ({
    way: rows.wayOf(measure.height),
    ratio: measure.relaxed / measure.body,
  }));
  const drafts = SIDES.map((side) => draftedSide(side, { rows, knots, length }));
  return {
    pattern: {
      name: 'waist shaper',
      panels: drafts.map(({ panel }) => panel),
      seams: [{ name: 'side', one: edge('front', 'side'), other: edge('back', 'side'), turned: false }],
      centre: SIDES.map((side) => edge(side, 'centre')),
    },
    placing: {
      points: drafts.flatMap(({ points }) => points),
      facing: { front: [0.3, 0, 0.95], back: [0.3, 0, -0.95] },
      held: SIDES.flatMap((side) =>
        (['hem', 'top'] as const).map((name) => ({
          edge: edge(side, name),
          normal: [0, 1, 0] as const,
          offset: heights[name],
        })),
      ),
    },
    measures: [...measures, { name: 'side', relaxed: length, body: length / rows.scale }],
    scaling: {
      around: (height) => drafts[0]!.ratioAt(rows.wayOf(height)),
      along: rows.scale,
    },
  };
}

interface SideDraft {
  readonly rows: SideRows;
  readonly knots: readonly { readonly way: number; readonly ratio: number }[];
  readonly length: number;
}

function draftedSide(side: Side, { rows, knots, length }: SideDraft) {
  const { widthAt, ratioAt } = relaxedWidths(
    rows.rows.map((row, i) => ({ way: rows.ways[i]!, length: row[side] })),
    knots,
  );
  const half = truedHalf(widthAt, length);
  const end = side === 'front' ? 'frontEnd' : 'backEnd';
  const points = rows.rows.flatMap((row, i): PlacedPoint[] => {
    if (i % GUIDING !== 0) return [];
    const way = rows.ways[i]!;
    return [
      { panel: side, at: half.centre(way), body: row[end] },
      { panel: side, at: pointAt(half.seam, way), body: row.side },
    ];
  });
  return { panel: panelOf(side, half, length), points, ratioAt };
}

function panelOf(name: Side, half: TruedHalf, length: number): Panel {
  const hem = half.row(0);
  const top = half.row(length);
  return {
    name,
    edges: [
      { name: 'hem', points: hem },
      { name: 'side', points: seamPoints(half, length) },
      { name: 'top', points: top.toReversed() },
      { name: 'centre', points: [top[0]!, hem[0]!] },
    ],
  };
}

/** Heights of the levels on this body; those it has not are left out. */
function shaperHeights(
  landmarks: Landmarks,
  length: number,
  laid: Readonly<Record<string, number>>,
): Readonly<Record<string, number>> & { readonly top: number; readonly hem: number } {
  const top = laid['top'] ?? landmarks.underbustFront?.point[1];
  if (top === undefined) throw new Fault('block/no-landmark', { landmark: 'underbustFront' });
  const known: Record<string, number> = {};
  for (const level of ['waist', 'topHip', 'hip'] as const) {
    const landmark = landmarks[`${level}Front`];
    if (landmark) known[level] = landmark.point[1];
  }
  return { ...known, top, hem: laid['hem'] ?? top - length };
}
