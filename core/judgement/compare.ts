import type { Field, FieldBand, FieldId, ValueBand } from '../fields/field.ts';
import { angleAbout, clothAxis, levelNear, type MeasuredBody, type Place, type Side } from './place.ts';
import type { WornCloth } from './tight-zones.ts';

/** What the second fabric does otherwise than the first, at one place. */
export interface PlaceDifference {
  readonly place: Place;
  /** Mean of each over the place, in the field's unit. */
  readonly first: number;
  readonly second: number;
  /** second - first. */
  readonly difference: number;
  /** Bands of all three; left out where either fabric bears none. */
  readonly band?: { readonly first: ValueBand; readonly second: ValueBand; readonly difference: ValueBand };
  /** m². */
  readonly area: number;
}

/** True where the band of a difference leaves zero out: whatever the couplings, one fabric does more than the other. */
export const isSure = ({ band }: Pick<PlaceDifference, 'band'>): boolean =>
  band === undefined || band.difference.low > 0 || band.difference.high < 0;

/**
 * The band of second - first, each fabric at its own worst end: low of the second less high of the first, and the other
 * way round.
 *
 * The cautious choice. Two knits of one kind may well err to the same side, and then less of it is left; but nothing that
 * the strips tell says so: how far the true coupling lies from the shown one is each fabric's own.
 */
export const differenceBand = (first: ValueBand, second: ValueBand): ValueBand => ({
  low: second.low - first.high,
  high: second.high - first.low,
});

/** Two fabrics on one body in one garment. */
export interface Comparison {
  /** second - first, field by field, on the mesh both share. */
  readonly differences: readonly Field[];
  /** Pressure on skin place by place, the largest difference first. */
  readonly pressurePlaces: readonly PlaceDifference[];
}

/** Quantities that are nothing, and not unknown, where they have no meaning: off the skin nothing presses. */
const ZERO_WHERE_UNDEFINED: ReadonlySet<FieldId> = new Set([
  'skinPressure',
  'discPressure',
  'tensionAcross',
  'tensionAlong',
  'gap',
  'give',
]);

/**
 * The difference of one quantity, second - first.
 *
 * Undefined where both are; where only one is, it counts as zero if the quantity is nothing there, else it is undefined.
 */
export function fieldDifference(first: Field, second: Field): Field {
  const count = first.values.length;
  const values = new Float64Array(count);
  const undefinedAt = new Uint8Array(count);
  const isZeroThere = ZERO_WHERE_UNDEFINED.has(first.id);
  for (let v = 0; v < count; v++) {
    const missing = first.undefinedAt[v]! + second.undefinedAt[v]!;
    if (missing === 2 || (missing === 1 && !isZeroThere)) {
      undefinedAt[v] = 1;
      continue;
    }
    const one = first.undefinedAt[v] === 1 ? 0 : first.values[v]!;
    const other = second.undefinedAt[v] === 1 ? 0 : second.values[v]!;
    values[v] = other - one;
  }
  const band = bandOfDifference(first.band, second.band, undefinedAt);
  return { id: first.id, unit: first.unit, kind: 'symmetric', values, undefinedAt, ...(band && { band }) };
}

/** Vertex by vertex as {@link differenceBand}; none where either fabric bears none. */
function bandOfDifference(
  first: FieldBand | undefined,
  second: FieldBand | undefined,
  undefinedAt: Uint8Array,
): FieldBand | null {
  if (first === undefined || second === undefined) return null;
  const low = new Float64Array(undefinedAt.length);
  const high = new Float64Array(undefinedAt.length);
  for (let v = 0; v < undefinedAt.length; v++) {
    if (undefinedAt[v] === 1) continue;
    const one = { low: first.low[v]!, high: first.high[v]! };
    const band = differenceBand(one, { low: second.low[v]!, high: second.high[v]! });
    low[v] = band.low;
    high[v] = band.high;
  }
  return { low, high };
}

