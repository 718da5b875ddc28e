import type { DistanceField } from '../body/distance-field.ts';

/** A membrane of revolution about the y axis, given along its meridian by t, 0 to 1. m, N/m, Pa/m. */
export interface RevolvedMembrane {
  /** Where it starts: radius and height. */
  readonly laid: (t: number) => readonly [number, number];
  /** Its natural radius, and natural length along the meridian per t. */
  readonly naturalRadius: (t: number) => number;
  readonly naturalLength: (t: number) => number;
  /** T = stiffness * (stretch - 1) both ways, independently. */
  readonly stiffness: number;
  readonly body: DistanceField;
  /** Pressure per depth. */
  readonly foundation: number;
}

/** Where it rests: arrays over equal steps of t. */
export interface RevolvedRest {
  readonly radius: Float64Array;
  readonly height: Float64Array;
  /** Distance from the body, m; pressure, Pa. */
  readonly distance: Float64Array;
  readonly pressure: Float64Array;
}

const MOST_STEPS = 200;
/** Movement of a whole step below which the membrane rests, m. */
const STILL = 1e-13;
/** Least share of its length that a piece may be shortened to in one step of the search. */
const SHORTEST_STEP = 1 / 1024;

/**
 * Lets the membrane come to rest without friction, ends held in height: an independent solver with its own, one-dimensional
 * equations, for what has no closed form. Each piece is a cone frustum; ring forces 2 pi L Th, pieces' pulls 2 pi r0 Ta,
 * pressure k d on the current area. Newton with areas of the step before, block tridiagonal.
 *
 * @param count - Pieces of the meridian.
 */
export function restOfRevolution(membrane: RevolvedMembrane, count: number): RevolvedRest {
  const x = new Float64Array(2 * (count + 1));
  for (let i = 0; i <= count; i++) x.set(membrane.laid(i / count), 2 * i);
  const system = bandSystem(count);
  let miss = assemble(membrane, x, system);
  for (let step = 0; step < MOST_STEPS; step++) {
    const move = solveBand(system);
    const from = Float64Array.from(x);
    let share = 1;
    for (;;) {
      for (let i = 0; i < x.length; i++) x[i] = from[i]! + share * move[i]!;
      const now = assemble(membrane, x, system);
      if (now < miss || share <= SHORTEST_STEP) {
        miss = now;
        break;
      }
      share /= 2;
    }
    if (move.reduce((most, one) => Math.max(most, Math.abs(one)), 0) < STILL) break;
  }
  return restFrom(membrane, x);
}

function restFrom({ body, foundation }: RevolvedMembrane, x: Float64Array): RevolvedRest {
  const sample = new Float64Array(10);
  const distance = Float64Array.from({ length: x.length / 2 }, (_, i) => {
    body.sample(x[2 * i]!, x[2 * i + 1]!, 0, sample);
    return sample[0]!;
  });
  return {
    radius: x.filter((_, i) => i % 2 === 0),
    height: x.filter((_, i) => i % 2 === 1),
    distance,
    pressure: distance.map((d) => Math.max(0, -d) * foundation),
  };
}

/** Unknown 2 i is a radius, 2 i + 1 a height; row i holds columns i - 3 ... i + 3. */
interface BandSystem {
  readonly size: number;
  readonly band: Float64Array;
  readonly force: Float64Array;
}

const REACH = 3;
const WIDTH = 2 * REACH + 1;

const bandSystem = (count: number): BandSystem => ({
  size: 2 * (count + 1),
  band: new Float64Array(2 * (count + 1) * WIDTH),
  force: new Float64Array(2 * (count + 1)),
});

const addTo = ({ band }: BandSystem, row: number, column: number, value: number): void => {
  band[row * WIDTH + column - row + REACH]! += value;
};

/** Forces and their slope; gives the root-sum-square of the unbalanced ones. */
function assemble(membrane: RevolvedMembrane, x: Float64Array, system: BandSystem): number {
  const { band, force, size } = system;
  band.fill(0);
  force.fill(0);
  const count = size / 2 - 1;
  for (let i = 0; i < count; i++) {
    addRings(membrane, x, system, i);
    addPiece(membrane, x, system, i);
  }
  addContact(membrane, x, system);
  for (const row of [1, size - 1]) {
    force[row] = 0;
    for (let column = Math.max(0, row - REACH); column <= Math.min(size - 1, row + REACH); column++) {
      band[row * WIDTH + column - row + REACH] = column === row ? 1 : 0;
      band[column * WIDTH + row - column + REACH] = column === row ? 1 : 0;
    }
  }
  return Math.sqrt(force.reduce((sum, one) => sum + one * one, 0));
}

