import type { Section } from '../mesh/section.ts';

/**
 * Girth as a tape measures it, m: the length of the convex hull of a section, since a tight tape bridges hollows.
 *
 * @see ISO 8559-1:2017 (girths are taken with a tape that follows the body without sinking in), from memory.
 * @see Andrew, Inf. Process. Lett. 9 (1979) 216: hull by a sorted sweep.
 */
export function tapeGirth(section: Pick<Section, 'points'>): number {
  const hull = convexHull(section.points);
  let girth = 0;
  for (let i = 0; i < hull.length; i++) {
    const [x0, z0] = hull[i]!;
    const [x1, z1] = hull[(i + 1) % hull.length]!;
    girth += Math.hypot(x1 - x0, z1 - z0);
  }
  return girth;
}

type Point = readonly [number, number];

/** Corners of the convex hull in order of turning; collinear points are left out. */
export function convexHull(points: Float64Array): Point[] {
  const sorted = Array.from({ length: points.length / 2 }, (_, i): Point => [
    points[2 * i]!,
    points[2 * i + 1]!,
  ]);
  sorted.sort((one, other) => one[0] - other[0] || one[1] - other[1]);
  const there = halfHull(sorted);
  const back = halfHull(sorted.toReversed());
  return [...there.slice(0, -1), ...back.slice(0, -1)];
}

function halfHull(sorted: readonly Point[]): Point[] {
  const chain: Point[] = [];
  for (const point of sorted) {
    while (chain.length >= 2 && turn(chain[chain.length - 2]!, chain[chain.length - 1]!, point) <= 0)
      chain.pop();
    chain.push(point);
  }
  return chain;
}

/** Twice the signed area of the triangle a b c. */
const turn = (a: Point, b: Point, c: Point): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
