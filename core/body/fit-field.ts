/** The fit body as one smooth function: negative inside, about the distance to the skin in mm outside. */
import { SHAPE, type SoftMass } from './fit-forms.ts';
import type { FitFigure } from './fit-figure.ts';
import { reliefOf, type ReliefStroke } from './fit-relief.ts';
import { areClose, LEAST_HALF_GAP } from './fit-thighs.ts';
import { eggDistance, smoothMax, smoothMin, smoothStep } from './fit-masses.ts';

/** A field over space, mm; y up, z to the front, x to the wearer's left. Even in x. */
export type Field = (x: number, y: number, z: number) => number;

/** The joined figure and its parts. */
export interface FitField {
  readonly withArms: Field;
  readonly withoutArms: Field;
  /** Without arms, and below the crotch as if the right leg were away: smooth across the midline. */
  readonly leftSide: Field;
  /** Height below which `leftSide` differs, mm. */
  readonly aloneBelow: number;
  /** The arm alone, cut at both ends; for x >= 0. */
  readonly arm: Field;
  /** 0 where only the leg's outline counts, 1 where only the trunk's does. */
  readonly trunkShare: Field;
}

/** Joins a mass onto the body: the body's distance `f` at a point in, the joined distance out. */
type Join = (f: number, x: number, y: number, z: number) => number;

/**
 * Joins the parts of a figure: legs fade into the trunk over the pelvis, then seat, mound and breasts, then the cuts at
 * neck and ankles, then the arms.
 *
 * The seat is joined after the fade: inside the legs, the fade would wipe out its upper half.
 */
export function makeFitField(figure: FitFigure): FitField {
  const { heightScale } = figure;
  const pelvis = pelvisOf(figure);
  const seat = joinPair(figure.seat, {
    below: 150,
    above: 200,
    rise: [-50, 60],
    back: -Infinity,
    front: 110,
  });
  const mound = joinMiddle(figure.mound);
  const breast =
    figure.breast === null
      ? null
      : joinPair(figure.breast, { below: 140, above: 250, rise: [0, 90], back: -60, front: Infinity });
  const neckCut = SHAPE.neckCut * heightScale;
  const ankleCut = SHAPE.ankleCut * heightScale;

  const bare: Field = (x, y, z) => mound(seat(pelvis.distance(x, y, z), x, y, z), x, y, z);
  const relief = reliefOf(strokesOf(figure), bare, {
    heightScale,
    middleOf: (level) => figure.trunk.centre(level)[1],
  });

  const half: Field = (x, y, z) => {
    let f = bare(x, y, z) - relief(x, y, z);
    if (breast !== null) f = breast(f, x, y, z);
    f = smoothMax(f, ankleCut - y, SHAPE.cutJoin);
    return smoothMax(f, 0.985 * (y - neckCut) + 0.17 * (z - 8), SHAPE.cutJoin);
  };
  const arm = armOf(figure);
  const trunkReach = Math.max(SHAPE.trunkReach, figure.armJoint[0] + 40 + figure.armJoin);
  // Nearer to the middle no arm is felt.
  const armFrom = Math.max(0, 60 + SHAPE.armJoin - figure.armJoin);
  const aloneBelow = (figure.form.legJoin.from + 50) * heightScale;

  return {
    withoutArms: (x, y, z) => half(Math.abs(x), y, z),
    leftSide: (x, y, z) => {
      const alone = 1 - smoothStep(aloneBelow - 25 * heightScale, aloneBelow, y);
      if (alone === 0) return half(Math.abs(x), y, z);
      const leg = smoothMax(pelvis.ownLeg(x, y, z), ankleCut - y, SHAPE.cutJoin);
      return alone === 1 ? leg : alone * leg + (1 - alone) * half(Math.abs(x), y, z);
    },
    withArms: (signedX, y, z) => {
      const x = Math.abs(signedX);
      // Far to the side only the arm counts; what stands in for the trunk stays clear of the arm's join.
      const far = x - trunkReach;
      const f = far > 0 ? far + figure.armJoin + 30 : half(x, y, z);
      return x > armFrom ? smoothMin(f, arm(x, y, z), figure.armJoin) : f;
    },
    aloneBelow,
    arm,
    trunkShare: (x, y, z) => pelvis.share(Math.abs(x), y, z),
  };
}

