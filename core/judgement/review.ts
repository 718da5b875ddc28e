import type { Field } from '../fields/field.ts';
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
  let area = 0;
  let offSkinArea = 0;
  let sum = 0;
  let highestPressure = 0;
  for (let v = 0; v < cloth.vertexArea.length; v++) {
    const share = cloth.vertexArea[v]!;
    area += share;
    if (pressure === undefined) continue;
    if (pressure.undefinedAt[v] === 1) offSkinArea += share;
    else {
      sum += share * pressure.values[v]!;
      highestPressure = Math.max(highestPressure, pressure.values[v]!);
    }
  }
  const onSkin = area - offSkinArea;
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
    highestPressure,
    meanPressure: onSkin > 0 ? sum / onSkin : 0,
    area,
    offSkinArea,
  };
}
