import type { Triple } from '../mesh/triple.ts';
import type { Column, LegColumns } from './landmark-legs.ts';
import type { Slice } from './tape-slices.ts';
import { unit } from './tape-frame.ts';

/** Which way a standing person looks. */
export interface Facing {
  /** Level unit vector from back to front. */
  readonly forward: Readonly<Triple>;
  /** Clear lengths by which feet, calves and neck agree, as a share of the height of the legs; small where in doubt. */
  readonly certainty: number;
}

/** Below this the signs contradict each other or say nothing. */
export const SURE_FACING = 0.008;

/**
 * Left to right is from leg to leg; front is where the feet point and where the neck leans, back is where the calves
 * stand out. Each sign is a length over the height of the legs.
 *
 * @param trunk - From the crotch up.
 */
export function facingOf({ legs, crotch }: LegColumns, trunk: Column, floor: number): Facing {
  const height = crotch - floor;
  const [one, other] = legs;
  const across = middleBetween(one, other);
  // Square to the line from leg to leg; which of the two ways, the signs tell.
  const guess = unit([-across[1], 0, across[0]]);
  const ahead = ([x, z]: readonly [number, number]): number => x * guess[0] + z * guess[2];
  const signs = legs.flatMap((leg) => [calfSign(leg, crotch, floor, ahead), footSign(leg, height, ahead)]);
  const sum = (signs.reduce((total, sign) => total + sign, 0) + neckSign(trunk, ahead)) / height;
  const forward: Triple = sum >= 0 ? guess : [-guess[0] + 0, 0, -guess[2] + 0];
  return { forward, certainty: Math.abs(sum) };
}

/** From the mean middle of one leg to that of the other; x, z. */
const middleBetween = (one: Column, other: Column): readonly [number, number] => [
  meanMiddle(other, 0) - meanMiddle(one, 0),
  meanMiddle(other, 1) - meanMiddle(one, 1),
];

const meanMiddle = (leg: Column, k: 0 | 1): number =>
  leg.reduce((sum, { centroid }) => sum + centroid[k], 0) / leg.length;

type Ahead = (point: readonly [number, number]) => number;

const nearest = (column: Column, level: number): Slice =>
  column.reduce((best, slice) =>
    Math.abs(slice.level - level) < Math.abs(best.level - level) ? slice : best,
  );

/** How far the fullest calf lies behind the line from ankle to knee. */
function calfSign(leg: Column, crotch: number, floor: number, ahead: Ahead): number {
  const at = (share: number): Slice => nearest(leg, floor + share * (crotch - floor));
  const [ankle, knee] = [at(0.17), at(0.6)];
  const calf = at(0.43);
  const share = (calf.level - ankle.level) / (knee.level - ankle.level || 1);
  const line = (1 - share) * ahead(ankle.centroid) + share * ahead(knee.centroid);
  return line - ahead(calf.centroid);
}

/** How far the lowest cut lies ahead of the ankle: nothing where the legs end above the feet. */
function footSign(leg: Column, height: number, ahead: Ahead): number {
  const lowest = leg[0]!;
  const ankle = nearest(leg, lowest.level + 0.15 * height);
  return lowest.area > 1.3 * ankle.area ? ahead(lowest.centroid) - ahead(ankle.centroid) : 0;
}

/** How far the neck's end leans ahead of the shoulders' middle, where there is a neck. */
function neckSign(trunk: Column, ahead: Ahead): number {
  const widest = Math.max(...trunk.map(({ area }) => area));
  const fromTop = trunk.toReversed().findIndex(({ area }) => area > 0.6 * widest);
  if (fromTop <= 0) return 0;
  const shoulders = trunk.at(-1 - fromTop)!;
  const neck = trunk.slice(-fromTop).reduce((best, slice) => (slice.area < best.area ? slice : best));
  return 0.5 * (ahead(neck.centroid) - ahead(shoulders.centroid));
}
