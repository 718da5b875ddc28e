/** Named points of a fit body, known from its construction. Lengths in mm. */
import type { Field } from './fit-field.ts';
import { armPoint, type FitFigure } from './fit-figure.ts';
import { ARM_LEVELS, LEG_LEVELS, TRUNK_LEVELS } from './fit-stations.ts';
import { outermostPoint, skinAlongRay, type Ring } from './fit-tape.ts';
import type { FittedFigure } from './fit-to-measures.ts';
import { LANDMARK_NAMES, type Landmarks } from './landmarks.ts';
import { triple } from '../mesh/triple.ts';
import { metresFromMm } from '../units/units.ts';

export type Point = readonly [number, number, number];

/** The points of {@link landmarksOf} in m, as a body carries them. */
export function recipeLandmarks(fitted: FittedFigure): Landmarks {
  const points = landmarksOf(fitted);
  return Object.fromEntries(
    LANDMARK_NAMES.flatMap((name) => {
      const at = points[name];
      if (at === undefined) return [];
      return [[name, { point: triple((k) => metresFromMm(at[k]!)), how: 'recipe' as const }]];
    }),
  );
}

/**
 * Points on the skin: front, back and sides at the trunk's levels; bust and seat points; crotch; thighs, knees, calves, ankles.
 * Shoulder, upper arm, elbow and wrist are points of the arm's axis.
 */
export function landmarksOf(fitted: FittedFigure): Record<string, Point> {
  const { figure, field, bustLevel, size } = fitted;
  const skin = field.withoutArms;
  const { heightScale, breast, seat } = figure;
  const levels = {
    neck: TRUNK_LEVELS.neck * heightScale,
    [breast === null ? 'chest' : 'bust']: bustLevel,
    ...(breast === null ? {} : { underbust: size.form.ribsLevel * heightScale }),
    waist: TRUNK_LEVELS.waist * heightScale,
    topHip: TRUNK_LEVELS.topHip * heightScale,
    hip: TRUNK_LEVELS.hip * heightScale,
  };
  const points: Record<string, Point> = { crotch: crotchPoint(skin, heightScale) };
  for (const [name, level] of Object.entries(levels)) {
    const ring = { level, centreX: 0, centreZ: figure.trunk.centre(level)[1] };
    points[`${name}Front`] = pointAt(skin, ring, 0);
    points[`${name}Back`] = pointAt(skin, ring, Math.PI);
    addPair(points, `${name}Side`, pointAt(skin, ring, Math.PI / 2));
  }
  if (breast !== null) {
    addPair(points, 'bustPoint', outermostPoint(skin, [breast.centre[0], breast.centre[1]], 1));
  }
  addPair(points, 'seatPoint', outermostPoint(skin, [seat.centre[0], seat.centre[1]], -1));
  for (const [name, angle] of LEG_POINTS) {
    const level = LEG_LEVELS[name] * heightScale;
    const [centreX, centreZ] = figure.leg.centre(level);
    addPair(points, name, pointAt(skin, { level, centreX, centreZ }, angle));
  }
  addPair(points, 'shoulder', figure.armJoint);
  addPair(points, 'armpit', armpitPoint(figure));
  addPair(points, 'upperArm', armAxisPoint(figure, ARM_LEVELS.upperArm));
  addPair(points, 'elbow', armAxisPoint(figure, ARM_LEVELS.elbow));
  addPair(points, 'wrist', armAxisPoint(figure, ARM_LEVELS.wrist));
  return points;
}

/** Between trunk and arm, below the joint by what the armpit of the base figure lies below it; near enough for regions. */
const armpitPoint = ({ armJoint: [x, y, z], heightScale }: FitFigure): Point => [
  x + 4 * heightScale,
  y - 77 * heightScale,
  z,
];

/** Knee cap in front, calf behind, ankle at the outer side. */
const LEG_POINTS = [
  ['thigh', 0],
  ['midThigh', 0],
  ['knee', 0],
  ['calf', Math.PI],
  ['ankle', Math.PI / 2],
] as const;

function pointAt(skin: Field, ring: Ring, angle: number): Point {
  const r = skinAlongRay(skin, ring, angle);
  // On the midline x is 0 exactly, whatever the sine of pi.
  const onMidline = angle === 0 || angle === Math.PI;
  return [
    onMidline ? ring.centreX : ring.centreX + r * Math.sin(angle),
    ring.level,
    ring.centreZ + r * Math.cos(angle),
  ];
}

function addPair(points: Record<string, Point>, name: string, left: Point): void {
  points[`${name}Left`] = left;
  points[`${name}Right`] = [-left[0], left[1], left[2]];
}

function armAxisPoint(figure: FitFigure, base: number): Point {
  const v = base * figure.heightScale;
  const [u, w] = figure.arm.centre(v);
  return armPoint(figure, u, v, w);
}

/** The lowest inside point on the midline, by golden section over z of the height at which a rise from below meets skin. */
function crotchPoint(skin: Field, heightScale: number): Point {
  const heightAt = (z: number): number => {
    let y = 660 * heightScale;
    for (let i = 0; i < 200; i++) {
      const f = skin(0, y, z);
      if (f < 0.005) break;
      y += f;
    }
    return y;
  };
  const golden = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [-60, 60];
  for (let i = 0; i < 30; i++) {
    const [nearer, farther] = [high - golden * (high - low), low + golden * (high - low)];
    if (heightAt(nearer) < heightAt(farther)) high = farther;
    else low = nearer;
  }
  const z = (low + high) / 2;
  return [0, heightAt(z), z];
}
