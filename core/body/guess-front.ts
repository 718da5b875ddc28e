import { extentOf } from '../mesh/extent.ts';
import type { Axis, MeshScene } from '../mesh/mesh-scene.ts';
import type { Section } from '../mesh/section.ts';
import { isPair, levelsBetween, type BodyProfile } from './body-profile.ts';
import { axisNumber, axisOf, axisVector } from './import-axes.ts';
import type { AxisReason, Guess } from './import-choices.ts';

/** Across the turned mesh: 0 is its x, 1 its z. */
type Across = 0 | 1;

/** Toes that reach this much farther than heels, over both together, tell the front. */
const CLEAR_TOES = 0.15;

/**
 * Which way a body faces: square to the line through both legs (or to the wider way through the trunk), to the side to
 * which the feet reach farther from the ankles; without feet, to where the chest lies before the seat.
 */
export function guessFront({ front: stated }: MeshScene, profile: BodyProfile): Guess<Axis, AxisReason> {
  const across = frontAcross(profile);
  const toes = toesLead(profile, across);
  const named = (sign: number): Axis => namedAxis(profile, across, sign);
  const guess = (
    value: Axis,
    certainty: Guess<Axis, AxisReason>['certainty'],
    from: AxisReason['from'],
    strength: number,
  ): Guess<Axis, AxisReason> => ({
    value,
    certainty,
    reason: { stated, from, strength: Math.min(1, strength) },
  });
  const isSquare = stated !== null && axisNumber(stated) !== axisNumber(profile.up);
  if (Math.abs(toes) > CLEAR_TOES) {
    const value = named(toes);
    const certainty = stated === value ? 'stated' : isSquare ? 'doubtful' : 'clear';
    return guess(value, certainty, 'toes', Math.abs(toes));
  }
  if (isSquare) return guess(stated, 'stated', 'file', 0);
  const trunk = trunkLead(profile, across);
  if (trunk !== 0) return guess(named(trunk), 'doubtful', 'trunk', Math.abs(trunk));
  const usual = axisNumber(profile.up) === 2 ? '-y' : '+z';
  return guess(usual, 'doubtful', 'custom', 0);
}

/** The way of the turned mesh that is front or back. */
function frontAcross({ levels }: BodyProfile): Across {
  const ways = [0, 0];
  for (const loops of levelsBetween(levels, 0.05, 0.42)) {
    if (!isPair(loops)) continue;
    for (const k of [0, 1]) ways[k]! += Math.abs(loops[0]!.centroid[k]! - loops[1]!.centroid[k]!);
  }
  if (ways.every((way) => way === 0)) {
    for (const loops of levelsBetween(levels, 0.3, 0.9)) {
      if (loops[0] === undefined) continue;
      for (const k of [0, 1] as const) {
        const [low, high] = rangeOf(loops[0], k);
        ways[k]! += high - low;
      }
    }
  }
  return ways[0]! >= ways[1]! ? 1 : 0;
}

/** How much farther the lowest twenty-fifth of the body reaches ahead of its ankles than behind, -1 to 1; 0 without legs. */
function toesLead({ mesh, low, height, levels }: BodyProfile, across: Across): number {
  const ankles = levelsBetween(levels, 0.05, 0.12).filter(isPair);
  if (ankles.length === 0) return 0;
  const ankle =
    ankles.reduce((sum, loops) => sum + loops[0]!.centroid[across] + loops[1]!.centroid[across], 0) /
    (2 * ankles.length);
  let ahead = 0;
  let behind = 0;
  for (const v of mesh.triangles) {
    if (mesh.positions[3 * v + 1]! > low + height / 25) continue;
    const reach = mesh.positions[3 * v + 2 * across]! - ankle;
    ahead = Math.max(ahead, reach);
    behind = Math.max(behind, -reach);
  }
  return ahead + behind > 0 ? (ahead - behind) / (ahead + behind) : 0;
}

/** How far the middle of the chest lies ahead of the middle of the seat, over the body's depth. */
function trunkLead({ mesh, levels }: BodyProfile, across: Across): number {
  const middle = (from: number, to: number): number | null => {
    const loops = levelsBetween(levels, from, to).flatMap((level) => level.slice(0, 1));
    if (loops.length === 0) return null;
    return (
      loops.reduce((sum, loop) => sum + rangeOf(loop, across)[0] + rangeOf(loop, across)[1], 0) /
      (2 * loops.length)
    );
  };
  const [chest, seat] = [middle(0.69, 0.78), middle(0.47, 0.56)];
  if (chest === null || seat === null) return 0;
  const { low, high } = extentOf(mesh);
  return (chest - seat) / (high[2 * across]! - low[2 * across]! || 1);
}

function rangeOf({ points }: Section, k: Across): [number, number] {
  let low = Infinity;
  let high = -Infinity;
  for (let i = k; i < points.length; i += 2) {
    low = Math.min(low, points[i]!);
    high = Math.max(high, points[i]!);
  }
  return [low, high];
}

/** The file's axis for a way across the turned mesh: its z is `front`, its x the left, up x front. */
function namedAxis({ up, front }: BodyProfile, across: Across, sign: number): Axis {
  if (across === 1) return axisOf(axisNumber(front), sign * axisVector(front)[axisNumber(front)]!);
  const [u, f] = [axisVector(up), axisVector(front)];
  const k = 3 - axisNumber(up) - axisNumber(front);
  const left = u[(k + 1) % 3]! * f[(k + 2) % 3]! - u[(k + 2) % 3]! * f[(k + 1) % 3]!;
  return axisOf(k, sign * left);
}
