import type { Field, ValueBand } from '../fields/field.ts';

/** How far a painted quantity may lie off at a typical place of the map. */
export interface TypicalBand extends ValueBand {
  /** `share`: of the value shown, -0.12. `value`: in the field's SI unit, to be added to the value shown. */
  readonly kind: 'share' | 'value';
}

/** Wider shares than this say little: the value stands near zero, and the band is told in the field's unit. */
const WIDEST_SHARE = 0.5;

/**
 * The band of a field in two numbers: the area-weighted medians of how far its low and its high values lie from the one
 * shown, over the cloth where the quantity has a meaning. Shares where values are of one sign and not near zero.
 *
 * @param vertexArea - Worn area per vertex, m²; V.
 * @returns Null where the field bears no band, or has no meaning anywhere.
 */
export function typicalBand(
  field: Pick<Field, 'values' | 'undefinedAt' | 'band'>,
  vertexArea: Float64Array,
  isDifference: boolean,
): TypicalBand | null {
  const { values, undefinedAt, band } = field;
  const places = Array.from(values.keys()).filter((v) => undefinedAt[v] !== 1 && vertexArea[v]! > 0);
  if (band === undefined || places.length === 0) return null;
  const middle = (of: (v: number) => number): number => weightedMedian(places, of, vertexArea);
  const share = (end: Float64Array): number =>
    middle((v) => (values[v]! > 0 ? end[v]! / values[v]! - 1 : end[v] === 0 ? 0 : Infinity));
  const shares = { low: share(band.low), high: share(band.high) };
  if (!isDifference && Math.abs(shares.low) <= WIDEST_SHARE && shares.high <= WIDEST_SHARE)
    return { kind: 'share', ...shares };
  return {
    kind: 'value',
    low: middle((v) => band.low[v]! - values[v]!),
    high: middle((v) => band.high[v]! - values[v]!),
  };
}

/** The smallest value at or below which half of the area lies. */
function weightedMedian(places: readonly number[], of: (v: number) => number, areas: Float64Array): number {
  const sorted = places.map((v) => ({ value: of(v), area: areas[v]! })).sort((a, b) => a.value - b.value);
  const half = sorted.reduce((sum, { area }) => sum + area, 0) / 2;
  let passed = 0;
  return (sorted.find(({ area }) => (passed += area) >= half) ?? sorted.at(-1)!).value;
}
