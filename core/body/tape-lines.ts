import { triple, type Triple } from '../mesh/triple.ts';
import type { TapeLine } from './body-tape.ts';
import {
  ARM_LEVEL_NAMES,
  LEG_LEVEL_NAMES,
  TRUNK_LEVEL_NAMES,
  type ArmLevelName,
  type BodySide,
  type LandmarkName,
  type Landmarks,
} from './landmarks.ts';
import { unit } from './tape-frame.ts';

const UP: Readonly<Triple> = [0, 1, 0];
const SIDES = [
  ['left', 'Left'],
  ['right', 'Right'],
] as const satisfies readonly (readonly [BodySide, string])[];

/**
 * The tapes of the ISO 8559-1 set that a body's landmarks allow: level ones round trunk and legs, square to the arm's
 * axis on the arms. Trunk from the neck down, legs from the thigh down, arms from the shoulder outwards.
 */
export function tapeLines(landmarks: Landmarks): TapeLine[] {
  return [
    ...trunkLines(landmarks),
    ...SIDES.flatMap(([side, end]) => legLines(landmarks, side, end)),
    ...SIDES.flatMap(([side, end]) => armLines(landmarks, side, end)),
  ];
}

/** Half way between two landmarks; null where either is missing. */
function midway(landmarks: Landmarks, one: LandmarkName, other: LandmarkName): Triple | null {
  const [a, b] = [landmarks[one]?.point, landmarks[other]?.point];
  return a === undefined || b === undefined ? null : triple((k) => 0.5 * (a[k]! + b[k]!));
}

function trunkLines(landmarks: Landmarks): TapeLine[] {
  return TRUNK_LEVEL_NAMES.flatMap((name): TapeLine[] => {
    const center = midway(landmarks, `${name}Front`, `${name}Back`);
    if (center === null) return [];
    return [{ name, kind: 'trunk', side: 'middle', center, normal: UP, surface: 'taut' }];
  });
}

function legLines(landmarks: Landmarks, side: BodySide, end: 'Left' | 'Right'): TapeLine[] {
  return LEG_LEVEL_NAMES.flatMap((name): TapeLine[] => {
    const center = landmarks[`${name}${end}`]?.point;
    if (center === undefined) return [];
    return [{ name, kind: 'limb', side, center, normal: UP, surface: 'taut' }];
  });
}

/** The two points of the arm between which the axis runs square to each tape. */
const ARM_AXES: Readonly<Record<ArmLevelName, readonly ['elbow' | 'wrist', 'shoulder' | 'elbow']>> = {
  upperArm: ['elbow', 'shoulder'],
  elbow: ['wrist', 'shoulder'],
  wrist: ['wrist', 'elbow'],
};

function armLines(landmarks: Landmarks, side: BodySide, end: 'Left' | 'Right'): TapeLine[] {
  return ARM_LEVEL_NAMES.flatMap((name): TapeLine[] => {
    const [from, to] = ARM_AXES[name];
    const center = landmarks[`${name}${end}`]?.point;
    const [outer, inner] = [landmarks[`${from}${end}`]?.point, landmarks[`${to}${end}`]?.point];
    if (center === undefined || outer === undefined || inner === undefined) return [];
    const normal = unit(triple((k) => inner[k]! - outer[k]!));
    return [{ name, kind: 'limb', side, center, normal, surface: 'taut' }];
  });
}
