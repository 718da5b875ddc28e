import type { FlatPoint } from '../pattern/pattern.ts';

/** Points that stand for one curve. */
const SAMPLES = 60;

/** A cubic from a to d with its handles b and c, as a polyline. */
export function cubicCurve(a: FlatPoint, b: FlatPoint, c: FlatPoint, d: FlatPoint): FlatPoint[] {
  return Array.from({ length: SAMPLES + 1 }, (_, i): FlatPoint => {
    const t = i / SAMPLES;
    const s = 1 - t;
    const weights = [s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t];
    const at = (k: 0 | 1) =>
      weights[0]! * a[k] + weights[1]! * b[k] + weights[2]! * c[k] + weights[3]! * d[k];
    return [at(0), at(1)];
  });
}

/**
 * A cubic from one point to another that leaves and arrives in given directions.
 *
 * @param leave - Unit direction at the start.
 * @param arrive - Unit direction at the end.
 * @param handles - Lengths of both handles as shares of the chord.
 */
export function curveBetween(
  from: { readonly at: FlatPoint; readonly leave: FlatPoint },
  to: { readonly at: FlatPoint; readonly arrive: FlatPoint },
  handles: readonly [number, number] = [1 / 3, 1 / 3],
): FlatPoint[] {
  const chord = Math.hypot(to.at[0] - from.at[0], to.at[1] - from.at[1]);
  const [first, second] = [handles[0] * chord, handles[1] * chord];
  return cubicCurve(
    from.at,
    [from.at[0] + first * from.leave[0], from.at[1] + first * from.leave[1]],
    [to.at[0] - second * to.arrive[0], to.at[1] - second * to.arrive[1]],
    to.at,
  );
}

/** The same direction, one long. */
export function unit([x, y]: FlatPoint): FlatPoint {
  const length = Math.hypot(x, y);
  return [x / length, y / length];
}

/** Turned by an angle, counter-clockwise; rad. */
export const turned = ([x, y]: FlatPoint, angle: number): FlatPoint => [
  x * Math.cos(angle) - y * Math.sin(angle),
  x * Math.sin(angle) + y * Math.cos(angle),
];