/** Legs and trunk. Away from the middle and in front the legs keep their own outline higher up: the groin. */
function pelvisOf(figure: FitFigure): { distance: Field; share: Field; ownLeg: Field } {
  const { heightScale, trunk, form } = figure;
  const [fadeLow, fadeHigh] = [form.fade[0] * heightScale, form.fade[1] * heightScale];
  const { lift, halfWidth } = SHAPE.groin;
  const join = legJoinOf(figure);
  const groinLift = (x: number, z: number): number =>
    ((lift * x * x) / (x * x + halfWidth * halfWidth)) * smoothStep(-40, 50, z);
  const ownLeg = flattenedLeg(figure);
  const legs: Field = (x, y, z) => {
    const near = ownLeg(x, y, z);
    if (x >= 110) return near;
    return smoothMin(near, ownLeg(-x, y, z), join.low + join.rise * smoothStep(join.from, join.to, y));
  };
  const share: Field = (x, y, z) => {
    if (y <= fadeLow) return 0;
    const lifted = groinLift(x, z);
    return smoothStep(fadeLow + lifted, fadeHigh + lifted, y);
  };
  const distance: Field = (x, y, z) => {
    const w = share(x, y, z);
    if (w === 1) return trunk.distance(x, y, z);
    const f = legs(x, y, z);
    return w === 0 ? f : (1 - w) * f + w * trunk.distance(x, y, z);
  };
  return { distance, share, ownLeg };
}

/** How softly the legs join below the crotch: hardly at all where the thighs are close, or they would grow together. */
function legJoinOf({ heightScale, form, shape }: FitFigure): {
  low: number;
  rise: number;
  from: number;
  to: number;
} {
  const { low, high, from, to } = form.legJoin;
  const least = Math.min(low * heightScale, Math.max(shape.thighGap, 2 * LEAST_HALF_GAP));
  const later = 40 * smoothStep(20, 8, shape.thighGap);
  return {
    low: least,
    rise: high * heightScale - least,
    from: (from + later) * heightScale,
    to: to * heightScale,
  };
}

/** The left leg, its inner thigh pressed flat where it would reach over the middle. */
function flattenedLeg({ leg, heightScale, form, shape }: FitFigure): Field {
  if (!areClose(shape.thighGap)) return leg.distance;
  const [from, to] = [(form.legJoin.from + 40) * heightScale, (form.legJoin.to - 15) * heightScale];
  return (x, y, z) => {
    const f = leg.distance(x, y, z);
    return y >= to ? f : smoothMax(f, LEAST_HALF_GAP - x - 80 * smoothStep(from, to, y), 6);
  };
}

/** The strokes of the figure as strong as asked. */
const strokesOf = ({ form, shape }: FitFigure): ReliefStroke[] =>
  form.relief.map((stroke) => ({ ...stroke, high: stroke.high * shape.relief }));

/** Where a pair of masses can matter, and the heights (from the centre) over which its join grows softer. mm. */
interface Gate {
  readonly below: number;
  readonly above: number;
  readonly rise: readonly [number, number];
  readonly back: number;
  readonly front: number;
}

/**
 * A mass and its mirror image, joined to each other and to the body. Gates are wider than mass plus join: a gate
 * inside the join is a step in the field.
 */
function joinPair(mass: SoftMass, gate: Gate): Join {
  const egg = eggDistance(mass);
  const middle = mass.centre[1];
  return (f, x, y, z) => {
    if (z <= gate.back || z >= gate.front) return f;
    if (y <= middle - gate.below || y >= middle + gate.above) return f;
    let g = egg(x, y, z);
    if (x < 90) g = smoothMin(g, egg(-x, y, z), mass.joinMiddle);
    const softer = smoothStep(middle + gate.rise[0], middle + gate.rise[1], y);
    return smoothMin(f, g, mass.join + (mass.joinTop - mass.join) * softer);
  };
}

/** A single mass on the midline in front. */
function joinMiddle(mass: SoftMass): Join {
  const egg = eggDistance(mass);
  const middle = mass.centre[1];
  return (f, x, y, z) => {
    const near = z > -90 && x < 190 && y > middle - 130 && y < middle + 150;
    return near ? smoothMin(f, egg(x, y, z), mass.join) : f;
  };
}

/** The left arm: its loft in its own frame, rounded off inside the shoulder and at the wrist. */
function armOf(figure: FitFigure): Field {
  const { heightScale, arm } = figure;
  const [jointX, jointY, jointZ] = figure.armJoint;
  const cos = Math.cos(figure.armAbduction);
  const sin = Math.sin(figure.armAbduction);
  const top = SHAPE.armTop * heightScale;
  const wrist = SHAPE.wristCut * heightScale;
  return (x, y, z) => {
    const dx = x - jointX;
    const dy = y - jointY;
    const u = cos * dx + sin * dy;
    const v = -sin * dx + cos * dy;
    const w = z - jointZ;
    // Only for speed: well beyond the arm's own radius and every join.
    const away = Math.max(Math.abs(u), Math.abs(w));
    if (away > 190) return away - 70;
    const rounded = smoothMax(arm.distance(u, v, w), v - top, SHAPE.armTopJoin);
    return smoothMax(rounded, wrist - v, SHAPE.cutJoin);
  };
}
