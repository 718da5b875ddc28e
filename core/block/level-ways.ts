import type { Body } from '../body/body.ts';
import type { Landmark } from '../body/landmarks.ts';
import type { Placing } from '../garment/place-pattern.ts';
import { trianglesBetween } from '../mesh/section.ts';
import { lengthsAlong } from '../pattern/arc-length.ts';
import { nearestOn } from '../pattern/flat-outline.ts';
import { curveOf, type EdgeOf, type Pattern } from '../pattern/pattern.ts';
import { monotoneCubic, valueAt } from '../units/monotone-cubic.ts';
import type { BlockSheet } from './blocks.ts';
import { bodyRow } from './body-rows.ts';
import { STOCKING_POINTS, stockingHeights } from './stocking-levels.ts';

/** An edge that is sewn along the body, and how far along it each height lies. */
export interface Guide {
  readonly edge: string;
  /** Panels that have it. */
  readonly panels: readonly string[];
  /** Relaxed way from the edge's lower end, m; null beyond the points that the draft places. */
  readonly wayOf: (height: number) => number | null;
}

/** Placed points count as on an edge within this, m. */
const ON_EDGE = 1e-4;
/** Rows of the body between two placed points. */
const ROWS = 6;

/**
 * Height on the body of one of a sheet's levels, m; null where the body has no such level.
 */
export function levelHeight(
  { landmarks }: Pick<Body, 'landmarks'>,
  sheet: BlockSheet,
  name: string,
): number | null {
  const laid = sheet.laid?.[name];
  if (laid !== undefined) return laid;
  if (sheet.block === 'stocking') {
    const point = STOCKING_POINTS.find((one) => one === name);
    return point === undefined ? null : stockingHeights(landmarks, sheet.laid)[point];
  }
  const named: Readonly<Record<string, Landmark | undefined>> = landmarks;
  const heightOf = (landmark: string): number | null => named[landmark]?.point[1] ?? null;
  const height = heightOf(`${name}Front`) ?? heightOf(`${name}Left`);
  const crotch = heightOf('crotch');
  // One leg by itself, as the blocks with legs take it.
  return name === 'thigh' && height !== null && crotch !== null ? Math.min(height, crotch - 0.02) : height;
}

/**
 * The seam up which a block's levels are counted, and the way along it to each height.
 *
 * Between the points that the draft places on the body the seam follows the side of the body, all of it made shorter alike.
 *
 * @returns null where no seam is placed at two heights.
 */
export function guideOf(
  pattern: Pattern,
  { points }: Placing,
  body: Pick<Body, 'skin' | 'landmarks'>,
): Guide | null {
  const sewn = pattern.seams.flatMap(({ one, other }) => [one, other]);
  const candidates = sewn.map((edge) => ({ edge, knots: knotsOn(pattern, edge, points) }));
  const best =
    candidates.find(({ edge, knots }) => edge.edge === 'side' && knots.length > 1) ??
    candidates.toSorted((one, other) => other.knots.length - one.knots.length)[0];
  if (best === undefined || best.knots.length < 2) return null;
  const { edge, knots } = best;
  const wayOf = edge.edge === 'side' ? alongSide(body, knots) : smoothThrough(knots);
  return {
    edge: edge.edge,
    panels: sewn.filter((one) => one.edge === edge.edge).map(({ panel }) => panel),
    wayOf: (height) => (isBetween(knots, height) ? wayOf(height) : null),
  };
}

interface Knot {
  readonly height: number;
  readonly way: number;
}

const isBetween = (knots: readonly Knot[], height: number): boolean =>
  height > knots[0]!.height - ON_EDGE && height < knots.at(-1)!.height + ON_EDGE;

/** Points that the draft lays on the body and that lie on an edge, lowest first. */
function knotsOn(pattern: Pattern, edge: EdgeOf, points: Placing['points']): Knot[] {
  const curve = curveOf(pattern, edge).points;
  const along = lengthsAlong(curve);
  const knots = points
    .filter(({ panel }) => panel === edge.panel)
    .flatMap(({ at, body }): Knot[] => {
      const { segment, share, away } = nearestOn(curve, at);
      if (away > ON_EDGE) return [];
      const next = Math.min(along.length - 1, segment + 1);
      return [{ height: body[1], way: along[segment]! + share * (along[next]! - along[segment]!) }];
    })
    .toSorted((one, other) => one.height - other.height);
  const runsUp = knots.length < 2 || knots.at(-1)!.way > knots[0]!.way;
  const whole = along.at(-1)!;
  return runsUp ? knots : knots.map(({ height, way }) => ({ height, way: whole - way }));
}

const smoothThrough = (knots: readonly Knot[]): ((height: number) => number) => {
  const curve = monotoneCubic(
    knots.map(({ height }) => height),
    knots.map(({ way }) => way),
  );
  return (height) => valueAt(curve, height);
};

/** Between two knots in proportion to the way along the body's side. */
function alongSide(
  { skin, landmarks }: Pick<Body, 'skin' | 'landmarks'>,
  knots: readonly Knot[],
): (height: number) => number {
  const crotch = landmarks.crotch?.point[1] ?? -Infinity;
  const near = trianglesBetween(skin, knots[0]!.height, knots.at(-1)!.height);
  const sideAt = (height: number) => bodyRow(near, height > crotch ? 'trunk' : 'leftLeg', height).side;
  const bodyWay = (from: number, to: number): number => {
    let length = 0;
    let before = sideAt(from);
    for (let i = 1; i <= ROWS; i++) {
      const here = sideAt(from + ((to - from) * i) / ROWS);
      length += Math.hypot(here[0] - before[0], here[1] - before[1], here[2] - before[2]);
      before = here;
    }
    return length;
  };
  return (height) => {
    let i = 0;
    while (i < knots.length - 2 && knots[i + 1]!.height < height) i++;
    const [low, high] = [knots[i]!, knots[i + 1]!];
    const share = bodyWay(low.height, height) / (bodyWay(low.height, height) + bodyWay(height, high.height));
    return low.way + share * (high.way - low.way);
  };
}
