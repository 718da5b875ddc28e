import { BODY_REGIONS, type BodyRegion } from '../body/body-regions.ts';
import type { Body, Girth } from '../body/body.ts';

/** Which way a place on the cloth faces. `around`: all the way round. */
export type Side =
  | 'front'
  | 'back'
  | 'left'
  | 'right'
  | 'leftFront'
  | 'rightFront'
  | 'leftBack'
  | 'rightBack'
  | 'bothSides'
  | 'bothFronts'
  | 'bothBacks'
  | 'around';

/** Where on the body something is, as a fitter would point at it. */
export interface Place {
  /** The nearest measured level (`waist`, `hip`, ...), or null where none is near. */
  readonly level: string | null;
  /** Height on the body, m. */
  readonly height: number;
  readonly side: Side;
  /** Region of the nearest skin; left out where the body knows none. */
  readonly region?: BodyRegion;
  /** Set where the place runs along a free edge of the garment. */
  readonly hem: 'upper' | 'lower' | null;
}

/** A level farther away than this does not name a place, m. */
const LEVEL_REACH = 0.09;

/** Name of the measured level nearest to `height`; null where the nearest is too far to name it. */
export function levelNear(girths: readonly Girth[], height: number): string | null {
  let nearest: Girth | null = null;
  for (const girth of girths) {
    if (nearest === null || Math.abs(girth.level - height) < Math.abs(nearest.level - height))
      nearest = girth;
  }
  return nearest !== null && Math.abs(nearest.level - height) <= LEVEL_REACH ? nearest.name : null;
}

/**
 * Angle about the vertical axis of the cloth at the point's height: 0 in front, rising to the wearer's left, in
 * (-pi, pi].
 *
 * @param centre - x and z of the axis, m.
 */
export const angleAbout = (centre: readonly [number, number], x: number, z: number): number =>
  Math.atan2(x - centre[0], z - centre[1]);

const EIGHTH = Math.PI / 8;

/** Name of a direction: eight of them, 45 degrees each. */
export function sideOf(angle: number): Side {
  const names: readonly Side[] = ['front', 'leftFront', 'left', 'leftBack', 'back'];
  const index = Math.round(Math.abs(angle) / (2 * EIGHTH));
  const side = names[index]!;
  if (angle >= 0) return side;
  return MIRRORED[side];
}

/** The same side seen in a mirror. */
export const MIRRORED: Readonly<Record<Side, Side>> = {
  front: 'front',
  back: 'back',
  left: 'right',
  right: 'left',
  leftFront: 'rightFront',
  rightFront: 'leftFront',
  leftBack: 'rightBack',
  rightBack: 'leftBack',
  bothSides: 'bothSides',
  bothFronts: 'bothFronts',
  bothBacks: 'bothBacks',
  around: 'around',
};

/** Centre of the cloth's own section per horizontal slab, so that a leg is named about the leg and not the trunk. */
export interface ClothAxis {
  readonly centreAt: (height: number) => readonly [number, number];
}

const SLAB = 0.02;

/**
 * The axis a tube goes round: the middle of the cloth's extent in slabs of 20 mm.
 *
 * @param positions - Worn cloth, 3·V, m.
 */
export function clothAxis(positions: Float64Array): ClothAxis {
  const boxes = new Map<number, { lowX: number; highX: number; lowZ: number; highZ: number }>();
  for (let v = 0; v < positions.length; v += 3) {
    const [x, y, z] = [positions[v]!, positions[v + 1]!, positions[v + 2]!];
    const slab = Math.floor(y / SLAB);
    const box = boxes.get(slab);
    if (box === undefined) boxes.set(slab, { lowX: x, highX: x, lowZ: z, highZ: z });
    else {
      box.lowX = Math.min(box.lowX, x);
      box.highX = Math.max(box.highX, x);
      box.lowZ = Math.min(box.lowZ, z);
      box.highZ = Math.max(box.highZ, z);
    }
  }
  const slabs = [...boxes.keys()];
  return {
    centreAt: (height) => {
      const wanted = Math.floor(height / SLAB);
      const nearest = slabs.reduce(
        (best, slab) => (Math.abs(slab - wanted) < Math.abs(best - wanted) ? slab : best),
        slabs[0] ?? wanted,
      );
      const box = boxes.get(nearest);
      return box === undefined ? [0, 0] : [(box.lowX + box.highX) / 2, (box.lowZ + box.highZ) / 2];
    },
  };
}

/** What naming places needs of a body; without skin and regions only levels and sides are named. */
export type MeasuredBody = Pick<Body, 'girths'> & Partial<Pick<Body, 'skin' | 'regions'>>;

/** Region of the skin vertex nearest to a point; null on a body that knows none. */
export function regionNear(
  { skin, regions }: MeasuredBody,
  point: readonly [number, number, number],
): BodyRegion | null {
  if (skin === undefined || regions === undefined || regions === null) return null;
  const { positions } = skin;
  let best = Infinity;
  let nearest = 0;
  for (let v = 0; v < regions.region.length; v++) {
    const squared =
      (positions[3 * v]! - point[0]) ** 2 +
      (positions[3 * v + 1]! - point[1]) ** 2 +
      (positions[3 * v + 2]! - point[2]) ** 2;
    if (squared < best) [best, nearest] = [squared, v];
  }
  return BODY_REGIONS[regions.region[nearest]!]!;
}
