/** Finds the size at which the fit body measures what it was asked to. Lengths in mm. */
import { radiansFromDegrees } from '../units/units.ts';
import { assembleFigure, type FitFigure, type FitSize } from './fit-figure.ts';
import { makeFitField, type FitField } from './fit-field.ts';
import { BASE_STATURE } from './fit-forms.ts';
import {
  ARM_LEVELS,
  LEG_LEVELS,
  STATIONS,
  TRUNK_LEVELS,
  type FitOrder,
  type PerStation,
  type Station,
} from './fit-stations.ts';
import type { ShapeOrder } from './fit-shape.ts';
import { girthOfField, outermostPoint } from './fit-tape.ts';
import { tapeGirth } from './tape-girth.ts';

/** A figure that fits, with what it measures. */
export interface FittedFigure {
  readonly size: FitSize;
  readonly figure: FitFigure;
  readonly field: FitField;
  readonly girths: PerStation;
  /** At the level of the fullest chest. */
  readonly bust: number;
  readonly bustLevel: number;
  /** Rounds the search took. */
  readonly rounds: number;
}

const MOST_ROUNDS = 14;
/** Good enough, mm. */
const CLOSE = 0.5;
const CUP_RANGE = [0.08, 2.6] as const;

/**
 * Scales every station by asked / measured, and the breasts by the slope of the bust girth, until all girths are
 * within 0.5 mm or the rounds are spent (the caller sees by how much it then misses).
 */
export function fitToMeasures(order: FitOrder, shape: ShapeOrder): FittedFigure {
  let size: FitSize = { form: order.form, stature: order.stature, scales: evenScales(), cup: 1, shape };
  let fitted = measured(size, 1);
  while (fitted.rounds < MOST_ROUNDS && farthestOff(fitted, order) > CLOSE) {
    const scales = rescaled(fitted, order, shape);
    size = { ...size, scales };
    if (size.form.breast !== null) size = { ...size, cup: nextCup(size, order.bust) };
    fitted = measured(size, fitted.rounds + 1);
  }
  return fitted;
}

/** One girth as asked and as the figure has it, mm. */
export interface GirthMiss {
  readonly measure: Station | 'bust';
  readonly asked: number;
  readonly reached: number;
}

/** Every girth, asked beside reached, the bust first. */
export function misses(fitted: FittedFigure, order: FitOrder): GirthMiss[] {
  const { shape } = fitted.size;
  return [
    { measure: 'bust', asked: order.bust, reached: fitted.bust },
    ...STATIONS.map((measure) => ({
      measure,
      asked: order.girths[measure] * slant(measure, shape),
      reached: fitted.girths[measure],
    })),
  ];
}

/** Largest |reached - asked|, mm. */
function farthestOff(fitted: FittedFigure, order: FitOrder): number {
  return Math.max(...misses(fitted, order).map(({ asked, reached }) => Math.abs(reached - asked)));
}

/** A spread leg is cut askew by a level section, which makes it longer: about halfway to 1/cos. */
function slant(station: Station, shape: ShapeOrder): number {
  const onLeg = station in LEG_LEVELS;
  return onLeg ? 0.5 * (1 + 1 / Math.cos(radiansFromDegrees(shape.legs))) : 1;
}

function rescaled(fitted: FittedFigure, order: FitOrder, shape: ShapeOrder): PerStation {
  const scales: Record<Station, number> = { ...fitted.size.scales };
  for (const station of STATIONS) {
    scales[station] *= (order.girths[station] * slant(station, shape)) / fitted.girths[station];
  }
  return scales;
}

/** The cup that should meet the bust, by one secant step; the slope is held up so that no step runs away. */
function nextCup(size: FitSize, asked: number): number {
  const step = 0.04;
  const here = bustOf(makeFitField(assembleFigure(size)), size).girth;
  const larger = { ...size, cup: size.cup + step };
  const there = bustOf(makeFitField(assembleFigure(larger)), larger).girth;
  const slope = Math.max((there - here) / step, 40);
  const move = Math.min(Math.max((asked - here) / slope, -0.3), 0.3);
  return Math.min(Math.max(size.cup + move, CUP_RANGE[0]), CUP_RANGE[1]);
}

function measured(size: FitSize, rounds: number): FittedFigure {
  const figure = assembleFigure(size);
  const field = makeFitField(figure);
  const bust = bustOf(field, size);
  return {
    size,
    figure,
    field,
    girths: stationGirths(figure, field, size),
    bust: bust.girth,
    bustLevel: bust.level,
    rounds,
  };
}

/** Girth at the fullest chest, arms away. */
function bustOf(field: FitField, size: FitSize): { girth: number; level: number } {
  const heightScale = size.stature / BASE_STATURE;
  const { breast, ribsLevel } = size.form;
  const level =
    breast === null
      ? ribsLevel * heightScale
      : outermostPoint(field.withoutArms, [breast.centre[0], breast.centre[1] * heightScale], 1)[1];
  const ring = { level, centreX: 0, centreZ: 0 };
  return { girth: girthOfField(field.withoutArms, ring, 144), level };
}

function stationGirths(figure: FitFigure, field: FitField, size: FitSize): PerStation {
  const { heightScale } = figure;
  const trunk = (base: number): number => {
    const level = base * heightScale;
    return girthOfField(field.withoutArms, { level, centreX: 0, centreZ: figure.trunk.centre(level)[1] }, 72);
  };
  const leg = (base: number): number => {
    const level = base * heightScale;
    const [centreX, centreZ] = figure.leg.centre(level);
    return girthOfField(field.withoutArms, { level, centreX, centreZ }, 72);
  };
  return {
    neck: trunk(TRUNK_LEVELS.neck),
    ribs: trunk(size.form.ribsLevel),
    waist: trunk(TRUNK_LEVELS.waist),
    topHip: trunk(TRUNK_LEVELS.topHip),
    hip: trunk(TRUNK_LEVELS.hip),
    thigh: leg(LEG_LEVELS.thigh),
    midThigh: leg(LEG_LEVELS.midThigh),
    knee: leg(LEG_LEVELS.knee),
    calf: leg(LEG_LEVELS.calf),
    ankle: leg(LEG_LEVELS.ankle),
    upperArm: armGirth(figure, ARM_LEVELS.upperArm),
    elbow: armGirth(figure, ARM_LEVELS.elbow),
    wrist: armGirth(figure, ARM_LEVELS.wrist),
  };
}

/** Girth across the arm's own axis, read from its loft. */
function armGirth(figure: FitFigure, base: number): number {
  const rayCount = 144;
  const points = new Float64Array(2 * rayCount);
  for (let i = 0; i < rayCount; i++) {
    const angle = (2 * Math.PI * i) / rayCount;
    const r = figure.arm.radius(base * figure.heightScale, angle);
    points[2 * i] = r * Math.sin(angle);
    points[2 * i + 1] = r * Math.cos(angle);
  }
  return tapeGirth({ points });
}

function evenScales(): PerStation {
  return {
    neck: 1,
    ribs: 1,
    waist: 1,
    topHip: 1,
    hip: 1,
    thigh: 1,
    midThigh: 1,
    knee: 1,
    calf: 1,
    ankle: 1,
    upperArm: 1,
    elbow: 1,
    wrist: 1,
  };
}
