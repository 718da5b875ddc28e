import type { Field, FieldBand, ValueBand } from '../fields/field.ts';
import { joinedGroups } from '../units/joined-groups.ts';
import {
  angleAbout,
  clothAxis,
  levelNear,
  MIRRORED,
  regionNear,
  sideOf,
  type ClothAxis,
  type MeasuredBody,
  type Place,
  type Side,
} from './place.ts';

/** A connected part of the cloth where a quantity lies above a limit. SI. */
export interface Zone {
  readonly place: Place;
  /** m². */
  readonly area: number;
  readonly max: number;
  /** Mean over the area. */
  readonly mean: number;
  /** Bands of both over the zone as shown; left out where the field bears none. */
  readonly band?: { readonly max: ValueBand; readonly mean: ValueBand };
  /** The vertex of the largest value, for the leader line. Two where the zone lies the same on both sides. */
  readonly peaks: readonly number[];
}

/** The cloth that zones are looked for on. */
export interface WornCloth {
  /** 3·V, m. */
  readonly positions: Float64Array;
  readonly triangles: Uint32Array;
  /** 1 on a free edge; V. */
  readonly edgeVertex: Uint8Array;
  /** m²; V. */
  readonly vertexArea: Float64Array;
}

/** What is looked for. */
export interface ZoneSearch {
  readonly field: Pick<Field, 'values' | 'undefinedAt' | 'band'>;
  /** The value from which a place counts, in the field's unit. */
  readonly above: number;
  /** Smaller zones are left out, m²; a fingertip (1 cm²) if left out. */
  readonly smallestArea?: number;
  /** True to take undefined places as well: the gap is a length even where no pressure is. */
  readonly countUndefined?: boolean;
}

const FINGERTIP = 1e-4;

/**
 * Connected areas above a limit, the highest first, mirror images told once.
 *
 * Two vertices are connected where an edge joins them and both lie above the limit; area is the sum of the vertices'
 * shares.
 */
export function zonesAbove(cloth: WornCloth, body: MeasuredBody, search: ZoneSearch): readonly Zone[] {
  const { field, above, smallestArea = FINGERTIP, countUndefined = false } = search;
  const isIn = (v: number): boolean =>
    field.values[v]! >= above && (countUndefined || field.undefinedAt[v] !== 1);
  const axis = clothAxis(cloth.positions);
  const heights = heightsOf(cloth.positions);
  const zones: Zone[] = [];
  for (const members of connectedParts(cloth.triangles, field.values.length, isIn)) {
    const zone = measureZone(members, field, { cloth, body, axis, heights });
    if (zone.area >= smallestArea) zones.push(zone);
  }
  return joinMirrored(zones.sort((a, b) => b.max - a.max));
}

interface Surroundings {
  readonly cloth: WornCloth;
  readonly body: MeasuredBody;
  readonly axis: ClothAxis;
  readonly heights: { readonly low: number; readonly high: number };
}

function measureZone(members: readonly number[], field: ZoneSearch['field'], around: Surroundings): Zone {
  const { values, band } = field;
  const { vertexArea } = around.cloth;
  let area = 0;
  let peak = members[0]!;
  for (const v of members) {
    area += vertexArea[v]!;
    if (values[v]! > values[peak]!) peak = v;
  }
  return {
    place: placeOf(members, peak, around),
    area,
    max: values[peak]!,
    mean: meanOver(members, values, vertexArea),
    ...(band && { band: bandOver(members, band, vertexArea) }),
    peaks: [peak],
  };
}

function meanOver(members: readonly number[], values: Float64Array, vertexArea: Float64Array): number {
  let area = 0;
  let sum = 0;
  for (const v of members) {
    area += vertexArea[v]!;
    sum += vertexArea[v]! * values[v]!;
  }
  return area > 0 ? sum / area : values[members[0]!]!;
}

/** One coupling holds for the whole fabric: all vertices stand at the same end together. */
function bandOver(
  members: readonly number[],
  { low, high }: FieldBand,
  vertexArea: Float64Array,
): NonNullable<Zone['band']> {
  const most = (values: Float64Array): number =>
    members.reduce((found, v) => Math.max(found, values[v]!), -Infinity);
  return {
    max: { low: most(low), high: most(high) },
    mean: { low: meanOver(members, low, vertexArea), high: meanOver(members, high, vertexArea) },
  };
}

function placeOf(members: readonly number[], peak: number, around: Surroundings): Place {
  const height = around.cloth.positions[3 * peak + 1]!;
  const side = goesRound(members, around) ? 'around' : sideAt(peak, around);
  const { positions } = around.cloth;
  const region = regionNear(around.body, [positions[3 * peak]!, height, positions[3 * peak + 2]!]);
  return {
    level: levelNear(around.body.girths, height),
    height,
    side,
    ...(region !== null && { region }),
    hem: hemAt(members, peak, around),
  };
}

