import type { Triple } from '../mesh/triple.ts';
import type { FoundLevels } from './landmark-find.ts';
import {
  ARM_LEVEL_NAMES,
  LEG_LEVEL_NAMES,
  TRUNK_LEVEL_NAMES,
  type Landmark,
  type LandmarkName,
  type Landmarks,
  type LegLevelName,
} from './landmarks.ts';
import { alongRay, outermost, sliceRound, type Slice, type Slicer } from './tape-slices.ts';

/** Which way a landmark of the leg lies from the leg's middle: kneecap in front, calf behind, ankle at the outer side. */
const LEG_SIDES: Readonly<Record<LegLevelName, 'front' | 'back' | 'outer'>> = {
  thigh: 'front',
  midThigh: 'front',
  knee: 'front',
  calf: 'back',
  ankle: 'outer',
};

type Points = Partial<Record<LandmarkName, Landmark>>;

/** The named points at levels that were found, on a body that faces +z. */
export function landmarkPoints(slicer: Slicer, found: FoundLevels): Landmarks {
  const [[lx, lz], [rx, rz]] = found.tops;
  return {
    crotch: { point: [(lx + rx) / 2, found.crotch, (lz + rz) / 2], how: 'found' },
    ...trunkPoints(slicer, found),
    ...limbPoints(slicer, found, 'Left'),
    ...limbPoints(slicer, found, 'Right'),
  };
}

function trunkPoints(slicer: Slicer, { tops, trunk: { levels } }: FoundLevels): Points {
  const points: Points = {};
  const middle = [(tops[0][0] + tops[1][0]) / 2, (tops[0][1] + tops[1][1]) / 2] as const;
  for (const name of TRUNK_LEVEL_NAMES) {
    const level = levels[name];
    const slice = level === undefined ? null : sliceRound(slicer.at(level), middle, 0.15);
    if (slice === null) continue;
    const around = aroundTrunk(slice, middle[0]);
    for (const end of TRUNK_ENDS) points[`${name}${end}`] = { point: around[end], how: 'found' };
  }
  if (levels.bust !== undefined) putExtremes(slicer, levels.bust, 1, { points, name: 'bustPoint' });
  if (levels.hip !== undefined) putExtremes(slicer, levels.hip, -1, { points, name: 'seatPoint' });
  return points;
}

function limbPoints(slicer: Slicer, found: FoundLevels, side: 'Left' | 'Right'): Points {
  const points: Points = {};
  const [leg, arm, armpit, top] =
    side === 'Left'
      ? [found.left, found.leftArm, found.trunk.armpits.left, found.tops[0]]
      : [found.right, found.rightArm, found.trunk.armpits.right, found.tops[1]];
  for (const name of LEG_LEVEL_NAMES) {
    const point = legPoint(slicer, leg.levels[name], { top, name, side });
    if (point !== null) points[`${name}${side}`] = { point, how: 'found' };
  }
  if (armpit !== undefined) points[`armpit${side}`] = { point: armpit, how: 'found' };
  if (arm === null) return points;
  points[`shoulder${side}`] = { point: arm.shoulder, how: 'found' };
  for (const name of ARM_LEVEL_NAMES) points[`${name}${side}`] = { point: arm.levels[name], how: 'found' };
  return points;
}

/** The four points of a trunk level. */
export const TRUNK_ENDS = ['Front', 'Back', 'SideLeft', 'SideRight'] as const;

/** Centre front, centre back and sides of a trunk level. */
export type TrunkPoints = Readonly<Record<(typeof TRUNK_ENDS)[number], Triple>>;

/** Where a level's section meets the middle plane, and its outermost points; the body faces +z. */
export function aroundTrunk(slice: Slice, middleX: number): TrunkPoints {
  const [, z] = slice.centroid;
  const lift = ([px, pz]: readonly [number, number]): Triple => [px, slice.level, pz];
  const from = [middleX, z] as const;
  return {
    Front: lift(alongRay(slice, from, [0, 1]) ?? outermost(slice, [0, 1])),
    Back: lift(alongRay(slice, from, [0, -1]) ?? outermost(slice, [0, -1])),
    SideLeft: lift(outermost(slice, [1, 0])),
    SideRight: lift(outermost(slice, [-1, 0])),
  };
}

/** How far from a level the foremost point of a breast, or the hindmost of a seat, is looked for, m. */
const EXTREME_REACH = 0.03;

/** The foremost (or hindmost) point of each half, over a few levels. */
function putExtremes(
  slicer: Slicer,
  level: number,
  way: 1 | -1,
  into: { readonly points: Points; readonly name: 'bustPoint' | 'seatPoint' },
): void {
  for (const [side, sign] of [
    ['Left', 1],
    ['Right', -1],
  ] as const) {
    let best: Triple | null = null;
    for (let i = -10; i <= 10; i++) {
      const at = level + (i / 10) * EXTREME_REACH;
      const slice = slicer.at(at)[0];
      if (slice === undefined) continue;
      for (let p = 0; p < slice.points.length; p += 2) {
        const [x, z] = [slice.points[p]!, slice.points[p + 1]!];
        const isBetter = best === null || way * (z - best[2]) > 0;
        if (sign * (x - slice.centroid[0]) > 0 && isBetter) best = [x, at, z];
      }
    }
    if (best !== null) into.points[`${into.name}${side}`] = { point: best, how: 'found' };
  }
}

function legPoint(
  slicer: Slicer,
  level: number,
  { top, name, side }: { top: readonly [number, number]; name: LegLevelName; side: 'Left' | 'Right' },
): Triple | null {
  const sign = side === 'Left' ? 1 : -1;
  // Of the pieces at that level, the leg is the large one on its own side.
  const slice = slicer
    .at(level)
    .filter(({ centroid }) => sign * centroid[0] > sign * top[0] - 0.12)
    .sort((one, other) => other.area - one.area)[0];
  if (slice === undefined) return null;
  const way = { front: [0, 1], back: [0, -1], outer: [sign, 0] } as const;
  const at = alongRay(slice, slice.centroid, way[LEG_SIDES[name]]);
  return at === null ? null : [at[0], level, at[1]];
}
