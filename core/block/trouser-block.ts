import type { Body } from '../body/body.ts';
import type { PlacedPoint } from '../garment/place-pattern.ts';
import type { Triple } from '../mesh/triple.ts';
import { curveLength } from '../pattern/arc-length.ts';
import type { EdgeOf, FlatPoint, Panel } from '../pattern/pattern.ts';
import { monotoneCubic, valueAt, type MonotoneCubic } from '../units/monotone-cubic.ts';
import type { TrouserSheet } from './block-sheet.ts';
import type { DraftedBlock } from './drafted-block.ts';
import { curveBetween, turned, unit } from './flat-curves.ts';
import { bowOf, directionAt, pointAt, seamOf, truedRow, type SideSeam } from './side-seam.ts';
import { smoothed } from './trued-half.ts';
import { trouserRows, type Side, type TrouserRows } from './trouser-rows.ts';

/** A block with legs. */
export interface TrouserBlock extends DraftedBlock {
  /** How far the waist stands above a trued one at centre front and back so that the rises are as long as the sheet says, m. */
  readonly raise: Readonly<Record<Side, number>>;
  /** Relaxed way up the side from the hem to the height of the body's crotch, m. */
  readonly crotchWay: number;
}

/** Points of a drafted side seam. */
const SAMPLES = 96;
/** Rounds in which rows are brought to their length. */
const TRUING = 5;
/** Between rise and inseam; together, left and right, 2 (95 + 110) = 410 degrees meet in the crotch. Common practice: 380 to 440. */
const CROTCH_ANGLE: Readonly<Record<Side, number>> = {
  front: (95 * Math.PI) / 180,
  back: (110 * Math.PI) / 180,
};
/** Share of the way down that a rise runs straight, and its handles below. */
const RISE = { straight: 0.54, handles: [0.42, 0.38] as const };

const edge = (panel: Side, name: string): EdgeOf => ({ panel, edge: name });

/**
 * Drafts front and back of a garment with legs, by halves, from a spec sheet and the body it is for.
 *
 * The sheet's girth over the body's own row at each level is a ratio; between levels it runs smoothly with the height. A row
 * of the draft is the body's row times its ratio, shared out between front and back as on the body. Trunk rows meet the
 * centre and the side seam square; the crotch lies where the leg's rows and the inseam put it; the rise arrives there at a
 * pattern cutter's angle and is made as long as the sheet says by raising the waist.
 *
 * @throws {Fault} `garment/level-off-body`, `garment/region-not-here` where the body has no such row.
 */
export function draftTrousers(body: Body, sheet: TrouserSheet): TrouserBlock {
  const rows = trouserRows(body, sheet);
  const sides = { front: draftHalf('front', rows, sheet), back: draftHalf('back', rows, sheet) };
  const seam = (name: string) => ({
    name,
    one: edge('front', name),
    other: edge('back', name),
    turned: false,
  });
  return {
    pattern: {
      name: 'trousers',
      panels: [sides.front.panel, sides.back.panel],
      seams: [seam('side'), seam('inseam')],
      centre: [edge('front', 'rise'), edge('back', 'rise')],
    },
    placing: {
      points: [...sides.front.points, ...sides.back.points],
      facing: { front: [0.3, 0, 0.95], back: [0.3, 0, -0.95] },
      held: (['front', 'back'] as const).flatMap((side) => [
        { edge: edge(side, 'waist'), normal: [0, 1, 0] as const, offset: rows.waist.height },
        { edge: edge(side, 'hem'), normal: [0, 1, 0] as const, offset: rows.hem.height },
      ]),
    },
    measures: rows.measures,
    crotchWay: valueAt(rows.way, rows.crotch[1]),
    scaling: { around: (height) => valueAt(rows.ratio, height), along: rows.scale },
    raise: { front: sides.front.raise, back: sides.back.raise },
  };
}

interface DraftedHalf {
  readonly panel: Panel;
  readonly points: readonly PlacedPoint[];
  readonly raise: number;
}

