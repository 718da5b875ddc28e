import type { FlatPoint } from './pattern.ts';

/** A way that goes straight back on itself turns by this much or more, rad. */
const SPIKE = Math.PI - 1e-6;

/**
 * Where a loop meets itself, touches itself or runs back on itself; null for a sound one.
 *
 * Segments are passed from low to high along the loop's longer side, so that only those side by side are compared.
 */
export function crossingOf(loop: readonly FlatPoint[]): FlatPoint | null {
  const count = loop.length;
  const end = (i: number): FlatPoint => loop[(i + 1) % count]!;
  for (let i = 0; i < count; i++) if (isSpike(loop[i]!, end(i), end(i + 1))) return end(i);
  const axis = longerAxis(loop);
  const low = (i: number) => Math.min(loop[i]![axis], end(i)[axis]);
  const high = (i: number) => Math.max(loop[i]![axis], end(i)[axis]);
  const order = Array.from(loop, (_, i) => i).toSorted((a, b) => low(a) - low(b));
  let open: number[] = [];
  for (const i of order) {
    const from = low(i);
    open = open.filter((j) => high(j) >= from);
    for (const j of open) {
      const apart = Math.abs(i - j);
      if (apart === 1 || apart === count - 1) continue;
      const meeting = meetingOf(loop[i]!, end(i), loop[j]!, end(j));
      if (meeting) return meeting;
    }
    open.push(i);
  }
  return null;
}

function longerAxis(loop: readonly FlatPoint[]): 0 | 1 {
  const extent = ([0, 1] as const).map((axis) => {
    let [least, most] = [Infinity, -Infinity];
    for (const point of loop) {
      least = Math.min(least, point[axis]);
      most = Math.max(most, point[axis]);
    }
    return most - least;
  });
  return extent[0]! >= extent[1]! ? 0 : 1;
}

function isSpike(before: FlatPoint, at: FlatPoint, after: FlatPoint): boolean {
  const [ax, ay] = [at[0] - before[0], at[1] - before[1]];
  const [bx, by] = [after[0] - at[0], after[1] - at[1]];
  return Math.abs(Math.atan2(ax * by - ay * bx, ax * bx + ay * by)) >= SPIKE;
}

/** A common point of two segments, ends included; null where they have none. */
function meetingOf(a: FlatPoint, b: FlatPoint, c: FlatPoint, d: FlatPoint): FlatPoint | null {
  for (const k of [0, 1] as const) {
    if (Math.max(a[k], b[k]) < Math.min(c[k], d[k]) || Math.max(c[k], d[k]) < Math.min(a[k], b[k]))
      return null;
  }
  const cOff = side(a, b, c);
  const dOff = side(a, b, d);
  const aOff = side(c, d, a);
  const bOff = side(c, d, b);
  if (cOff * dOff > 0 || aOff * bOff > 0) return null;
  const whole = aOff - bOff;
  // Both on one line, and their boxes meet: they lie on each other.
  if (whole === 0) return c;
  const share = aOff / whole;
  return [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];
}

/** Above 0 where c lies to the left of the way from a to b. */
const side = (a: FlatPoint, b: FlatPoint, c: FlatPoint): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
