/** A base figure brought to size: outlines and masses scaled, ready to be joined. Lengths in mm. */
import { monotoneCubic, valueAt, type MonotoneCubic } from '../units/monotone-cubic.ts';
import { degreesFromRadians, radiansFromDegrees } from '../units/units.ts';
import { BASE_STATURE, SHAPE, type FitForm, type SoftMass } from './fit-forms.ts';
import { makeLoft, type Loft, type Outline } from './fit-loft.ts';
import { usualShape } from './fit-parameters.ts';
import { cloven, sizedBreast, sizedMass } from './fit-sized-masses.ts';
import type { ShapeOrder } from './fit-shape.ts';
import { thighPlay } from './fit-thighs.ts';
import type { PerStation } from './fit-stations.ts';
import { ARM, ARM_EXPONENT, type Bumps, type LegRow, type TrunkRow } from './fit-tables.ts';

/** Everything that decides the size of a figure. */
export interface FitSize {
  readonly form: FitForm;
  readonly stature: number;
  readonly scales: PerStation;
  /** Size of the breasts, 1 on the base figure. */
  readonly cup: number;
  readonly shape: ShapeOrder;
}

/** A figure at its size. */
export interface FitFigure {
  /** stature / base stature. */
  readonly heightScale: number;
  readonly trunk: Loft;
  /** The wearer's left leg and arm; the arm in its own frame (u outward, v along, w forward). */
  readonly leg: Loft;
  readonly arm: Loft;
  readonly breast: SoftMass | null;
  readonly seat: SoftMass;
  readonly mound: SoftMass;
  readonly form: FitForm;
  readonly shape: ShapeOrder;
  readonly armJoint: readonly [number, number, number];
  /** Arm away from the vertical, rad. */
  readonly armAbduction: number;
  /** How softly arm and trunk join. */
  readonly armJoin: number;
}

/** Builds the figure of a given size. Radial sizes follow the scales of the stations, heights the stature. */
export function assembleFigure(size: FitSize): FitFigure {
  const { form, scales, shape } = size;
  const heightScale = size.stature / BASE_STATURE;
  const halfTall = 0.5 + 0.5 * heightScale;
  const shoulder = (0.35 + 0.65 * scales.ribs) * halfTall;
  const trunkScale = trunkScaleOf(form, scales, shoulder);
  const fullness = clamp(scales.waist / (0.5 * (scales.ribs + scales.topHip)), 0.7, 1.4);
  const [jointX, jointY, jointZ] = form.armJoint;
  const armJoint = [
    jointX * (0.3 + 0.7 * scales.ribs) * halfTall + 30 * (scales.upperArm - 1),
    jointY * heightScale,
    jointZ * heightScale,
  ] as const;
  const trunk = makeLoft(
    form.trunk.map((row) => trunkOutline(row, valueAt(trunkScale, row[0]), { heightScale, fullness, shape })),
    { harmonics: 10, symmetric: true },
  );
  const chestLevel = (form.breast === null ? form.ribsLevel : form.breast.centre[1]) * heightScale;
  const clearOfChest = clearAbduction({
    rise: armJoint[1] - chestLevel,
    outward: armJoint[0] - trunk.radius(chestLevel, Math.PI / 2),
    armRadius: ARM_RADIUS * scales.upperArm,
  });
  const usual = SHAPE.armAbduction + 28 * Math.max(0, scales.ribs - 1);
  const wanted = Math.max(usual, Math.min(clearOfChest, SHAPE.mostAbduction));
  const abduction = shape.arms ?? wanted;
  return {
    heightScale,
    trunk,
    leg: makeLoft(
      form.leg.map((row) => legOutline(row, scales, heightScale, shape)),
      { harmonics: 9, symmetric: false },
    ),
    arm: makeLoft(armOutlines(scales, shoulder, heightScale), { harmonics: 4, symmetric: false }),
    breast:
      form.breast === null
        ? null
        : sizedBreast(form, valueAt(trunkScale, form.breast.centre[1]), {
            cup: size.cup,
            heightScale,
            support: shape.bustSupport,
          }),
    seat: sizedMass(cloven(form.seat, shape.seatCleft), scales.hip, heightScale),
    mound: sizedMass(form.mound, scales.hip, heightScale),
    form,
    shape,
    armJoint,
    armAbduction: radiansFromDegrees(abduction),
    // Arms held nearer than the chest wants leave a sharper armpit: it takes a wider fillet.
    armJoin: SHAPE.armJoin * (1 + 0.065 * Math.max(0, wanted - abduction)),
  };
}

/** Radius of the upper arm on the base figure. */
const ARM_RADIUS = 45;
/** A fillet of `armJoin` swells the trunk by less than half a millimetre this far from the arm. */
const FILLET_REACH = 0.65 * SHAPE.armJoin;

/**
 * Abduction (degrees) at which arm and fillet just leave the level of the chest free, so that a tape can lie there:
 * rise sin a + outward cos a = arm radius + reach. On short and on heavy figures the armpit sinks otherwise.
 *
 * @param arm - `rise` of the joint above the chest level; `outward` of the joint from the side of the chest.
 * @returns 90 where no angle is enough.
 */
function clearAbduction(arm: { rise: number; outward: number; armRadius: number }): number {
  const sine = (arm.armRadius + FILLET_REACH) / Math.hypot(arm.rise, arm.outward);
  if (sine >= 1) return 90;
  return degreesFromRadians(Math.asin(sine) - Math.atan2(arm.outward, arm.rise));
}

