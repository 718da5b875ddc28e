import { regionSection } from '../garment/lay-rings.ts';
import { trianglesBetween } from '../mesh/section.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import type { Triple } from '../mesh/triple.ts';

/** Half of a level row of the body, or a whole one of its left leg, as two panels share it: from the side seam on. */
export interface BodyRow {
  /** Above the mesh's origin, m. */
  readonly height: number;
  /** Along the skin from the side to the centre (on a leg, to its inside) in front and behind, m. */
  readonly front: number;
  readonly back: number;
  /** Where the side seam crosses. */
  readonly side: Triple;
  /** Centre front and centre back; on a leg both are its inside. */
  readonly frontEnd: Triple;
  readonly backEnd: Triple;
}

/**
 * The row of the wearer's left at a height. The side lies as far forward as the middle of the row's area, which follows a
 * body's own side line steadily from row to row.
 *
 * @throws {Fault} `garment/level-off-body`, `garment/region-not-here`.
 */
export function bodyRow(skin: TriangleMesh, region: 'trunk' | 'leftLeg', height: number): BodyRow {
  const { points, centroid } = regionSection(trianglesBetween(skin, height, height), region, height);
  const at = (x: number, z: number): Triple => [x, height, z];
  const level = crossings(points, 1, centroid[1]).toSorted((one, other) => other.x - one.x);
  const side = level[0]!;
  const ends =
    region === 'trunk'
      ? crossings(points, 0, 0).toSorted((one, other) => other.z - one.z)
      : [level.at(-1)!, level.at(-1)!];
  const [front, back] = [ends[0]!, ends.at(-1)!];
  const whole = lengthOf(points);
  const forward = (from: number, to: number): number => (to - from + whole) % whole;
  // Loops run one way round: the shorter way from side to front is in front if it does not pass the back.
  const runsForward = forward(side.along, front.along) <= forward(side.along, back.along);
  const way = (to: number): number => (runsForward ? forward(side.along, to) : forward(to, side.along));
  const inFront = region === 'trunk' ? way(front.along) : frontOfLeg(points, side, ends[0]!, centroid[1]);
  const behind = region === 'trunk' ? whole - way(back.along) : whole - inFront;
  return {
    height,
    front: inFront,
    back: behind,
    side: at(side.x, side.z),
    frontEnd: at(front.x, front.z),
    backEnd: at(back.x, back.z),
  };
}

interface Crossing {
  readonly x: number;
  readonly z: number;
  /** Way from the loop's first point, m. */
  readonly along: number;
}

/** Where a closed loop crosses x = value (axis 0) or z = value (axis 1). */
function crossings(points: Float64Array, axis: 0 | 1, value: number): Crossing[] {
  const found: Crossing[] = [];
  let along = 0;
  for (let i = 0; i < points.length; i += 2) {
    const j = (i + 2) % points.length;
    const [ax, az, bx, bz] = [points[i]!, points[i + 1]!, points[j]!, points[j + 1]!];
    const length = Math.hypot(bx - ax, bz - az);
    const from = points[i + axis]! - value;
    const to = points[j + axis]! - value;
    if (from < 0 !== to < 0) {
      const share = from / (from - to);
      found.push({ x: ax + share * (bx - ax), z: az + share * (bz - az), along: along + share * length });
    }
    along += length;
  }
  return found;
}

function lengthOf(points: Float64Array): number {
  let length = 0;
  for (let i = 0; i < points.length; i += 2) {
    const j = (i + 2) % points.length;
    length += Math.hypot(points[j]! - points[i]!, points[j + 1]! - points[i + 1]!);
  }
  return length;
}

/** The way from a leg's side to its inside that passes in front. */
function frontOfLeg(points: Float64Array, side: Crossing, inside: Crossing, middle: number): number {
  const whole = lengthOf(points);
  const one = (inside.along - side.along + whole) % whole;
  let along = 0;
  let ahead = 0;
  for (let i = 0; i < points.length; i += 2) {
    const j = (i + 2) % points.length;
    const length = Math.hypot(points[j]! - points[i]!, points[j + 1]! - points[i + 1]!);
    const isOnWay = (along + length / 2 - side.along + whole) % whole < one;
    if (isOnWay) ahead += ((points[i + 1]! + points[j + 1]!) / 2 - middle) * length;
    along += length;
  }
  return ahead > 0 ? one : whole - one;
}
