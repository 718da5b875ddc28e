import type { FlatPoint, Panel } from './pattern.ts';

/** A panel's edges as one loop; the first point is not repeated. */
export const outlineOf = ({ edges }: Pick<Panel, 'edges'>): FlatPoint[] =>
  edges.flatMap(({ points }) => points.slice(0, -1));

/** Area within a loop by the shoelace formula, below 0 where it runs clockwise; m^2. */
export function signedArea(loop: readonly FlatPoint[]): number {
  let doubled = 0;
  for (let i = 0, j = loop.length - 1; i < loop.length; j = i++) {
    doubled += loop[j]![0] * loop[i]![1] - loop[i]![0] * loop[j]![1];
  }
  return doubled / 2;
}

/** Whether a point lies within a loop: a ray to the right crosses it an odd number of times. */
export function liesWithin([x, y]: FlatPoint, loop: readonly FlatPoint[]): boolean {
  let within = false;
  for (let i = 0, j = loop.length - 1; i < loop.length; j = i++) {
    const [ax, ay] = loop[i]!;
    const [bx, by] = loop[j]!;
    if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) within = !within;
  }
  return within;
}

export const distanceBetween = ([ax, ay]: FlatPoint, [bx, by]: FlatPoint): number =>
  Math.hypot(bx - ax, by - ay);

/** The place on a polyline that lies nearest to a point. */
export interface NearestPlace {
  /** Index of the point before it. */
  readonly segment: number;
  /** 0 to 1 along the segment. */
  readonly share: number;
  readonly at: FlatPoint;
  /** m. */
  readonly away: number;
}

/** Where a polyline (at least one point) comes nearest to a point. */
export function nearestOn(points: readonly FlatPoint[], [x, y]: FlatPoint): NearestPlace {
  let [segment, share, least] = [0, 0, Infinity];
  for (let i = 0; i < Math.max(1, points.length - 1); i++) {
    const a = points[i]!;
    const b = points[i + 1] ?? a;
    const dx = b[0] - a[0];
    const dy = b[1] - a[1];
    const squared = dx * dx + dy * dy;
    const along = squared === 0 ? 0 : ((x - a[0]) * dx + (y - a[1]) * dy) / squared;
    const at = Math.max(0, Math.min(1, along));
    const offX = a[0] + at * dx - x;
    const offY = a[1] + at * dy - y;
    const off = offX * offX + offY * offY;
    if (off < least) {
      segment = i;
      share = at;
      least = off;
    }
  }
  const a = points[segment]!;
  const b = points[segment + 1] ?? a;
  const at: FlatPoint = [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];
  return { segment, share, at, away: distanceBetween(at, [x, y]) };
}

/** The box around points, m. */
export function boxOf(points: readonly FlatPoint[]): FlatBox {
  const box = { left: Infinity, right: -Infinity, bottom: Infinity, top: -Infinity };
  for (const [x, y] of points) {
    box.left = Math.min(box.left, x);
    box.right = Math.max(box.right, x);
    box.bottom = Math.min(box.bottom, y);
    box.top = Math.max(box.top, y);
  }
  return box;
}

export interface FlatBox {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

/** How far a way turns from one step to the next, rad: above 0 to the left. */
export function turnBetween(before: FlatPoint, at: FlatPoint, after: FlatPoint): number {
  const [ax, ay] = [at[0] - before[0], at[1] - before[1]];
  const [bx, by] = [after[0] - at[0], after[1] - at[1]];
  return Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
}
