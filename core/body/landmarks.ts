import type { Triple } from '../mesh/triple.ts';

/** Levels of the trunk at which a tape is laid, highest first. A body has a bust and an under-bust, or a chest. */
export const TRUNK_LEVEL_NAMES = ['neck', 'bust', 'chest', 'underbust', 'waist', 'topHip', 'hip'] as const;
/** Levels of each leg, highest first. */
export const LEG_LEVEL_NAMES = ['thigh', 'midThigh', 'knee', 'calf', 'ankle'] as const;
/** Levels of each arm, from the trunk outwards. */
export const ARM_LEVEL_NAMES = ['upperArm', 'elbow', 'wrist'] as const;

export type TrunkLevelName = (typeof TRUNK_LEVEL_NAMES)[number];
export type LegLevelName = (typeof LEG_LEVEL_NAMES)[number];
export type ArmLevelName = (typeof ARM_LEVEL_NAMES)[number];
/** Every level that has a girth, named after ISO 8559-1 where it has it. */
export type LevelName = TrunkLevelName | LegLevelName | ArmLevelName;

/** The wearer's own sides. */
export type BodySide = 'left' | 'right';

/**
 * Every named point. Of a trunk level the centre front carries the level: where it is placed by hand, the back and
 * the sides follow. `shoulder`, `upperArm`, `elbow` and `wrist` lie on the arm's axis, all others on the skin.
 */
export type LandmarkName =
  | 'crotch'
  | `${TrunkLevelName}${'Front' | 'Back' | 'SideLeft' | 'SideRight'}`
  | `${LegLevelName | ArmLevelName | 'bustPoint' | 'seatPoint' | 'shoulder' | 'armpit'}${'Left' | 'Right'}`;

/** `recipe`: known from the fit body's construction; `found` on the mesh; `placed` by hand, which overrides both. */
export type HowFound = 'recipe' | 'found' | 'placed';

/** A named point of a body. */
export interface Landmark {
  /** m. */
  readonly point: Readonly<Triple>;
  readonly how: HowFound;
}

/** Named points of a body; one that could not be found is left out. */
export type Landmarks = Readonly<Partial<Record<LandmarkName, Landmark>>>;

/** Landmarks placed by hand, as a study keeps them, m. */
export type PlacedLandmarks = Readonly<Partial<Record<LandmarkName, Readonly<Triple>>>>;

const SIDE_ENDS = ['Left', 'Right'] as const;

/** All names, for readers that take them from a file. */
export const LANDMARK_NAMES: readonly LandmarkName[] = [
  'crotch',
  ...TRUNK_LEVEL_NAMES.flatMap((name) =>
    (['Front', 'Back', 'SideLeft', 'SideRight'] as const).map((end): LandmarkName => `${name}${end}`),
  ),
  ...[
    ...LEG_LEVEL_NAMES,
    ...ARM_LEVEL_NAMES,
    ...(['bustPoint', 'seatPoint', 'shoulder', 'armpit'] as const),
  ].flatMap((name) => SIDE_ENDS.map((end): LandmarkName => `${name}${end}`)),
];
