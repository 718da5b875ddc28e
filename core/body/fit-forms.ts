/**
 * The two base figures of the fit body: outlines, masses and joins as data. Lengths in mm for a stature of 1680 mm,
 * angles in degrees. Hand-set by us from general anthropometric knowledge, adjusted by eye on renders.
 */
import { FEMALE_LEG, FEMALE_TRUNK, MALE_LEG, MALE_TRUNK, type LegRow, type TrunkRow } from './fit-tables.ts';
import { FEMALE_RELIEF, MALE_RELIEF } from './fit-relief-tables.ts';
import type { ReliefStroke } from './fit-relief.ts';
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
  /** The breast as a garment holds it up. */
  readonly heldBreast: SoftMass | null;
  readonly seat: SoftMass;
  readonly mound: SoftMass;
  readonly relief: readonly ReliefStroke[];
  /** Legs pass into the trunk between these heights. */
  readonly fade: readonly [number, number];
  /** Join of the two legs: from `low` to `high` between two heights. */
  readonly legJoin: {
    readonly low: number;
    readonly high: number;
    readonly from: number;
    readonly to: number;
  };
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
  /** To the side of the groin, legs pass into the trunk later: by `lift`, half of it at `halfWidth` from the middle. */
  groin: { lift: 66, halfWidth: 80 },
  neckCut: 1488,
  wristCut: -577,
  ankleCut: 85,
  cutJoin: 36,
  /** No part of the trunk or legs lies farther to the side. */
  trunkReach: 290,
} as const;

// prettier-ignore
export const FEMALE_FORM: FitForm = {
  trunk: FEMALE_TRUNK,
  leg: FEMALE_LEG,
  armJoint: [153, 1309, -22],
  breast: { centre: [80, 1194, 62], across: 60, up: 100, down: 56, deep: 62, yaw: 8, pitch: 24, join: 38, joinTop: 90, joinMiddle: 40 },
  heldBreast: { centre: [73, 1209, 62], across: 66, up: 94, down: 64, deep: 62, yaw: 6, pitch: 12, join: 34, joinTop: 110, joinMiddle: 44 },
  seat: { centre: [76, 852, -56], across: 92, up: 109, down: 80, deep: 77, yaw: -10, pitch: 0, join: 40, joinTop: 70, joinMiddle: 46 },
  mound: { centre: [0, 842, 36], across: 92, up: 70, down: 58, deep: 54, yaw: 0, pitch: 0, join: 64, joinTop: 64, joinMiddle: 64 },
  relief: FEMALE_RELIEF,
  fade: [765, 882],
  legJoin: { low: 16, high: 56, from: 690, to: 785 },
  ribsLevel: 1118,
};

// prettier-ignore
export const MALE_FORM: FitForm = {
  trunk: MALE_TRUNK,
  leg: MALE_LEG,
  armJoint: [188, 1312, -22],
  breast: null,
  heldBreast: null,
  seat: { centre: [70, 850, -54], across: 82, up: 98, down: 72, deep: 68, yaw: -8, pitch: 0, join: 40, joinTop: 70, joinMiddle: 40 },
  mound: { centre: [0, 840, 44], across: 70, up: 62, down: 50, deep: 56, yaw: 0, pitch: 0, join: 64, joinTop: 64, joinMiddle: 64 },
  relief: MALE_RELIEF,
  fade: [780, 890],
  legJoin: { low: 16, high: 56, from: 705, to: 800 },
  ribsLevel: 1215,
};
