import type { Field, FieldId } from '../fields/field.ts';
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
  /** m². */
  readonly area: number;
}

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
  return { id: first.id, unit: first.unit, kind: 'symmetric', values, undefinedAt };
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
      : placesOf(cloth, body, pressure.values, otherPressure.values);
  return { differences, pressurePlaces };
}

/** Places are a hem row or a measured level, in four quarters: front, sides (taken together) and back. */
function placesOf(
  cloth: WornCloth,
  body: MeasuredBody,
  first: Float64Array,
  second: Float64Array,
): readonly PlaceDifference[] {
  const axis = clothAxis(cloth.positions);
  const sums = new Map<
    string,
    { place: Place; area: number; first: number; second: number; height: number }
  >();
  for (let v = 0; v < first.length; v++) {
    const [x, y, z] = [cloth.positions[3 * v]!, cloth.positions[3 * v + 1]!, cloth.positions[3 * v + 2]!];
    const level = levelNear(body.girths, y);
    if (level === null && body.girths.length > 0) continue;
    const side = quarterOf(angleAbout(axis.centreAt(y), x, z));
    const slab = Math.round(y / 0.1);
    const key = `${level ?? slab} ${side}`;
    const entry = sums.get(key) ?? {
      place: { level, height: y, side, hem: null },
      area: 0,
      first: 0,
      second: 0,
      height: 0,
    };
    const area = cloth.vertexArea[v]!;
    entry.area += area;
    entry.first += area * first[v]!;
    entry.second += area * second[v]!;
    entry.height += area * y;
    sums.set(key, entry);
  }
  return [...sums.values()]
    .filter((entry) => entry.area > 0)
    .map(({ place, area, first, second, height }) => ({
      place: { ...place, height: height / area },
      first: first / area,
      second: second / area,
      difference: (second - first) / area,
      area,
    }))
    .sort((a, b) => Math.abs(b.difference) - Math.abs(a.difference));
}

function quarterOf(angle: number): Side {
  const turn = Math.abs(angle);
  if (turn <= Math.PI / 4) return 'front';
  return turn >= (3 * Math.PI) / 4 ? 'back' : 'bothSides';
}
