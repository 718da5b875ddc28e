/** What shows through the skin: collar bones, shoulder blades, muscle edges, furrows. Lengths in mm, angles in degrees. */
import type { Field } from './fit-field.ts';
import { skinAlongRay } from './fit-tape.ts';
import { radiansFromDegrees } from '../units/units.ts';

/** A place on the trunk of the base figure: degrees from the centre front towards the left, height above the floor. */
export type TrunkPlace = readonly [degrees: number, height: number];

/** A soft ridge between two places of the trunk (a furrow where `high` is negative); its mirror image comes with it. */
export interface ReliefStroke {
  readonly from: TrunkPlace;
  readonly to: TrunkPlace;
  /** How far it reaches to either side. */
  readonly wide: number;
  /** At its middle. */
  readonly high: number;
}

/** How the base figure stands in space: its heights and the middle of its trunk. */
export interface ReliefGround {
  readonly heightScale: number;
  readonly middleOf: (level: number) => number;
}

/**
 * By how much the strokes raise the skin at a point; for x >= 0.
 *
 * Each is high (1 - q^2)^3 where q^2 = (along / half-length)^2 + (across / wide)^2 < 1: twice differentiable, and nothing
 * beyond. Its middle and ends lie where a level ray from the middle of the trunk leaves the bare `skin`; it runs through
 * its middle in the direction from end to end.
 */
export function reliefOf(strokes: readonly ReliefStroke[], skin: Field, ground: ReliefGround): Field {
  const bells = strokes.filter(({ high }) => high !== 0).map((stroke) => bellOf(stroke, skin, ground));
  return (x, y, z) => {
    let raised = 0;
    for (const bell of bells) {
      if (y <= bell.lowest || y >= bell.highest) continue;
      raised += heightOn(bell, x, y, z);
      if (bell.isPair && x < bell.mirrorReach) raised += heightOn(bell, -x, y, z);
    }
    return raised;
  };
}

interface Bell {
  readonly centre: readonly [number, number, number];
  /** Unit vector along the stroke. */
  readonly along: readonly [number, number, number];
  readonly halfLength: number;
  readonly wide: number;
  readonly high: number;
  /** Heights between which it can matter. */
  readonly lowest: number;
  readonly highest: number;
  /** The mirror image counts as well, up to this far from the midline. */
  readonly isPair: boolean;
  readonly mirrorReach: number;
}

function bellOf(
  { from, to, wide, high }: ReliefStroke,
  skin: Field,
  { heightScale, middleOf }: ReliefGround,
): Bell {
  const place = ([degrees, height]: TrunkPlace): readonly [number, number, number] => {
    const level = height * heightScale;
    const ring = { level, centreX: 0, centreZ: middleOf(level) };
    const angle = radiansFromDegrees(degrees);
    const r = skinAlongRay(skin, ring, angle);
    const onMidline = degrees === 0 || degrees === 180;
    return [onMidline ? 0 : r * Math.sin(angle), level, ring.centreZ + r * Math.cos(angle)];
  };
  const start = place(from);
  const end = place(to);
  const run = [end[0] - start[0], end[1] - start[1], end[2] - start[2]] as const;
  const length = Math.hypot(...run);
  const reach = Math.max(length / 2, wide);
  const centre = place([(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]);
  return {
    centre,
    along: [run[0] / length, run[1] / length, run[2] / length],
    halfLength: length / 2,
    wide,
    high,
    lowest: centre[1] - reach,
    highest: centre[1] + reach,
    isPair: start[0] !== 0 || end[0] !== 0,
    mirrorReach: reach - centre[0],
  };
}

function heightOn({ centre, along, halfLength, wide, high }: Bell, x: number, y: number, z: number): number {
  const dx = x - centre[0];
  const dy = y - centre[1];
  const dz = z - centre[2];
  const t = dx * along[0] + dy * along[1] + dz * along[2];
  const square = dx * dx + dy * dy + dz * dz;
  const q = (t * t) / (halfLength * halfLength) + (square - t * t) / (wide * wide);
  if (q >= 1) return 0;
  const left = 1 - q;
  return high * left * left * left;
}