function draftHalf(side: Side, rows: TrouserRows, { lengths }: TrouserSheet): DraftedHalf {
  const { trunk, leg } = rows;
  const hipWay = valueAt(rows.way, rows.hip.height);
  const crotchWay = valueAt(rows.way, rows.crotch[1]);
  const legWidth = (way: number) => valueAt(leg[side], way);
  const whole = lengths.side;
  const ways = Array.from({ length: SAMPLES + 1 }, (_, i) => (whole * i) / SAMPLES);
  /** What rows lose by bowing: their chords are shorter than they are. */
  const bowed = new Float64Array(SAMPLES + 1);
  const sideX = (): MonotoneCubic => {
    const xs = ways.map((way, i) => {
      const hip = valueAt(trunk[side], Math.max(way, hipWay)) - bowed[i]!;
      return way >= crotchWay ? hip : hip - (legWidth(crotchWay) - legWidth(way)) / 2;
    });
    return monotoneCubic(ways, smoothed(xs));
  };
  let seam = seamOf(sideX(), ways);
  /** The same of the hem. */
  let hemBowed = 0;
  const inner = (way: number): FlatPoint => {
    const [x, y] = pointAt(seam, way);
    return [x - legWidth(way) + hemBowed * Math.max(0, 1 - way / crotchWay), y];
  };
  let draft = drawn(side, { seam, inner, lengths, whole });
  for (let round = 0; round < TRUING; round++) {
    const waistMiss = curveLength(draft.waist) - valueAt(trunk[side], whole);
    ways.forEach((way, i) => {
      if (way <= hipWay) return;
      const [x, y] = pointAt(seam, way);
      const row = truedRow(seam, way, [0, y + bowOf(seam, way)]);
      const share = (way - hipWay) / (whole - hipWay);
      bowed[i] = (1 - share) * (curveLength(row) - x) + share * (bowed[i]! + waistMiss);
    });
    hemBowed += curveLength(draft.hem) - legWidth(0);
    seam = seamOf(sideX(), ways);
    draft = drawn(side, { seam, inner, lengths, whole });
  }
  const front = side === 'front';
  const [, hipY] = pointAt(seam, hipWay);
  const point = (at: FlatPoint, body: Readonly<Triple>): PlacedPoint => ({ panel: side, at, body });
  return {
    panel: {
      name: side,
      edges: [
        { name: 'hem', points: draft.hem },
        { name: 'side', points: ways.map((way) => pointAt(seam, way)) },
        { name: 'waist', points: draft.waist.toReversed() },
        { name: 'rise', points: draft.rise },
        { name: 'inseam', points: draft.inseam },
      ],
    },
    points: [
      point(draft.waist[0]!, front ? rows.waist.frontEnd : rows.waist.backEnd),
      point(draft.waist.at(-1)!, rows.waist.side),
      point([0, hipY], front ? rows.hip.frontEnd : rows.hip.backEnd),
      point(pointAt(seam, hipWay), rows.hip.side),
      point(draft.inseam[0]!, rows.crotch),
      point(draft.hem[0]!, rows.hem.frontEnd),
      point(draft.hem.at(-1)!, rows.hem.side),
      ...rows.along.flatMap((row) => {
        const way = valueAt(rows.way, row.height);
        return [point(pointAt(seam, way), row.side), point(inner(way), row.frontEnd)];
      }),
    ],
    raise: draft.raise,
  };
}

interface DraftParts {
  readonly seam: SideSeam;
  readonly inner: (way: number) => FlatPoint;
  readonly lengths: TrouserSheet['lengths'];
  readonly whole: number;
}

/** Hem, inseam, rise and waist, once the side seam stands; each from the inside outwards or from the top down. */
function drawn(side: Side, { seam, inner, lengths, whole }: DraftParts) {
  const inseam = inseamOf(inner, lengths.inseam, whole);
  const crotch = inseam[0]!;
  const down = unit([inseam[1]![0] - crotch[0], inseam[1]![1] - crotch[1]]);
  const leaves = turned(down, CROTCH_ANGLE[side]);
  const riseFrom = (top: number): FlatPoint[] => {
    const knee: FlatPoint = [0, top - RISE.straight * (top - crotch[1])];
    const below = curveBetween(
      { at: knee, leave: [0, -1] },
      { at: crotch, arrive: [-leaves[0], -leaves[1]] },
      RISE.handles,
    );
    return [[0, top], ...below];
  };
  const natural = pointAt(seam, whole)[1] + bowOf(seam, whole);
  const top = rootOf(
    (at) => curveLength(riseFrom(at)) - lengths[`${side}Rise`],
    [crotch[1] + 0.02, crotch[1] + 2 * lengths[`${side}Rise`]],
  );
  return {
    inseam,
    rise: riseFrom(top),
    raise: top - natural,
    waist: truedRow(seam, whole, [0, top]),
    hem: hemOf(seam, inseam),
  };
}

/** From the crotch down to the hem, as long as the sheet says: how far up the leg's inside it reaches follows. */
function inseamOf(inner: (way: number) => FlatPoint, length: number, whole: number): FlatPoint[] {
  const upTo = (way: number) => Array.from({ length: SAMPLES + 1 }, (_, i) => inner((way * i) / SAMPLES));
  const way = rootOf((end) => curveLength(upTo(end)) - length, [0.001, whole]);
  return upTo(way).toReversed();
}

/** From the inside to the side, meeting inseam and side seam square. */
function hemOf(seam: SideSeam, inseam: readonly FlatPoint[]): FlatPoint[] {
  const [dx, dy] = directionAt(seam, 0);
  const inside = inseam.at(-1)!;
  const before = inseam.at(-2)!;
  const up = unit([before[0] - inside[0], before[1] - inside[1]]);
  const outside = pointAt(seam, 0);
  return curveBetween({ at: inside, leave: [up[1], -up[0]] }, { at: outside, arrive: [dy, -dx] });
}

/** Where a rising function is 0. */
function rootOf(of: (at: number) => number, [low, high]: readonly [number, number]): number {
  let [from, to] = [low, high];
  for (let i = 0; i < 60; i++) {
    const middle = (from + to) / 2;
    if (of(middle) < 0) from = middle;
    else to = middle;
  }
  return (from + to) / 2;
}
