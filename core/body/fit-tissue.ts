/** How deep bone or a firm layer lies under the skin of a fit body. Lengths in mm. */
import { monotoneCubic, valueAt, type MonotoneCubic } from '../units/monotone-cubic.ts';
import { degreesFromRadians } from '../units/units.ts';
import type { Field, FitField } from './fit-field.ts';
import { armCoordinates, type FitFigure } from './fit-figure.ts';
import { smoothStep } from './fit-masses.ts';
import type { Neighbours } from './fit-relax.ts';
import { ARM_TISSUE, LEG_TISSUE, TRUNK_TISSUE } from './fit-tissue-tables.ts';

/** Thinnest skin over bone that is let stand. */
const THINNEST = 4;
/** Breast tissue counts from the chest wall, less a little that is firm. */
const BREAST_SHARE = 0.95;

/**
 * Depth at a point of the skin: tables for trunk, leg and arm, joined as the field joins them; on the breast, the
 * height above the chest wall is added, which the construction knows.
 */
export function tissueDepthAt(figure: FitFigure, field: FitField): Field {
  const trunkAt = trunkDepth(figure);
  const legAt = limbDepth(LEG_TISSUE);
  const armAt = limbDepth(ARM_TISSUE);
  const { heightScale, breast } = figure;

  const bodyDepth: Field = (x, y, z) => {
    const share = field.trunkShare(x, y, z);
    let depth = 0;
    if (share < 1) {
      const [centreX, centreZ] = figure.leg.centre(y);
      depth += (1 - share) * legAt(y / heightScale, x - centreX, z - centreZ);
    }
    if (share > 0) depth += share * trunkAt(x, y, z);
    if (breast === null || z < -60) return depth;
    const above = y - breast.centre[1];
    if (above < -140 || above > 250) return depth;
    return depth + BREAST_SHARE * Math.max(0, figure.trunk.distance(x, y, z));
  };

  return (x, y, z) => {
    const armShare = x > 60 ? smoothStep(-25, 25, field.withoutArms(x, y, z) - field.arm(x, y, z)) : 0;
    let depth = armShare < 1 ? (1 - armShare) * bodyDepth(x, y, z) : 0;
    if (armShare > 0) {
      const [u, v, w] = armCoordinates(figure, x, y, z);
      const [centreU, centreW] = figure.arm.centre(v);
      depth += armShare * armAt(v / heightScale, u - centreU, w - centreW);
    }
    return Math.max(depth, THINNEST);
  };
}

/** The depths of all vertices, evened out over the net by 12 rounds of 0.6 of the way to the neighbours' mean. */
export function evened(depths: Float64Array, { start, vertices, weights }: Neighbours): Float64Array {
  let here = depths;
  for (let round = 0; round < 12; round++) {
    const next = new Float64Array(here.length);
    for (let v = 0; v < here.length; v++) {
      let [sum, total] = [0, 0];
      for (let n = start[v]!; n < start[v + 1]!; n++) {
        sum += weights[n]! * here[vertices[n]!]!;
        total += weights[n]!;
      }
      next[v] = here[v]! + 0.6 * (sum / total - here[v]!);
    }
    here = next;
  }
  return here;
}

/** Trunk: columns every 30 degrees from the front, eased by a cosine between. */
function trunkDepth(figure: FitFigure): Field {
  const columns = columnsOf(TRUNK_TISSUE);
  return (x, y, z) => {
    const [, centreZ] = figure.trunk.centre(y);
    const degrees = degreesFromRadians(Math.atan2(Math.abs(x), z - centreZ));
    const column = Math.min(Math.floor(degrees / 30), 5);
    const ease = 0.5 - 0.5 * Math.cos(Math.PI * (degrees / 30 - column));
    const base = y / figure.heightScale;
    return (1 - ease) * within(columns[column]!, base) + ease * within(columns[column + 1]!, base);
  };
}

/** Limb: front, outer, back and inner depth, weighted by the squares of cosine and sine of the direction. */
function limbDepth(table: readonly (readonly number[])[]): Field {
  const columns = columnsOf(table);
  const [front, outer, back, inner] = [columns[0]!, columns[1]!, columns[2]!, columns[3]!];
  return (at, across, ahead) => {
    const square = across * across + ahead * ahead;
    const sideways = square > 0 ? (across * across) / square : 0;
    return (
      (1 - sideways) * within(ahead >= 0 ? front : back, at) +
      sideways * within(across >= 0 ? outer : inner, at)
    );
  };
}

function columnsOf(table: readonly (readonly number[])[]): MonotoneCubic[] {
  const heights = table.map((row) => row[0]!);
  return table[0]!.slice(1).map((_, column) =>
    monotoneCubic(
      heights,
      table.map((row) => row[column + 1]!),
    ),
  );
}

/** The curve, held at its last values beyond both ends. */
function within(curve: MonotoneCubic, at: number): number {
  return valueAt(curve, Math.min(Math.max(at, curve.x[0]!), curve.x[curve.x.length - 1]!));
}
