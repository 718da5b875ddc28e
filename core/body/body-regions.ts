/** The parts a body is put together of; the wearer's own left and right. */
export const BODY_PARTS = ['trunk', 'leftLeg', 'rightLeg', 'leftArm', 'rightArm', 'head'] as const;
export type BodyPart = (typeof BODY_PARTS)[number];

/** Where on its part a place lies, as zones, garments and reports name it. */
export const BODY_REGIONS = [
  'neck',
  'shoulder',
  'bust',
  'underBust',
  'belly',
  'upperBack',
  'lumbar',
  'side',
  'seat',
  'underSeat',
  'crotch',
  'thigh',
  'knee',
  'calf',
  'ankle',
  'upperArm',
  'elbow',
  'forearm',
  'wrist',
  'head',
] as const;
export type BodyRegion = (typeof BODY_REGIONS)[number];

/** Part and region of every vertex of the skin. */
export interface BodyRegions {
  /** Index into {@link BODY_PARTS}; V. */
  readonly part: Uint8Array;
  /** Index into {@link BODY_REGIONS}; V. */
  readonly region: Uint8Array;
}
