import { TISSUE_SOURCES, type TissueMap, type TissueSource } from '../body/tissue-map.ts';
import type { Field } from '../fields/field.ts';
import type { ColourRange } from './colour-scale.ts';
import { legendOf, type Legend } from './legend.ts';

/** What of the tissue is painted: its depth, or how stiff it is. */
export type TissueShown = 'depth' | 'modulus';

/** The painted quantity as the legend and the form take it. */
export const tissueField = (
  map: TissueMap,
  shown: TissueShown,
): Pick<Field, 'values' | 'undefinedAt' | 'unit'> => ({
  values: map[shown],
  undefinedAt: new Uint8Array(map.depth.length),
  unit: shown === 'depth' ? 'm' : 'Pa',
});

/** The top of a scale ends on a multiple of this, m and Pa, and never lies below the first. */
const STEPS: Readonly<Record<TissueShown, number>> = { depth: 0.02, modulus: 20e3 };

/** From nothing to the next round number above the highest value: equal bodies have equal scales. */
export function tissueRange(map: TissueMap, shown: TissueShown): ColourRange {
  const highest = map[shown].reduce((most, value) => Math.max(most, value), 0);
  const step = STEPS[shown];
  return { low: 0, high: step * Math.max(1, Math.ceil(highest / step - 1e-9)) };
}

/** The tape measure beside a tissue map: mm, or kPa alone. */
export function tissueLegend(map: TissueMap, shown: TissueShown, vertexArea: Float64Array): Legend {
  const field = tissueField(map, shown);
  const legend = legendOf({ field, range: tissueRange(map, shown), vertexArea, isDifference: false });
  return { ...legend, second: null };
}

/** Skin area by where its values are from, m²; only sources that are there. */
export function sourceAreas(
  { source }: TissueMap,
  vertexArea: Float64Array,
): readonly { readonly source: TissueSource; readonly area: number }[] {
  const areas = new Float64Array(TISSUE_SOURCES.length);
  for (let v = 0; v < source.length; v++) areas[source[v]!]! += vertexArea[v]!;
  return TISSUE_SOURCES.flatMap((name, i) => (areas[i]! > 0 ? [{ source: name, area: areas[i]! }] : []));
}

/** Where the value of one vertex is from. */
export const sourceOf = ({ source }: TissueMap, vertex: number): TissueSource =>
  TISSUE_SOURCES[source[vertex]!]!;
