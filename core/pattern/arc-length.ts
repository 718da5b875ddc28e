import type { FlatPoint } from './pattern.ts';

/** Way from the first point of a polyline to each of its points, m. */
export function lengthsAlong(points: readonly FlatPoint[]): Float64Array {
  const along = new Float64Array(points.length);
  for (let i = 1; i < points.length; i++) {
    const [x, y] = points[i]!;
    const [px, py] = points[i - 1]!;
    along[i] = along[i - 1]! + Math.hypot(x - px, y - py);
  }
  return along;
}

/** Length of a polyline, m. */
export const curveLength = (points: readonly FlatPoint[]): number => lengthsAlong(points).at(-1)!;

/** Reads points of one polyline at fractions (0 to 1) of its length. */
export function pointReader(points: readonly FlatPoint[]): (fraction: number) => FlatPoint {
  const along = lengthsAlong(points);
  const whole = along.at(-1)!;
  return (fraction) => {
    if (fraction <= 0) return points[0]!;
    if (fraction >= 1) return points.at(-1)!;
    const at = fraction * whole;
    let i = 1;
    while (along[i]! < at) i++;
    const share = (at - along[i - 1]!) / (along[i]! - along[i - 1]!);
    const [ax, ay] = points[i - 1]!;
    const [bx, by] = points[i]!;
    return [ax + share * (bx - ax), ay + share * (by - ay)];
  };
}