/** A zone is named for a hem when its peak lies this near to one, m. */
const HEM_REACH = 0.025;

function hemAt(members: readonly number[], peak: number, { cloth, heights }: Surroundings): Place['hem'] {
  const { positions, edgeVertex } = cloth;
  const edge = members.find((v) => edgeVertex[v] === 1 && distanceBetween(positions, v, peak) <= HEM_REACH);
  if (edge === undefined) return null;
  return positions[3 * edge + 1]! > (heights.low + heights.high) / 2 ? 'upper' : 'lower';
}

const distanceBetween = (p: Float64Array, a: number, b: number): number =>
  Math.hypot(p[3 * a]! - p[3 * b]!, p[3 * a + 1]! - p[3 * b + 1]!, p[3 * a + 2]! - p[3 * b + 2]!);

function angleAt(v: number, { cloth: { positions }, axis }: Surroundings): number {
  return angleAbout(axis.centreAt(positions[3 * v + 1]!), positions[3 * v]!, positions[3 * v + 2]!);
}

const sideAt = (v: number, around: Surroundings): Side => sideOf(angleAt(v, around));

/** True where the zone is met in each of twelve directions. */
function goesRound(members: readonly number[], around: Surroundings): boolean {
  const met = new Set<number>();
  for (const v of members) met.add(Math.floor(((angleAt(v, around) + Math.PI) / (2 * Math.PI)) * 11.999));
  return met.size === 12;
}

function heightsOf(positions: Float64Array): { low: number; high: number } {
  let low = Infinity;
  let high = -Infinity;
  for (let y = 1; y < positions.length; y += 3) {
    low = Math.min(low, positions[y]!);
    high = Math.max(high, positions[y]!);
  }
  return { low, high };
}

/** Groups of vertices joined by edges. */
function connectedParts(
  triangles: Uint32Array,
  vertexCount: number,
  isIn: (v: number) => boolean,
): readonly (readonly number[])[] {
  const { leadOf, join } = joinedGroups(vertexCount);
  const joinIn = (a: number, b: number): void => {
    if (isIn(a) && isIn(b)) join(a, b);
  };
  for (let corner = 0; corner < triangles.length; corner += 3) {
    const [a, b, c] = [triangles[corner]!, triangles[corner + 1]!, triangles[corner + 2]!];
    joinIn(a, b);
    joinIn(b, c);
    joinIn(c, a);
  }
  const parts = new Map<number, number[]>();
  for (let v = 0; v < vertexCount; v++) {
    if (!isIn(v)) continue;
    const lead = leadOf(v);
    const part = parts.get(lead);
    if (part === undefined) parts.set(lead, [v]);
    else part.push(v);
  }
  return [...parts.values()];
}

/** Mirror images within this share of each other's peak and area are one zone on both sides. */
const ALIKE = 0.15;
/** ... and within this height of each other, m. */
const LEVEL_WITH = 0.03;

function joinMirrored(zones: readonly Zone[]): readonly Zone[] {
  const left = [...zones];
  const joined: Zone[] = [];
  while (left.length > 0) {
    const zone = left.shift()!;
    const index = left.findIndex((other) => areMirrored(zone, other));
    joined.push(index < 0 ? zone : onBothSides(zone, left.splice(index, 1)[0]!));
  }
  return joined;
}

function areMirrored(one: Zone, other: Zone): boolean {
  const { side } = one.place;

  return (
    MIRRORED[side] !== side &&
    MIRRORED[side] === other.place.side &&
    one.place.hem === other.place.hem &&
    Math.abs(one.place.height - other.place.height) <= LEVEL_WITH &&
    alike(one.max, other.max) &&
    alike(one.area, other.area)
  );
}

function onBothSides(one: Zone, other: Zone): Zone {
  const area = one.area + other.area;
  const together = (a: number, b: number): number => (a * one.area + b * other.area) / area;
  const bands =
    one.band && other.band
      ? {
          max: {
            low: Math.max(one.band.max.low, other.band.max.low),
            high: Math.max(one.band.max.high, other.band.max.high),
          },
          mean: {
            low: together(one.band.mean.low, other.band.mean.low),
            high: together(one.band.mean.high, other.band.mean.high),
          },
        }
      : null;
  return {
    place: { ...one.place, side: bothOf(one.place.side) },
    area,
    max: Math.max(one.max, other.max),
    mean: together(one.mean, other.mean),
    ...(bands && { band: bands }),
    peaks: [...one.peaks, ...other.peaks],
  };
}

/** Left and right together; in front or behind they keep that word. */
function bothOf(side: Side): Side {
  if (side === 'leftFront' || side === 'rightFront') return 'bothFronts';
  if (side === 'leftBack' || side === 'rightBack') return 'bothBacks';
  return 'bothSides';
}

const alike = (a: number, b: number): boolean => Math.abs(a - b) <= ALIKE * Math.max(a, b);