/**
 * Two results of the same study, one per fabric, side by side.
 *
 * @param cloth - The first fabric's worn cloth: places are named on it and its areas weigh the means.
 */
export function compareWorn(
  cloth: WornCloth,
  body: MeasuredBody,
  first: readonly Field[],
  second: readonly Field[],
): Comparison {
  const differences: Field[] = [];
  for (const field of first) {
    const other = second.find((candidate) => candidate.id === field.id);
    if (other !== undefined) differences.push(fieldDifference(field, other));
  }
  const pressure = first.find((field) => field.id === 'skinPressure');
  const otherPressure = second.find((field) => field.id === 'skinPressure');
  const pressurePlaces =
    pressure === undefined || otherPressure === undefined
      ? []
      : placesOf(cloth, body, pressure, otherPressure);
  return { differences, pressurePlaces };
}

/** A place being added up. */
interface PlaceSum {
  readonly place: Place;
  area: number;
  height: number;
  /** Area times value, at the low end, as shown and at the high end: of the first fabric, then of the second. */
  readonly first: Float64Array;
  readonly second: Float64Array;
}

/** Places are a hem row or a measured level, in four quarters: front, sides (taken together) and back. */
function placesOf(
  cloth: WornCloth,
  body: MeasuredBody,
  first: Field,
  second: Field,
): readonly PlaceDifference[] {
  const axis = clothAxis(cloth.positions);
  const sums = new Map<string, PlaceSum>();
  for (let v = 0; v < first.values.length; v++) {
    const [x, y, z] = [cloth.positions[3 * v]!, cloth.positions[3 * v + 1]!, cloth.positions[3 * v + 2]!];
    const level = levelNear(body.girths, y);
    if (level === null && body.girths.length > 0) continue;
    const side = quarterOf(angleAbout(axis.centreAt(y), x, z));
    const slab = Math.round(y / 0.1);
    const key = `${level ?? slab} ${side}`;
    const place = { level, height: y, side, hem: null };
    const entry: PlaceSum = sums.get(key) ?? {
      place,
      area: 0,
      height: 0,
      first: new Float64Array(3),
      second: new Float64Array(3),
    };
    const area = cloth.vertexArea[v]!;
    entry.area += area;
    entry.height += area * y;
    addValues(first, v, area, entry.first);
    addValues(second, v, area, entry.second);
    sums.set(key, entry);
  }
  const isBanded = first.band !== undefined && second.band !== undefined;
  return [...sums.values()]
    .filter((entry) => entry.area > 0)
    .map((entry) => placeDifference(entry, isBanded))
    .sort((a, b) => Math.abs(b.difference) - Math.abs(a.difference));
}

function addValues({ values, band }: Field, v: number, area: number, into: Float64Array): void {
  into[0]! += area * (band ?? { low: values }).low[v]!;
  into[1]! += area * values[v]!;
  into[2]! += area * (band ?? { high: values }).high[v]!;
}

/** One coupling holds for a whole fabric, so a mean's band is the mean of the ends. */
function placeDifference(sum: PlaceSum, isBanded: boolean): PlaceDifference {
  const { place, area, height } = sum;
  const [first, second] = [sum.first, sum.second].map((sums) => ({
    low: sums[0]! / area,
    shown: sums[1]! / area,
    high: sums[2]! / area,
  }));
  return {
    place: { ...place, height: height / area },
    first: first!.shown,
    second: second!.shown,
    difference: second!.shown - first!.shown,
    ...(isBanded && {
      band: {
        first: { low: first!.low, high: first!.high },
        second: { low: second!.low, high: second!.high },
        difference: differenceBand(first!, second!),
      },
    }),
    area,
  };
}

function quarterOf(angle: number): Side {
  const turn = Math.abs(angle);
  if (turn <= Math.PI / 4) return 'front';
  return turn >= (3 * Math.PI) / 4 ? 'back' : 'bothSides';
}
