import type { FlatPoint } from '../pattern/pattern.ts';

/** Points of one arc or curve, at most. */
const MOST_POINTS = 720;

/** Steps so small that chords of a circle stay within `tolerance` of it. */
export function arcSteps(radius: number, sweep: number, tolerance: number): number {
  const step = radius > tolerance ? 2 * Math.acos(1 - tolerance / radius) : Math.PI / 4;
  return Math.max(2, Math.min(MOST_POINTS, Math.ceil(Math.abs(sweep) / step)));
}

/** An arc as a polyline, both ends included; angles in rad, counter-clockwise where y points up. */
export function arcPoints(
  [cx, cy]: FlatPoint,
  radius: number,
  { from, sweep }: { readonly from: number; readonly sweep: number },
  tolerance: number,
): FlatPoint[] {
  const steps = arcSteps(radius, sweep, tolerance);
  return Array.from({ length: steps + 1 }, (_, i): FlatPoint => {
    const angle = from + (sweep * i) / steps;
    return [cx + radius * Math.cos(angle), cy + radius * Math.sin(angle)];
  });
}

/**
 * A bulged side of a polyline: the bulge is the tangent of a quarter of the arc's angle, above 0 to the left-hand turn.
 *
 * @returns Points after the first one, the last included.
 */
export function bulgePoints(a: FlatPoint, b: FlatPoint, bulge: number, tolerance: number): FlatPoint[] {
  const chord = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (Math.abs(bulge) < 1e-9 || chord === 0) return [b];
  const sweep = 4 * Math.atan(bulge);
  const radius = (chord * (1 + bulge * bulge)) / (4 * Math.abs(bulge));
  // The centre lies off the chord's middle, to the left of a counter-clockwise arc of less than half a circle.
  const off = (chord * (1 - bulge * bulge)) / (4 * bulge);
  const [ux, uy] = [(b[0] - a[0]) / chord, (b[1] - a[1]) / chord];
  const centre: FlatPoint = [(a[0] + b[0]) / 2 - off * uy, (a[1] + b[1]) / 2 + off * ux];
  const from = Math.atan2(a[1] - centre[1], a[0] - centre[0]);
  return [...arcPoints(centre, radius, { from, sweep }, tolerance).slice(1, -1), b];
}

/** A cubic from a to d with its handles b and c, as a polyline within `tolerance`; the first point left out. */
export function cubicPoints(
  [a, b, c, d]: readonly [FlatPoint, FlatPoint, FlatPoint, FlatPoint],
  tolerance: number,
): FlatPoint[] {
  // A chord over 1/n of the curve lies within |second derivative| / 8 n^2 of it, and that is at most 6 of these.
  const bend = Math.max(
    Math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1]),
    Math.hypot(b[0] - 2 * c[0] + d[0], b[1] - 2 * c[1] + d[1]),
  );
  const steps = Math.max(1, Math.min(MOST_POINTS, Math.ceil(Math.sqrt((6 * bend) / (8 * tolerance)))));
  return Array.from({ length: steps }, (_, i): FlatPoint => {
    if (i === steps - 1) return d;
    const t = (i + 1) / steps;
    const s = 1 - t;
    const at = (k: 0 | 1) =>
      s * s * s * a[k] + 3 * s * s * t * b[k] + 3 * s * t * t * c[k] + t * t * t * d[k];
    return [at(0), at(1)];
  });
}
