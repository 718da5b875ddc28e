import { pointReader } from './arc-length.ts';
import { distanceBetween, nearestOn, turnBetween } from './flat-outline.ts';
import type { FlatPoint, PatternCurve } from './pattern.ts';

/** A place on a loop where one edge ends and the next begins. */
export interface LoopCut {
  /** Way along the loop from its first point, m. */
  readonly along: number;
  readonly at: FlatPoint;
  /** Of the edge that begins here, where it has one. */
  readonly name: string | null;
}

/** A loop that is being cut into edges. */
export interface CutLoop {
  /** The first point is not repeated. */
  readonly points: readonly FlatPoint[];
  /** The same with the first point once more. */
  readonly closed: readonly FlatPoint[];
  /** Way along the loop to each point, and around all of it; m. */
  readonly along: readonly number[];
  readonly whole: number;
}

/** A sharper turn is a corner, rad. */
const CORNER = Math.PI / 6;
/** Places closer than this are one, m. */
const SAME = 1e-6;

export function cutLoop(points: readonly FlatPoint[]): CutLoop {
  const along = [0];
  for (let i = 1; i < points.length; i++)
    along.push(along[i - 1]! + distanceBetween(points[i - 1]!, points[i]!));
  return {
    points,
    closed: [...points, points[0]!],
    along,
    whole: along.at(-1)! + distanceBetween(points.at(-1)!, points[0]!),
  };
}

/** Cuts at all corners sharper than 30 degrees. */
export function cornersOf({ points, along }: CutLoop): LoopCut[] {
  const count = points.length;
  return points.flatMap((at, i) => {
    const turn = turnBetween(points[(i + count - 1) % count]!, at, points[(i + 1) % count]!);
    return Math.abs(turn) > CORNER ? [{ along: along[i]!, at, name: null }] : [];
  });
}

/** A cut at one of the loop's own points. */
export const cutAtPoint = ({ points, along }: CutLoop, i: number, name: string | null): LoopCut => ({
  along: along[i]!,
  at: points[i]!,
  name,
});

/** The cut nearest to a point, and how far it lies from it, m. */
export function cutNear(
  { points, closed, along, whole }: CutLoop,
  at: FlatPoint,
): { readonly cut: LoopCut; readonly away: number } {
  const found = nearestOn(closed, at);
  const start = along[found.segment]!;
  const end = along[found.segment + 1] ?? whole;
  const way = start + found.share * (end - start);
  const next = (found.segment + 1) % points.length;
  if (way - start < SAME) {
    return { cut: { along: start, at: points[found.segment]!, name: null }, away: found.away };
  }
  if (end - way < SAME)
    return { cut: { along: along[next]!, at: points[next]!, name: null }, away: found.away };
  return { cut: { along: way, at: found.at, name: null }, away: found.away };
}

/** Way between two places of a loop, the shorter way round, m. */
export function wayBetween({ whole }: CutLoop, one: LoopCut, other: LoopCut): number {
  const way = Math.abs(one.along - other.along);
  return Math.min(way, whole - way);
}

/** The same cuts and those of `more` that lie farther than `least` from all before, m. */
export function withCuts(
  loop: CutLoop,
  cuts: readonly LoopCut[],
  more: readonly LoopCut[],
  least: number,
): LoopCut[] {
  const all = [...cuts];
  for (const cut of more) if (all.every((one) => wayBetween(loop, one, cut) > least)) all.push(cut);
  return all;
}

/** A cut so far along a loop, beyond its end from the start again. */
export function cutAtWay({ closed, whole }: CutLoop, way: number): LoopCut {
  const along = way % whole;
  return { along, at: pointReader(closed)(along / whole), name: null };
}

/** The loop's edges from cut to cut; those without a name go on with that of the edge before, numbered, or are `edge1`... */
export function edgesBetween({ points, along, whole }: CutLoop, cuts: readonly LoopCut[]): PatternCurve[] {
  const inOrder = cuts.toSorted((one, other) => one.along - other.along);
  const taken = new Set<string>();
  const isNamed = inOrder.some(({ name }) => name !== null);
  let current = isNamed ? (inOrder.findLast(({ name }) => name !== null)?.name ?? 'edge') : 'edge';
  return inOrder.map(({ along: from, at, name }, c) => {
    const next = inOrder[(c + 1) % inOrder.length]!;
    const to = c + 1 < inOrder.length ? next.along : next.along + whole;
    const between: FlatPoint[] = [];
    for (let lap = 0; lap < 2; lap++) {
      for (let i = 0; i < points.length; i++) {
        const way = along[i]! + lap * whole;
        if (way > from + SAME && way < to - SAME) between.push(points[i]!);
      }
    }
    current = name ?? current;
    const own = isNamed ? unusedName(current, taken) : `edge${c + 1}`;
    taken.add(own);
    return { name: own, points: [at, ...between, next.at] };
  });
}

/** A name that nobody has yet: itself, or with a number behind it. */
export function unusedName(name: string, taken: ReadonlySet<string>): string {
  if (!taken.has(name)) return name;
  let number = 2;
  while (taken.has(`${name} ${number}`)) number++;
  return `${name} ${number}`;
}
