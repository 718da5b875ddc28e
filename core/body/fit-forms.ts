/**
 * The two base figures of the fit body: outlines, masses and joins as data. Lengths in mm for a stature of 1680 mm,
 * angles in degrees. Hand-set by us from general anthropometric knowledge, adjusted by eye on renders.
 */
import { FEMALE_TRUNK, LEG, MALE_THIGH, MALE_TRUNK, type LegRow, type TrunkRow } from './fit-tables.ts';
import type { EggMass } from './fit-masses.ts';

/** Stature the tables are drawn for. */
export const BASE_STATURE = 1680;

/** An egg and how softly it joins the body: below its middle, above it, and with its mirror image. */
export interface SoftMass extends EggMass {
  readonly join: number;
  readonly joinTop: number;
  readonly joinMiddle: number;
}

/** One base figure. */
export interface FitForm {
  readonly trunk: readonly TrunkRow[];
  readonly leg: readonly LegRow[];
  readonly armJoint: readonly [number, number, number];
  readonly breast: SoftMass | null;
  readonly seat: SoftMass;
  readonly mound: SoftMass;
  /** Where the girth that sets the rib cage is taken: under the bust, or at the chest. */
  readonly ribsLevel: number;
}

/** What both figures share. */
export const SHAPE = {
  /** Arm away from the vertical, degrees. */
  armAbduction: 38,
  /** No arm is lifted farther than this to clear the chest, degrees. */
  mostAbduction: 55,
  armTop: 40,
  armTopJoin: 60,
  armJoin: 60,
  /** Legs pass into the trunk between these heights, ... */
  fade: [755, 880],
  /** ... later to the side of the groin: by `lift`, half of it at `halfWidth` from the middle. */
  groin: { lift: 66, halfWidth: 80 },
  /** Join of the two legs: from `low` to `high` between two heights. */
  legJoin: { low: 16, high: 56, from: 680, to: 775 },
  neckCut: 1488,
  wristCut: -548,
  ankleCut: 85,
  cutJoin: 36,
  /** No part of the trunk or legs lies farther to the side. */
  trunkReach: 290,
} as const;

// prettier-ignore
export const FEMALE_FORM: FitForm = {
  trunk: FEMALE_TRUNK,
  leg: LEG,
  armJoint: [153, 1309, -22],
  breast: { centre: [80, 1194, 62], across: 60, up: 100, down: 56, deep: 62, yaw: 8, pitch: 24, join: 38, joinTop: 90, joinMiddle: 40 },
  seat: { centre: [76, 851, -56], across: 92, up: 110, down: 83, deep: 77, yaw: -10, pitch: 0, join: 40, joinTop: 70, joinMiddle: 46 },
  mound: { centre: [0, 834, 36], across: 92, up: 74, down: 60, deep: 54, yaw: 0, pitch: 0, join: 64, joinTop: 64, joinMiddle: 64 },
  ribsLevel: 1118,
};

// prettier-ignore
export const MALE_FORM: FitForm = {
  trunk: MALE_TRUNK,
  leg: LEG.map(maleThigh),
  armJoint: [179, 1308, -22],
  breast: null,
  seat: { centre: [70, 846, -52], across: 82, up: 98, down: 78, deep: 68, yaw: -8, pitch: 0, join: 40, joinTop: 70, joinMiddle: 40 },
  mound: { centre: [0, 822, 44], across: 56, up: 64, down: 54, deep: 54, yaw: 0, pitch: 0, join: 64, joinTop: 64, joinMiddle: 64 },
  ribsLevel: 1215,
};

/** The male leg is the female one, narrower to the side and fuller in front above the knee. */
function maleThigh(row: LegRow): LegRow {
  const [y, x, z, lateral, medial, front, back, ...rest] = row;
  if (y <= MALE_THIGH.above) return row;
  return [y, x, z, lateral * MALE_THIGH.lateral, medial, front * MALE_THIGH.front, back, ...rest];
}
