import type { Finding } from '../fault/finding.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import type { Triple } from '../mesh/triple.ts';
import { degreesFromRadians, mmFromMetres } from '../units/units.ts';
import { findArm, type ArmLevels } from './landmark-arms.ts';
import { facingOf, SURE_FACING } from './landmark-facing.ts';
import {
  findLegs,
  legLevels,
  LEVEL_SHARE,
  type Column,
  type LegColumns,
  type LegLevels,
} from './landmark-legs.ts';
import { landmarkPoints } from './landmark-points.ts';
import { trunkColumn, trunkLevels, type TrunkLevels } from './landmark-trunk.ts';
import type { Landmarks } from './landmarks.ts';
import { frameOf, meshInFrame, outOfFrame, type TapeFrame } from './tape-frame.ts';
import { slicerOf, type Slicer } from './tape-slices.ts';

/** What is known of a standing person's mesh from its shape alone. */
export interface FoundBody {
  readonly landmarks: Landmarks;
  /** y, m. */
  readonly floor: number;
  readonly forward: Readonly<Triple>;
  readonly findings: readonly Finding[];
}

/** All levels, in a frame in which the wearer faces +z. */
export interface FoundLevels {
  readonly crotch: number;
  /** Middles of the legs at the crotch, left first; x, z. */
  readonly tops: LegColumns['tops'];
  readonly trunk: TrunkLevels;
  readonly left: LegLevels;
  readonly right: LegLevels;
  readonly leftArm: ArmLevels | null;
  readonly rightArm: ArmLevels | null;
}

/** Height of the crotch of the fit body of 1680 mm, m: lengths set by hand on it are scaled with the crotch. */
const FIT_CROTCH = 0.763;
/** A mesh that stands this share of its height or less above the origin ends above its feet; the floor is the origin. */
const MISSING_FEET = 0.12;
/** A trunk lower than so many levels is none. */
const FEWEST_LEVELS = 40;
/** A body turned by less is taken to face its file's front: people are not quite even; cosine of 3 degrees. */
const STRAIGHT = Math.cos(Math.PI / 60);

/**
 * Finds the landmarks of a standing person, facing anywhere, arms in any pose, from sections.
 *
 * @param skin - m, y up, closed.
 */
export function findLandmarks(skin: TriangleMesh): FoundBody {
  const slicer = slicerOf(skin);
  const floor = floorOf(slicer);
  const step = (slicer.high - slicer.low) * LEVEL_SHARE;
  const legs = findLegs(slicer);
  if (legs === null) return nobody(floor, 'two legs and a trunk above them are not seen');
  const trunk = trunkColumn(slicer, legs, step);
  if (trunk.length < FEWEST_LEVELS) return nobody(floor, 'the trunk ends just above the legs');
  const facing = facingOf(legs, trunk, floor);
  const isStraight = facing.forward[2] > STRAIGHT;
  const forward: Triple = isStraight ? [0, 0, 1] : [...facing.forward];
  const frame = frameOf([0, 1, 0], forward);
  const mesh = isStraight ? skin : meshInFrame(frame, skin);
  const turned = isStraight ? slicer : slicerOf(mesh);
  const found = isStraight
    ? levelsOf(mesh, turned, { floor, legs, column: trunk })
    : levelsOfTurned(mesh, turned, floor);
  if (found === null) return nobody(floor, 'the trunk is lost when the body is turned to the front');
  const points = landmarkPoints(turned, found);
  const unsure: Finding[] =
    facing.certainty < SURE_FACING
      ? [{ code: 'tape/facing-unsure', facts: { turnDegrees: turnOf(forward) } }]
      : [];
  return {
    landmarks: isStraight ? points : turnedBack(points, frame),
    floor,
    forward,
    findings: [...unsure, ...findingsOf(found, points, floor)],
  };
}

const nobody = (floor: number, problem: string): FoundBody => ({
  landmarks: {},
  floor,
  forward: [0, 0, 1],
  findings: [{ code: 'tape/no-person', facts: { problem } }],
});

const turnOf = ([x, , z]: Readonly<Triple>): number => degreesFromRadians(Math.atan2(x, z));

function floorOf({ low, high }: Slicer): number {
  return low > 0 && low < MISSING_FEET * (high - low) ? 0 : low;
}

function levelsOfTurned(mesh: TriangleMesh, slicer: Slicer, floor: number): FoundLevels | null {
  const legs = findLegs(slicer);
  if (legs === null) return null;
  const column = trunkColumn(slicer, legs, (slicer.high - slicer.low) * LEVEL_SHARE);
  return column.length < FEWEST_LEVELS ? null : levelsOf(mesh, slicer, { floor, legs, column });
}

function levelsOf(
  mesh: TriangleMesh,
  slicer: Slicer,
  { floor, legs, column }: { readonly floor: number; readonly legs: LegColumns; readonly column: Column },
): FoundLevels {
  const { crotch } = legs;
  const scale = (crotch - floor) / FIT_CROTCH;
  const trunk = trunkLevels(slicer, column, scale);
  const isLeft = legs.tops[0][0] > legs.tops[1][0];
  const [left, right] = isLeft ? legs.legs : [legs.legs[1], legs.legs[0]];
  const arm = (armpit: Triple | undefined, sign: 1 | -1): ArmLevels | null =>
    armpit === undefined ? null : findArm({ mesh, armpit, sign, scale });
  return {
    crotch,
    tops: isLeft ? legs.tops : [legs.tops[1], legs.tops[0]],
    trunk,
    left: legLevels(left, { crotch, floor, scale }),
    right: legLevels(right, { crotch, floor, scale }),
    leftArm: arm(trunk.armpits.left, 1),
    rightArm: arm(trunk.armpits.right, -1),
  };
}

function turnedBack(landmarks: Landmarks, frame: TapeFrame): Landmarks {
  return Object.fromEntries(
    Object.entries(landmarks).map(([name, { point, how }]) => [
      name,
      { point: outOfFrame(frame, point), how },
    ]),
  );
}

function findingsOf(found: FoundLevels, landmarks: Landmarks, floor: number): Finding[] {
  const { trunk, leftArm, rightArm } = found;
  const findings: Finding[] = [];
  const missing = [
    ...(landmarks.neckFront === undefined ? ['neck'] : []),
    ...(leftArm === null ? ['left arm'] : []),
    ...(rightArm === null ? ['right arm'] : []),
  ];
  if (missing.length > 0) {
    findings.push({ code: 'tape/not-found', facts: { landmarks: missing.join(', ') } });
  }
  if (trunk.isWaistByProportion) {
    const heightMm = mmFromMetres(trunk.levels.waist! - floor);
    findings.push({ code: 'tape/no-waist', facts: { heightMm } });
  }
  return [...findings, ...endsOf(found)];
}

/** Where the body is cut off instead of going on to head, feet and hands. */
function endsOf({ trunk, left, right, leftArm, rightArm }: FoundLevels): Finding[] {
  const ends = [];
  if (trunk.doesNeckEnd) ends.push('neck');
  if (left.doesEnd || right.doesEnd) ends.push('ankle');
  if (leftArm?.doesEnd === true || rightArm?.doesEnd === true) ends.push('wrist');
  return ends.map((level): Finding => ({ code: 'tape/limb-ends', facts: { level } }));
}