/** Hoop: energy K/2 (rm / r0 - 1)^2 2 pi r0 L with rm the piece's middle radius. */
function addRings(membrane: RevolvedMembrane, x: Float64Array, system: BandSystem, i: number): void {
  const count = system.size / 2 - 1;
  const t = (i + 0.5) / count;
  const length = membrane.naturalLength(t) / count;
  const stretch = (x[2 * i]! + x[2 * i + 2]!) / 2 / membrane.naturalRadius(t);
  const tension = membrane.stiffness * (stretch - 1);
  const stiffness = (2 * Math.PI * length * membrane.stiffness) / membrane.naturalRadius(t) / 4;
  for (const a of [2 * i, 2 * i + 2]) {
    system.force[a]! -= Math.PI * length * tension;
    for (const b of [2 * i, 2 * i + 2]) addTo(system, a, b, stiffness);
  }
}

/** Meridian: energy K/2 (l / L - 1)^2 2 pi r0 L. */
function addPiece(membrane: RevolvedMembrane, x: Float64Array, system: BandSystem, i: number): void {
  const count = system.size / 2 - 1;
  const t = (i + 0.5) / count;
  const natural = membrane.naturalLength(t) / count;
  const away = [x[2 * i + 2]! - x[2 * i]!, x[2 * i + 3]! - x[2 * i + 1]!] as const;
  const length = Math.hypot(...away);
  const around = 2 * Math.PI * membrane.naturalRadius(t);
  const pull = around * membrane.stiffness * (length / natural - 1);
  const slope = (around * membrane.stiffness) / natural;
  for (let p = 0; p < 2; p++) {
    const unit = away[p]! / length;
    system.force[2 * i + p]! += pull * unit;
    system.force[2 * i + 2 + p]! -= pull * unit;
    for (let q = 0; q < 2; q++) {
      const along = (unit * away[q]!) / length;
      const value = slope * along + (pull / length) * ((p === q ? 1 : 0) - along);
      addTo(system, 2 * i + p, 2 * i + q, value);
      addTo(system, 2 * i + 2 + p, 2 * i + 2 + q, value);
      addTo(system, 2 * i + p, 2 * i + 2 + q, -value);
      addTo(system, 2 * i + 2 + p, 2 * i + q, -value);
    }
  }
}

/** The body's push on the area of each ring; the area counts as given. */
function addContact({ body, foundation }: RevolvedMembrane, x: Float64Array, system: BandSystem): void {
  const sample = new Float64Array(10);
  const count = system.size / 2 - 1;
  const pieceLength = (i: number) =>
    i < 0 || i >= count ? 0 : Math.hypot(x[2 * i + 2]! - x[2 * i]!, x[2 * i + 3]! - x[2 * i + 1]!);
  for (let i = 0; i <= count; i++) {
    body.sample(x[2 * i]!, x[2 * i + 1]!, 0, sample);
    const depth = -sample[0]!;
    if (depth <= 0) continue;
    const area = Math.PI * x[2 * i]! * (pieceLength(i - 1) + pieceLength(i));
    const normal = [sample[1]!, sample[2]!] as const;
    const bend = [
      [sample[4]!, sample[5]!],
      [sample[5]!, sample[7]!],
    ] as const;
    for (let p = 0; p < 2; p++) {
      system.force[2 * i + p]! += foundation * area * depth * normal[p]!;
      for (let q = 0; q < 2; q++) {
        const value = foundation * area * (normal[p]! * normal[q]! - depth * bend[p]![q]!);
        addTo(system, 2 * i + p, 2 * i + q, value);
      }
    }
  }
}

/** Elimination within the band, without exchange of rows: the matrix is nearly symmetric and positive. */
function solveBand({ size, band, force }: BandSystem): Float64Array {
  const b = Float64Array.from(band);
  const x = Float64Array.from(force);
  for (let i = 0; i < size; i++) {
    const pivot = b[i * WIDTH + REACH]!;
    for (let row = i + 1; row <= Math.min(size - 1, i + REACH); row++) {
      const factor = b[row * WIDTH + i - row + REACH]! / pivot;
      if (factor === 0) continue;
      for (let column = i; column <= Math.min(size - 1, i + REACH); column++)
        b[row * WIDTH + column - row + REACH]! -= factor * b[i * WIDTH + column - i + REACH]!;
      x[row]! -= factor * x[i]!;
    }
  }
  for (let i = size - 1; i >= 0; i--) {
    for (let column = i + 1; column <= Math.min(size - 1, i + REACH); column++)
      x[i]! -= b[i * WIDTH + column - i + REACH]! * x[column]!;
    x[i]! /= b[i * WIDTH + REACH]!;
  }
  return x;
}
