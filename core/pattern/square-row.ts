import { lengthsAlong } from './arc-length.ts';
import type { FlatPoint } from './pattern.ts';

/** A row across a flat panel. */
export interface SquareRow {
  /** Where it ends on the other edge. */
  readonly end: FlatPoint;
  /** m. */
  readonly length: number;
}

/** A point on an edge, and the direction of the edge there; one long. */
interface PlaceOnEdge {
  readonly at: FlatPoint;
  readonly along: FlatPoint;
}

/**
 * The row that leaves one edge of a panel square and meets another square: an arc of a circle, to which the level rows of
 * a cone unroll.
 *
 * The chord of such an arc stands square to the bisector of both edges; its length is chord (a / 2) / sin(a / 2), where a
 * is the angle between the edges.
 *
 * @param edge - Where the row begins, at a way from its first point; m.
 * @param other - Where it ends. The shortest counts where there are several.
 * @returns null where no row meets both square.
 */
export function squareRow(
  edge: { readonly points: readonly FlatPoint[]; readonly way: number },
  other: readonly FlatPoint[],
): SquareRow | null {
  const from = placeAt(edge.points, edge.way);
  const places = other.map((at, i): PlaceOnEdge => ({ at, along: directionAt(other, i) }));
  const rows: SquareRow[] = [];
  for (let i = 0; i + 1 < places.length; i++) {
    const [one, next] = [places[i]!, places[i + 1]!];
    const [f, g] = [lean(from, one), lean(from, next)];
    if (f === 0 || f < 0 !== g < 0) rows.push(arcTo(from, between(one, next, f / (f - g || 1))));
  }
  const last = places.at(-1)!;
  if (lean(from, last) === 0) rows.push(arcTo(from, last));
  return rows.toSorted((one, row) => one.length - row.length)[0] ?? null;
}

/** How far the chord leans along both edges; 0 where an arc meets both square. */
function lean(from: PlaceOnEdge, to: PlaceOnEdge): number {
  const sign = dot(from.along, to.along) < 0 ? -1 : 1;
  const [dx, dy] = [to.at[0] - from.at[0], to.at[1] - from.at[1]];
  return dot([dx, dy], [from.along[0] + sign * to.along[0], from.along[1] + sign * to.along[1]]);
}

function arcTo(from: PlaceOnEdge, to: PlaceOnEdge): SquareRow {
  const chord = Math.hypot(to.at[0] - from.at[0], to.at[1] - from.at[1]);
  const half = Math.acos(Math.min(1, Math.abs(dot(from.along, to.along)))) / 2;
  return { end: to.at, length: half < 1e-6 ? chord : (chord * half) / Math.sin(half) };
}

/** The point of a polyline at a way from its first. */
function placeAt(points: readonly FlatPoint[], way: number): PlaceOnEdge {
  const along = lengthsAlong(points);
  let i = 0;
  while (i < points.length - 2 && along[i + 1]! < way) i++;
  const [one, next] = [i, i + 1].map((k) => ({ at: points[k]!, along: directionAt(points, k) }));
  return between(one!, next!, (way - along[i]!) / (along[i + 1]! - along[i]!));
}

function between(one: PlaceOnEdge, next: PlaceOnEdge, share: number): PlaceOnEdge {
  const mean = (k: 0 | 1, of: 'at' | 'along') => one[of][k] + share * (next[of][k] - one[of][k]);
  return { at: [mean(0, 'at'), mean(1, 'at')], along: unit([mean(0, 'along'), mean(1, 'along')]) };
}

/** Direction of a polyline at one of its points: that of the circle through it and its neighbours. */
function directionAt(points: readonly FlatPoint[], i: number): FlatPoint {
  const here = Math.max(1, Math.min(points.length - 2, i));
  if (points.length < 3) return unit(way(points[0]!, points[1]!));
  const before = way(points[here - 1]!, points[here]!);
  const after = way(points[here]!, points[here + 1]!);
  const [a, b] = [Math.hypot(...before), Math.hypot(...after)];
  // Derivative of the parabola through three points by chord length, at the first, middle or last of them.
  const blend = (first: number, second: number): FlatPoint =>
    unit([
      (first * before[0]) / a + (second * after[0]) / b,
      (first * before[1]) / a + (second * after[1]) / b,
    ]);
  if (i < here) return blend(2 * a + b, -a);
  if (i > here) return blend(-b, 2 * b + a);
  return blend(b, a);
}

const way = ([ax, ay]: FlatPoint, [bx, by]: FlatPoint): FlatPoint => [bx - ax, by - ay];
const dot = ([ax, ay]: FlatPoint, [bx, by]: FlatPoint): number => ax * bx + ay * by;
const unit = ([x, y]: FlatPoint): FlatPoint => {
  const length = Math.hypot(x, y);
  return [x / length, y / length];
};
