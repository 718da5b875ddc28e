import type { Field } from '../fields/field.ts';
import { placeOnRamp, type ColourRange } from './colour-scale.ts';

/** How much cloth shows what. Areas in m². */
export interface AreaHistogram {
  /** One per band, from the low end of the range to the high one. */
  readonly bands: Float64Array;
  readonly below: number;
  readonly above: number;
  /** Where the quantity has no meaning (hatched). */
  readonly missing: number;
}

/**
 * Adds up each vertex's share of the cloth in bands of equal width. All parts together are the whole cloth.
 *
 * @param vertexArea - Worn area that belongs to each vertex, m²; V.
 */
export function areaHistogram(
  field: Pick<Field, 'values' | 'undefinedAt'>,
  vertexArea: Float64Array,
  range: ColourRange,
  bandCount: number,
): AreaHistogram {
  const bands = new Float64Array(bandCount);
  const outside = { below: 0, above: 0, missing: 0 };
  for (let v = 0; v < vertexArea.length; v++) {
    const place = placeOnRamp(range, field.undefinedAt[v] === 1 ? Number.NaN : field.values[v]!);
    if (place.kind === 'on') {
      const band = Math.min(bandCount - 1, Math.floor(place.at * bandCount));
      bands[band]! += vertexArea[v]!;
    } else {
      outside[place.kind] += vertexArea[v]!;
    }
  }
  return { bands, ...outside };
}
