import { extentOf } from '../mesh/extent.ts';
import type { Axis } from '../mesh/mesh-scene.ts';
import { sectionAt, type Section } from '../mesh/section.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { axisNumber, axisOf, placed, turnTo } from './import-axes.ts';

/** Levels at which a body is cut to see how it stands. */
const LEVEL_COUNT = 24;
/** Loops below this share of the largest are fingers and ears. */
const LEAST_SHARE = 0.04;

/** A shape cut square to one axis, from one end to the other. */
export interface BodyProfile {
  readonly up: Axis;
  /** Turned so that `up` is y; z is the axis `front`. Unit of the file. */
  readonly mesh: TriangleMesh;
  readonly front: Axis;
  readonly low: number;
  readonly height: number;
  /** Loops that matter at the middle of each of 24 equal slices, lowest first, largest first. */
  readonly levels: readonly (readonly Section[])[];
}

/** Cuts a shape square to `up`. */
export function bodyProfile(mesh: TriangleMesh, up: Axis): BodyProfile {
  const front = axisOf((axisNumber(up) + 1) % 3, 1);
  const turned = placed(mesh, turnTo(up, front), 1);
  const { low, high } = extentOf(turned);
  const height = high[1] - low[1];
  const all = Array.from({ length: LEVEL_COUNT }, (_, i) =>
    sectionAt(turned, low[1] + (height * (i + 0.5)) / LEVEL_COUNT),
  );
  const largest = Math.max(0, ...all.map((loops) => loops[0]?.area ?? 0));
  const levels = all.map((loops) => loops.filter(({ area }) => area > LEAST_SHARE * largest));
  return { up, mesh: turned, front, low: low[1], height, levels };
}

/** The same shape seen from the other end. */
export const levelsFrom = ({ levels }: BodyProfile, end: 'low' | 'high'): BodyProfile['levels'] =>
  end === 'low' ? levels : levels.toReversed();

/** The loops at levels between two shares of the height. */
export const levelsBetween = (
  levels: BodyProfile['levels'],
  from: number,
  to: number,
): BodyProfile['levels'] =>
  levels.filter((_, i) => (i + 0.5) / levels.length > from && (i + 0.5) / levels.length < to);

/** Two loops of like size, as legs are. */
export const isPair = ([one, other]: readonly Section[]): boolean =>
  one !== undefined && other !== undefined && other.area > 0.5 * one.area;

/**
 * How much a shape looks like a person standing this way up, 0 to 2: two legs below, one head or neck above, smaller than
 * the trunk.
 */
export function stanceScore(levels: BodyProfile['levels']): number {
  const share = (part: BodyProfile['levels'], holds: (loops: readonly Section[]) => boolean): number =>
    part.filter(holds).length / (part.length || 1);
  const trunk = Math.max(0, ...levelsBetween(levels, 0.45, 0.8).map((loops) => loops[0]?.area ?? 0));
  const legs = share(levelsBetween(levels, 0.05, 0.4), isPair);
  const head = share(
    levelsBetween(levels, 0.88, 1),
    (loops) => loops.length === 1 && loops[0]!.area < 0.7 * trunk,
  );
  return legs + (legs > 0 ? head : head / 2);
}
