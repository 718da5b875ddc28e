import type { Field } from '../fields/field.ts';
import { percentFromRatio } from '../units/units.ts';
import { areaHistogram } from './area-histogram.ts';
import type { ColourRange } from './colour-scale.ts';
import { tapeUnits, type DisplayUnit } from './display-unit.ts';
import { fixed, signed } from './number-format.ts';
import { ticksBetween } from './ticks.ts';
import { typicalBand } from './typical-band.ts';

/** A mark on the tape: `at` runs from 0 (low end) to 1 (high end). */
export interface LegendMark {
  readonly at: number;
  readonly label: string;
}

/** One edge of the tape. */
export interface LegendEdge {
  readonly unit: string;
  readonly marks: readonly LegendMark[];
  /** Places of the fine marks. */
  readonly fine: readonly number[];
}

/** How far the painted quantity may lie off at a typical place, as written: `−12`, `+6`, `%`. */
export interface LegendBand {
  readonly low: string;
  readonly high: string;
  readonly unit: string;
}

/** A legend as data: the window and the picture draw the same one. */
export interface Legend {
  readonly first: LegendEdge;
  readonly second: LegendEdge | null;
  /** Ends of the range in the first edge's unit. */
  readonly lowLabel: string;
  readonly highLabel: string;
  /** Distance between isolines in the field's SI unit: the first edge's numbered marks. */
  readonly isolineStep: number;
  /** Band areas, low to high, m². */
  readonly bands: Float64Array;
  readonly below: number;
  readonly above: number;
  readonly missing: number;
  /** Null where the quantity bears no band. */
  readonly band: LegendBand | null;
}

/** What a legend is drawn for. */
export interface LegendSubject {
  readonly field: Pick<Field, 'values' | 'undefinedAt' | 'unit' | 'band'>;
  readonly range: ColourRange;
  /** Worn area per vertex, m²; V. */
  readonly vertexArea: Float64Array;
  readonly isDifference: boolean;
}

/** Most parts between numbered marks: a tape at arm's length. */
const PARTS = 10;
const BAND_COUNT = 20;

/**
 * The tape measure beside the form: marks in both units, area per band, area outside.
 *
 * @param subject - `range` must be sound (see `soundRange`).
 */
export function legendOf({ field, range, vertexArea, isDifference }: LegendSubject): Legend {
  const { first, second } = tapeUnits(field.unit);
  const firstEdge = edgeOf(first, range, isDifference);
  const { step, decimals } = ticksBetween(first.fromSi(range.low), first.fromSi(range.high), PARTS);
  const write = isDifference ? signed : fixed;
  const histogram = areaHistogram(field, vertexArea, range, BAND_COUNT);
  const endDecimals = (value: number): number =>
    Math.abs(value - Number(value.toFixed(decimals))) < 1e-9 ? decimals : first.decimals;
  const label = (si: number): string => write(first.fromSi(si), endDecimals(first.fromSi(si)));
  return {
    first: firstEdge,
    second: second === null ? null : edgeOf(second, range, isDifference),
    lowLabel: label(range.low),
    highLabel: label(range.high),
    isolineStep: first.toSi(step),
    ...histogram,
    band: bandOf({ field, vertexArea, isDifference }, first),
  };
}

function bandOf(
  { field, vertexArea, isDifference }: Omit<LegendSubject, 'range'>,
  shown: DisplayUnit,
): LegendBand | null {
  const band = typicalBand(field, vertexArea, isDifference);
  if (band === null) return null;
  const isShare = band.kind === 'share';
  const write = (value: number): string =>
    isShare ? signed(percentFromRatio(value), 0) : signed(shown.fromSi(value), shown.decimals);
  return { low: write(band.low), high: write(band.high), unit: isShare ? '%' : shown.name };
}

function edgeOf(unit: DisplayUnit, range: ColourRange, isDifference: boolean): LegendEdge {
  const low = unit.fromSi(range.low);
  const high = unit.fromSi(range.high);
  const { numbered, fine, decimals } = ticksBetween(low, high, PARTS);
  const write = isDifference ? signed : fixed;
  const placeOf = (mark: number): number => (mark - low) / (high - low);
  return {
    unit: unit.name,
    marks: numbered.map((mark) => ({ at: placeOf(mark), label: write(mark, decimals) })),
    fine: fine.map(placeOf),
  };
}
