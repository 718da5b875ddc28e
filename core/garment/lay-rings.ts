import type { DistanceField } from '../body/distance-field.ts';
import { Fault } from '../fault/fault.ts';
import { sectionAt, type Section } from '../mesh/section.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { mmFromMetres } from '../units/units.ts';
import type { TubeRegion } from './tube-sheet.ts';

/** One ring laid on the skin: points in a horizontal plane, evenly spaced along it from the centre front. */
export interface LaidRing {
  /** Height, m. */
  readonly at: number;
  /** 3 per point, m. */
  readonly points: Float64Array;
  /** Length of the closed ring, m. */
  readonly length: number;
}

/** What a ring is laid on: the faceted skin and the smooth field that contact uses. */
export interface RingBody {
  readonly skin: TriangleMesh;
  readonly field: DistanceField;
}

/**
 * A ring this much longer or shorter than its section has lost or gained a limb on the way to the smooth skin. Facets
 * alone change it by less than a hundredth.
 */
const LIMB_SHARE = 0.04;

/** Newton steps that carry a point of the faceted section to the smooth skin. */
const PROJECTION_STEPS = 4;

/**
 * The closed piece of the body's section at a height that belongs to the region asked for.
 *
 * @throws {Fault} `garment/level-off-body`, `garment/region-not-here`.
 */
export function regionSection(skin: TriangleMesh, region: TubeRegion, at: number): Section {
  const sections = sectionAt(skin, at);
  if (sections.length === 0) {
    const [lowest, highest] = range(skin.positions, 1, 3);
    throw new Fault('garment/level-off-body', {
      levelMm: mmFromMetres(at),
      lowestMm: mmFromMetres(lowest),
      highestMm: mmFromMetres(highest),
    });
  }
  const [rightmost, leftmost] = range(skin.positions, 0, 3);
  const middle = (rightmost + leftmost) / 2;
  const section = sections.find(({ points }) => isRegion(range(points, 0, 2), middle, region));
  if (section && (region !== 'whole' || sections.length === 1)) return section;
  throw new Fault('garment/region-not-here', {
    region,
    levelMm: mmFromMetres(at),
    pieceCount: sections.length,
  });
}

/**
 * Lays one ring on the skin at a height.
 *
 * The section of the faceted skin is resampled evenly, carried to the zero of the smooth field within the plane and
 * resampled again.
 *
 * @param pointCount - Points around the ring.
 * @throws {Fault} as {@link regionSection}; `garment/limbs-joined` where the section holds more than the field does (the
 *   fit body's contact field leaves the arms out).
 */
export function layRing(body: RingBody, region: TubeRegion, at: number, pointCount: number): LaidRing {
  const section = regionSection(body.skin, region, at);
  const plane = projectToSkin(resampleRing(section.points, pointCount), body.field, at);
  const even = projectToSkin(resampleRing(plane, pointCount), body.field, at);
  const length = ringLength(even);
  if (Math.abs(length - section.length) > LIMB_SHARE * section.length) {
    throw new Fault('garment/limbs-joined', {
      region,
      levelMm: mmFromMetres(at),
      sectionMm: mmFromMetres(section.length),
      ringMm: mmFromMetres(length),
    });
  }
  const points = new Float64Array(3 * pointCount);
  for (let i = 0; i < pointCount; i++) {
    points[3 * i] = even[2 * i]!;
    points[3 * i + 1] = at;
    points[3 * i + 2] = even[2 * i + 1]!;
  }
  return { at, points, length };
}

/**
 * Points evenly spaced along a closed ring, from its centre front (the crossing of its mid line with the largest z)
 * towards +x.
 *
 * @param ring - 2 per point: x, z.
 */
