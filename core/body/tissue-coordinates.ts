import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { triple, type Triple } from '../mesh/triple.ts';
import type { Body } from './body.ts';
import { BODY_PARTS, type BodyPart } from './body-regions.ts';
import { ARM_LEVEL_NAMES, type LandmarkName, type Landmarks } from './landmarks.ts';
import { dot, frameOf, intoFrame, meshInFrame, unit } from './tape-frame.ts';
import { sliceRound, slicerOf, type Slicer } from './tape-slices.ts';

/** A body with everything that coordinates need. */
export type MappedBody = Pick<Body, 'skin' | 'landmarks' | 'floor' | 'forward'> & {
  readonly regions: NonNullable<Body['regions']>;
};

/** Where a vertex lies on its part, in numbers that mean the same on every body. */
export interface PartCoordinates {
  /** Index into BODY_PARTS, the head as part of the trunk; V. */
  readonly part: Uint8Array;
  /** Along the part: 0 at its first landmark, 1 at the second, ...; V. */
  readonly along: Float64Array;
  /** Round the part's middle, from the front towards the outer side (on the trunk: to either side alike), rad; V. */
  readonly angle: Float64Array;
  /** From the part's middle, m; V. */
  readonly radius: Float64Array;
}

/** Heights that part the trunk, and each leg, from below; the floor is that of the leg. */
const TRUNK_KNOTS = [
  'crotch',
  'hipFront',
  'topHipFront',
  'waistFront',
  'underbustFront',
  'bustFront',
  'chestFront',
  'neckFront',
] as const;
const LEG_KNOTS = ['ankle', 'calf', 'knee', 'midThigh'] as const;

/** Landmarks, of those that coordinates use, that both bodies have: only these may bound segments. */
export function sharedKnots(one: Landmarks, other: Landmarks): ReadonlySet<LandmarkName> {
  const has = (name: LandmarkName): boolean => one[name] !== undefined && other[name] !== undefined;
  const sides = (['Left', 'Right'] as const).flatMap((side) =>
    ([...LEG_KNOTS, 'shoulder', ...ARM_LEVEL_NAMES] as const).map((name): LandmarkName => `${name}${side}`),
  );
  return new Set([...TRUNK_KNOTS, ...sides].filter(has));
}

/**
 * Piecewise coordinates of every vertex: its height (on an arm: its place along the axis) between the nearest
 * landmarks, and the direction in which it lies from the part's middle, which is read from level sections.
 */
export function partCoordinates(body: MappedBody, knots: ReadonlySet<LandmarkName>): PartCoordinates {
  const frame = frameOf([0, 1, 0], body.forward);
  const mesh = meshInFrame(frame, body.skin);
  const at = (name: LandmarkName): Triple | null => {
    const landmark = body.landmarks[name];
    return knots.has(name) && landmark !== undefined ? intoFrame(frame, landmark.point) : null;
  };
  const measure = measuresOf(mesh, body, at);
  const { positions } = mesh;
  const vertexCount = positions.length / 3;
  const into: PartCoordinates = {
    part: new Uint8Array(vertexCount),
    along: new Float64Array(vertexCount),
    angle: new Float64Array(vertexCount),
    radius: new Float64Array(vertexCount),
  };
  for (let v = 0; v < vertexCount; v++) {
    const name = BODY_PARTS[body.regions.part[v]!]!;
    const own = name === 'head' ? 'trunk' : name;
    const [along, angle, radius] = measure[own](triple((k) => positions[3 * v + k]!));
    into.part[v] = BODY_PARTS.indexOf(own);
    into.along[v] = along;
    into.angle[v] = angle;
    into.radius[v] = radius;
  }
  return into;
}

type Place = readonly [along: number, angle: number, radius: number];
type Measure = (point: Readonly<Triple>) => Place;
type At = (name: LandmarkName) => Triple | null;

