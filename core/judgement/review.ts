import type { Field, ValueBand } from '../fields/field.ts';
import { BRIDGED_FROM, TIGHT_FROM } from './limits.ts';
import type { MeasuredBody } from './place.ts';
import { zonesAbove, type WornCloth, type Zone } from './tight-zones.ts';

/** What one worn fabric comes to: where it is tight, where it bridges, how much of it lies on the skin. */
export interface Review {
  /** Pa; the limit from which a place is listed. */
  readonly tightFrom: number;
  /** Highest pressure first. */
  readonly tight: readonly Zone[];
  /** Deepest gap first. */
  readonly bridged: readonly Zone[];
  /** Highest pressure on skin anywhere, Pa. */
  readonly highestPressure: number;
  /** Mean pressure over the cloth that presses, Pa; 0 where none does. */
  readonly meanPressure: number;
  /** Bands of both; left out where the fabric's coupling has none. */
  readonly band?: { readonly highest: ValueBand; readonly mean: ValueBand };
  /** Area of the worn cloth and of its part off the skin, m². */
  readonly area: number;
  readonly offSkinArea: number;
}

/** Bridges smaller than this are no news, m². Common practice. */
const SMALLEST_BRIDGE = 3e-4;

/** Reads one worn cloth: tight places, bridged places, and how much of it presses. */
export function reviewOf(cloth: WornCloth, body: MeasuredBody, fields: readonly Field[]): Review {
  const pressure = fields.find((field) => field.id === 'skinPressure');
  const gap = fields.find((field) => field.id === 'gap');
  const { area, offSkinArea, mean, highest } = pressingOf(cloth.vertexArea, pressure);
  const [low, high] = pressure?.band
    ? [pressure.band.low, pressure.band.high].map((values) =>
        pressingOf(cloth.vertexArea, { values, undefinedAt: pressure.undefinedAt }),
      )
    : [];
  return {
    tightFrom: TIGHT_FROM,
    tight: pressure === undefined ? [] : zonesAbove(cloth, body, { field: pressure, above: TIGHT_FROM }),
    bridged:
      gap === undefined
        ? []
        : zonesAbove(cloth, body, {
            field: gap,
            above: BRIDGED_FROM,
            smallestArea: SMALLEST_BRIDGE,
            countUndefined: true,
          }),
    highestPressure: highest,
    meanPressure: mean,
    ...(low &&
      high && {
        band: {
          highest: { low: low.highest, high: high.highest },
          mean: { low: low.mean, high: high.mean },
        },
      }),
    area,
    offSkinArea,
  };
}

interface Pressing {
  readonly area: number;
  readonly offSkinArea: number;
  readonly mean: number;
  readonly highest: number;
}

/** Mean and highest over the cloth that presses. */
function pressingOf(
  vertexArea: Float64Array,
  pressure: Pick<Field, 'values' | 'undefinedAt'> | undefined,
): Pressing {
  let area = 0;
  let offSkinArea = 0;
  let sum = 0;
  let highest = 0;
  for (let v = 0; v < vertexArea.length; v++) {
    const share = vertexArea[v]!;
    area += share;
    if (pressure === undefined) continue;
    if (pressure.undefinedAt[v] === 1) offSkinArea += share;
    else {
      sum += share * pressure.values[v]!;
      highest = Math.max(highest, pressure.values[v]!);
    }
  }
  const onSkin = area - offSkinArea;
  return { area, offSkinArea, mean: onSkin > 0 ? sum / onSkin : 0, highest };
}