export function resampleRing(ring: Float64Array, pointCount: number): Float64Array {
  const turned = turnedToLeft(ring);
  const n = turned.length / 2;
  const { edge, share } = centreFront(turned);
  const lengths = Float64Array.from({ length: n }, (_, i) => edgeLength(turned, i));
  const total = lengths.reduce((sum, length) => sum + length, 0);
  const even = new Float64Array(2 * pointCount);
  let at = edge;
  let passed = -share * lengths[edge]!;
  for (let i = 0; i < pointCount; i++) {
    const target = (i * total) / pointCount;
    while (passed + lengths[at]! < target) {
      passed += lengths[at]!;
      at = (at + 1) % n;
    }
    const t = (target - passed) / lengths[at]!;
    const next = (at + 1) % n;
    even[2 * i] = turned[2 * at]! * (1 - t) + turned[2 * next]! * t;
    even[2 * i + 1] = turned[2 * at + 1]! * (1 - t) + turned[2 * next + 1]! * t;
  }
  return even;
}

/** A trunk holds the mid plane of the body; a leg lies to one side of it. */
function isRegion([lowest, highest]: readonly [number, number], middle: number, region: TubeRegion): boolean {
  switch (region) {
    case 'whole':
      return true;
    case 'trunk':
      return lowest < middle && highest > middle;
    case 'leftLeg':
      return lowest > middle;
    case 'rightLeg':
      return highest < middle;
  }
}

function projectToSkin(ring: Float64Array, field: DistanceField, at: number): Float64Array {
  const onSkin = Float64Array.from(ring);
  const sample = new Float64Array(10);
  for (let i = 0; i < ring.length; i += 2) {
    for (let step = 0; step < PROJECTION_STEPS; step++) {
      field.sample(onSkin[i]!, at, onSkin[i + 1]!, sample);
      const distance = sample[0]!;
      const gradientX = sample[1]!;
      const gradientZ = sample[3]!;
      const slope = gradientX * gradientX + gradientZ * gradientZ;
      if (slope < 0.05) break;
      onSkin[i]! -= (distance * gradientX) / slope;
      onSkin[i + 1]! -= (distance * gradientZ) / slope;
    }
  }
  return onSkin;
}

/** The ring in the order front, +x, back, -x. */
function turnedToLeft(ring: Float64Array): Float64Array {
  let doubleArea = 0;
  const n = ring.length / 2;
  for (let i = 0; i < n; i++) {
    const next = (i + 1) % n;
    doubleArea += ring[2 * i]! * ring[2 * next + 1]! - ring[2 * next]! * ring[2 * i + 1]!;
  }
  if (doubleArea < 0) return ring;
  const reversed = new Float64Array(ring.length);
  for (let i = 0; i < n; i++) {
    reversed[2 * i] = ring[2 * (n - 1 - i)]!;
    reversed[2 * i + 1] = ring[2 * (n - 1 - i) + 1]!;
  }
  return reversed;
}

/** Where the ring crosses its middle in x from right to left, farthest to the front. */
function centreFront(ring: Float64Array): { edge: number; share: number } {
  const n = ring.length / 2;
  const [lowest, highest] = range(ring, 0, 2);
  const middle = (lowest + highest) / 2;
  let best = { edge: 0, share: 0, z: -Infinity };
  for (let i = 0; i < n; i++) {
    const next = (i + 1) % n;
    const x0 = ring[2 * i]! - middle;
    const x1 = ring[2 * next]! - middle;
    if (x0 > 0 || x1 <= 0) continue;
    const share = x0 / (x0 - x1);
    const z = ring[2 * i + 1]! * (1 - share) + ring[2 * next + 1]! * share;
    if (z > best.z) best = { edge: i, share, z };
  }
  return best;
}

function ringLength(ring: Float64Array): number {
  let length = 0;
  for (let i = 0; i < ring.length / 2; i++) length += edgeLength(ring, i);
  return length;
}

function edgeLength(ring: Float64Array, i: number): number {
  const next = (i + 1) % (ring.length / 2);
  return Math.hypot(ring[2 * next]! - ring[2 * i]!, ring[2 * next + 1]! - ring[2 * i + 1]!);
}

/** Smallest and largest of every `stride`-th number. */
function range(numbers: Float64Array, offset: number, stride: number): [number, number] {
  let lowest = Infinity;
  let highest = -Infinity;
  for (let i = offset; i < numbers.length; i += stride) {
    lowest = Math.min(lowest, numbers[i]!);
    highest = Math.max(highest, numbers[i]!);
  }
  return [lowest, highest];
}