function measuresOf(
  mesh: TriangleMesh,
  body: MappedBody,
  at: At,
): Record<Exclude<BodyPart, 'head'>, Measure> {
  const slicer = slicerOf(mesh);
  const crotch = at('crotch') ?? [0, 0, 0];
  const trunkLevels = TRUNK_KNOTS.map(at)
    .filter((point) => point !== null)
    .map(([, y]) => y);
  const trunkLine = middleLine(slicer, [crotch[0], crotch[2]], [crotch[1] + 0.01, slicer.high]);
  const trunk: Measure = ([x, y, z]) => {
    const [, middleZ] = trunkLine(y);
    return [
      knotPlace(trunkLevels, y),
      Math.atan2(Math.abs(x - crotch[0]), z - middleZ),
      Math.hypot(x - crotch[0], z - middleZ),
    ];
  };
  return {
    trunk,
    leftLeg: legMeasure(slicer, body, at, 'Left'),
    rightLeg: legMeasure(slicer, body, at, 'Right'),
    leftArm: armMeasure(at, 'Left') ?? trunk,
    rightArm: armMeasure(at, 'Right') ?? trunk,
  };
}

function legMeasure(slicer: Slicer, body: MappedBody, at: At, side: 'Left' | 'Right'): Measure {
  const sign = side === 'Left' ? 1 : -1;
  const crotch = at('crotch') ?? [0, 0, 0];
  const points = LEG_KNOTS.map((name) => at(`${name}${side}`)).filter((point) => point !== null);
  const levels = [body.floor, ...points.map(([, y]) => y), crotch[1]];
  const start = points[0] ?? crotch;
  const line = middleLine(slicer, [start[0], start[2]], [slicer.low, crotch[1]]);
  return ([x, y, z]) => {
    const [middleX, middleZ] = line(y);
    const [across, ahead] = [sign * (x - middleX), z - middleZ];
    return [knotPlace(levels, y), Math.atan2(across, ahead), Math.hypot(across, ahead)];
  };
}

function armMeasure(at: At, side: 'Left' | 'Right'): Measure | null {
  const sign = side === 'Left' ? 1 : -1;
  const [shoulder, elbow, wrist] = (['shoulder', 'elbow', 'wrist'] as const).map((name) =>
    at(`${name}${side}`),
  );
  if (!shoulder || !elbow || !wrist) return null;
  return (point) => {
    const upper = alongSegment(point, shoulder, elbow);
    const lower = alongSegment(point, elbow, wrist);
    const isLower = upper.share > 1;
    const { share, off, way } = isLower ? lower : upper;
    // Ahead and outwards, square to the arm.
    const ahead = unit(triple((k) => (k === 2 ? 1 : 0) - way[2] * way[k]!));
    const outward: Triple = [
      ahead[1] * way[2] - ahead[2] * way[1],
      ahead[2] * way[0] - ahead[0] * way[2],
      ahead[0] * way[1] - ahead[1] * way[0],
    ];
    const [a, b] = [dot(off, ahead), sign * -dot(off, outward)];
    return [isLower ? 1 + Math.max(share, 0) : share, Math.atan2(b, a), Math.hypot(a, b)];
  };
}

function alongSegment(point: Readonly<Triple>, from: Readonly<Triple>, to: Readonly<Triple>) {
  const whole = triple((k) => to[k]! - from[k]!);
  const length = Math.hypot(...whole);
  const way = unit(whole);
  const off = triple((k) => point[k]! - from[k]!);
  return { share: dot(off, way) / length, off, way };
}

/** Place among rising levels: whole numbers at them; straight on beyond both ends. */
function knotPlace(levels: readonly number[], y: number): number {
  const last = levels.length - 2;
  let i = 0;
  while (i < last && y > levels[i + 1]!) i++;
  return i + (y - levels[i]!) / (levels[i + 1]! - levels[i]! || 1);
}

/** Middles are read at so many levels. */
const LEVEL_COUNT = 80;

/** The middle of the piece that hangs together with the start, level by level; the nearest beyond the ends. */
function middleLine(
  slicer: Slicer,
  start: readonly [number, number],
  [low, high]: readonly [number, number],
): (y: number) => readonly [number, number] {
  const step = (high - low) / LEVEL_COUNT;
  const middles: (readonly [number, number])[] = [];
  let middle = start;
  for (let i = 0; i < LEVEL_COUNT; i++) {
    const slice = sliceRound(slicer.at(low + (i + 0.5) * step), middle, 0.15);
    if (slice !== null) middle = slice.centroid;
    middles.push(middle);
  }
  return (y) => {
    const place = Math.min(Math.max((y - low) / step - 0.5, 0), LEVEL_COUNT - 1);
    const i = Math.min(Math.floor(place), LEVEL_COUNT - 2);
    const [one, other] = [middles[i]!, middles[i + 1]!];
    return [one[0] + (place - i) * (other[0] - one[0]), one[1] + (place - i) * (other[1] - one[1])];
  };
}