/** A point in the left arm's own frame: u outward, v along the arm from the shoulder joint (negative below it), w forward. */
export function armCoordinates(
  { armJoint, armAbduction }: FitFigure,
  x: number,
  y: number,
  z: number,
): readonly [number, number, number] {
  const cos = Math.cos(armAbduction);
  const sin = Math.sin(armAbduction);
  const dx = x - armJoint[0];
  const dy = y - armJoint[1];
  return [cos * dx + sin * dy, -sin * dx + cos * dy, z - armJoint[2]];
}

/** The place of a point given in the left arm's own frame. */
export function armPoint(
  { armJoint, armAbduction }: FitFigure,
  u: number,
  v: number,
  w: number,
): readonly [number, number, number] {
  const cos = Math.cos(armAbduction);
  const sin = Math.sin(armAbduction);
  return [armJoint[0] + cos * u - sin * v, armJoint[1] + sin * u + cos * v, armJoint[2] + w];
}

function trunkScaleOf(form: FitForm, scales: PerStation, shoulder: number): MonotoneCubic {
  return monotoneCubic(
    [640, 720, 845, 960, 1045, form.ribsLevel, 1315, 1370, 1455, 1500],
    [
      scales.hip,
      scales.hip,
      scales.hip,
      scales.topHip,
      scales.waist,
      scales.ribs,
      shoulder,
      (shoulder + scales.neck) / 2,
      scales.neck,
      scales.neck,
    ],
  );
}

/**
 * An outline of the trunk at its size. A waist that is full for its neighbours grows forward rather than sideways, a
 * small one is less pinched at the sides: without this it is a drum or a spindle.
 */
function trunkOutline(
  row: TrunkRow,
  scale: number,
  { heightScale, fullness, shape }: { heightScale: number; fullness: number; shape: ShapeOrder },
): Outline {
  const [y, centreZ, halfWidth, front, back, frontExponent, backExponent, bumps] = row;
  const near = Math.exp(-(((y - 1015) / 85) ** 2));
  const across = halfWidth * scale * fullness ** (-0.25 * near);
  return {
    at: y * heightScale,
    centreX: 0,
    centreZ: centreZ * heightScale,
    lateral: across,
    medial: across,
    front: front * scale * fullness ** (0.5 * near),
    back: back * scale * fullness ** (-0.05 * near),
    frontExponent,
    backExponent,
    bumps: scaledBumps(isLumbar(y) ? withFurrow(bumps, shape.lumbarFurrow) : bumps, scale),
  };
}

const isLumbar = (y: number): boolean => y >= 975 && y <= 1130;

/**
 * The bumps with the furrow over the spine made as deep as asked. Depth below the tape grows faster than the bump, since
 * the back is round; the exponent is read off finished skins (bumps of 6.5 and 14 mm leave 3 and 9 mm).
 */
function withFurrow(bumps: Bumps, deep: number): Bumps {
  const times = (deep / usualShape('lumbarFurrow')) ** 0.69;
  return bumps.map((number, i) => (i % 3 === 2 && bumps[i - 2] === 180 ? number * times : number));
}

/** An outline of the left leg; its axis moves with its medial side, so that the space between the thighs stays. */
function legOutline(row: LegRow, scales: PerStation, heightScale: number, shape: ShapeOrder): Outline {
  const [y, centreX, centreZ, lateral, medial, front, back, frontExponent, backExponent, bumps] = row;
  const { ankle, calf, knee, midThigh, thigh, hip } = scales;
  const along = monotoneCubic(
    [90, 120, 340, 468, 625, 752, 860, 960],
    [ankle, ankle, calf, knee, midThigh, thigh, hip, hip],
  );
  const scale = valueAt(along, clamp(y, 90, 960));
  const apart = Math.tan(radiansFromDegrees(shape.legs)) * belowHipJoint(860 - y) * heightScale;
  // Half by moving the leg, half by making its inner side fuller or flatter.
  const nearer = thighPlay(shape.thighGap, heightScale, y);
  return {
    at: y * heightScale,
    centreX: medial * scale + (centreX - medial) * heightScale + apart + nearer / 2,
    centreZ: centreZ * heightScale,
    lateral: lateral * scale,
    medial: medial * scale - nearer / 2,
    front: front * scale,
    back: back * scale,
    frontExponent,
    backExponent,
    bumps: scaledBumps(bumps, scale),
  };
}

/** Depth below the hip joint with a rounded start, so that a spread leg bends instead of breaking. */
function belowHipJoint(depth: number): number {
  const rounding = 110;
  if (depth <= 0) return 0;
  if (depth >= rounding) return depth - rounding / 2;
  return (depth ** 3 / rounding ** 2) * (1 - depth / (2 * rounding));
}

function armOutlines(scales: PerStation, shoulder: number, heightScale: number): Outline[] {
  const along = monotoneCubic(
    [-540, -310, -140, 20],
    [scales.wrist, scales.elbow, scales.upperArm, shoulder],
  );
  return ARM.map(([v, centreU, centreW, outer, inner, front, back]) => {
    const scale = valueAt(along, clamp(v, -540, 20));
    return {
      at: v * heightScale,
      centreX: centreU * heightScale,
      centreZ: centreW * heightScale,
      lateral: outer * scale,
      medial: inner * scale,
      front: front * scale,
      back: back * scale,
      frontExponent: ARM_EXPONENT,
      backExponent: ARM_EXPONENT,
      bumps: [],
    };
  });
}

function scaledBumps(bumps: Bumps, scale: number): Bumps {
  return bumps.map((number, i) => (i % 3 === 2 ? number * scale : number));
}

const clamp = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high);
