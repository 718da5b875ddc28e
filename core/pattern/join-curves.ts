import { curveLength } from './arc-length.ts';
import { distanceBetween } from './flat-outline.ts';
import type { FlatPoint } from './pattern.ts';

/** A line of a drawing that may be part of an outline. */
export interface TracedCurve {
  /** m. */
  readonly points: readonly FlatPoint[];
  /** Whether its end is joined to its start; the first point is not repeated then. */
  readonly closed: boolean;
  /** What the drawing calls it. */
  readonly name: string | null;
  /** Whether it is one edge from corner to corner by the drawing's own word. */
  readonly isEdge: boolean;
  /** Only curves of the same group are joined. */
  readonly group: string;
  /** In the file, from 1. */
  readonly line: number;
}

/** Where an edge begins on a loop. */
export interface EdgeStart {
  /** Index of a point. */
  readonly at: number;
  readonly name: string | null;
}

/** A closed outline. */
export interface TracedLoop {
  /** The first point is not repeated. */
  readonly points: readonly FlatPoint[];
  /** Where edges begin by the drawing's own word; null where it says nothing. */
  readonly starts: readonly EdgeStart[] | null;
  readonly name: string | null;
  readonly group: string;
  readonly line: number;
  /** Ends that did not quite meet. */
  readonly gaps: { readonly count: number; readonly most: number };
}

/** Curves joined end to end that do not close. */
export interface OpenChain {
  readonly points: readonly FlatPoint[];
  readonly name: string | null;
  readonly group: string;
  readonly line: number;
  readonly gap: number;
}

/** Ends closer than this belong together, m. */
export const CLOSES_GAP = 5e-4;
/** Rounding of a file's numbers; no gap, m. */
const ROUNDING = 3e-5;

/** Joins curves end to end into closed loops; what does not close is returned beside them. */
export function joinCurves(curves: readonly TracedCurve[]): {
  readonly loops: readonly TracedLoop[];
  readonly open: readonly OpenChain[];
} {
  const loops: TracedLoop[] = [];
  const open: OpenChain[] = [];
  const ends = endFinder(curves);
  const used = new Set<number>();
  curves.forEach((curve, first) => {
    if (used.has(first)) return;
    used.add(first);
    if (curve.closed) {
      const { name, group, line } = curve;
      loops.push({ points: curve.points, starts: null, name, group, line, gaps: { count: 0, most: 0 } });
      return;
    }
    const chain = chainFrom(curves, first, { ends, used });
    if (chain.gap <= CLOSES_GAP && chain.points.length > 3) loops.push(loopOf(chain));
    else open.push(chain);
  });
  return { loops, open };
}

interface Chain extends OpenChain {
  readonly starts: readonly EdgeStart[] | null;
  readonly gaps: { readonly count: number; readonly most: number };
}

function loopOf({ points, starts, name, group, line, gap, gaps }: Chain): TracedLoop {
  const closing = gap > ROUNDING ? { count: gaps.count + 1, most: Math.max(gaps.most, gap) } : gaps;
  return { points: points.slice(0, -1), starts, name, group, line, gaps: closing };
}

interface Joining {
  readonly ends: (group: string, at: FlatPoint) => readonly CurveEnd[];
  readonly used: Set<number>;
}

/** Everything that follows on one curve, at its end and then at its start. */
function chainFrom(curves: readonly TracedCurve[], first: number, { ends, used }: Joining): Chain {
  const { group } = curves[first]!;
  const parts: Part[] = [{ curve: curves[first]!, points: curves[first]!.points }];
  const gaps: number[] = [];
  for (const atStart of [false, true]) {
    for (;;) {
      const end = atStart ? parts[0]!.points[0]! : parts.at(-1)!.points.at(-1)!;
      const isLong = parts.length > 2 || parts[0]!.points.length > 3;
      if (isLong && distanceBetween(parts[0]!.points[0]!, parts.at(-1)!.points.at(-1)!) <= ROUNDING) break;
      const next = nearestFree(ends(group, end), end, used);
      if (!next) break;
      used.add(next.curve);
      gaps.push(distanceBetween(end, next.at));
      const { points } = curves[next.curve]!;
      // At the chain's end a curve is to begin, at its start to end.
      const isBack = next.isEnd !== atStart;
      const part = { curve: curves[next.curve]!, points: isBack ? points.toReversed() : points };
      if (atStart) parts.unshift(part);
      else parts.push(part);
    }
  }
  return chainOf(parts, gaps);
}

interface Part {
  readonly curve: TracedCurve;
  readonly points: readonly FlatPoint[];
}

function chainOf(parts: readonly Part[], gaps: readonly number[]): Chain {
  const points: FlatPoint[] = [];
  const starts: EdgeStart[] = [];
  for (const part of parts) {
    if (points.length > 0) points.pop();
    starts.push({ at: points.length, name: part.curve.name });
    points.push(...part.points);
  }
  const { curve } = parts[0]!;
  const wide = gaps.filter((gap) => gap > ROUNDING);
  return {
    points,
    starts: parts.length > 1 && parts.every((part) => part.curve.isEdge) ? starts : null,
    name: parts.length === 1 ? curve.name : null,
    group: curve.group,
    line: curve.line,
    gap: curveLength(points) === 0 ? Infinity : distanceBetween(points[0]!, points.at(-1)!),
    gaps: { count: wide.length, most: Math.max(0, ...wide) },
  };
}

interface CurveEnd {
  readonly curve: number;
  readonly isEnd: boolean;
  readonly at: FlatPoint;
}

function nearestFree(ends: readonly CurveEnd[], at: FlatPoint, used: ReadonlySet<number>): CurveEnd | null {
  let best: CurveEnd | null = null;
  for (const end of ends) {
    if (used.has(end.curve) || distanceBetween(end.at, at) > CLOSES_GAP) continue;
    if (!best || distanceBetween(end.at, at) < distanceBetween(best.at, at)) best = end;
  }
  return best;
}

const squareOf = ([x, y]: FlatPoint): [number, number] => [
  Math.floor(x / CLOSES_GAP),
  Math.floor(y / CLOSES_GAP),
];
const keyOf = (group: string, x: number, y: number): string => `${x} ${y} ${group}`;

/** Finds ends of open curves near a point: all ends are kept by the square of the plane that they lie in. */
function endFinder(curves: readonly TracedCurve[]): Joining['ends'] {
  const squares = new Map<string, CurveEnd[]>();
  curves.forEach(({ points, closed, group }, curve) => {
    if (closed) return;
    for (const isEnd of [false, true]) {
      const at = isEnd ? points.at(-1)! : points[0]!;
      const key = keyOf(group, ...squareOf(at));
      const known = squares.get(key);
      if (known) known.push({ curve, isEnd, at });
      else squares.set(key, [{ curve, isEnd, at }]);
    }
  });
  return (group, at) => {
    const [x, y] = squareOf(at);
    const found: CurveEnd[] = [];
    for (let dx = -1; dx <= 1; dx++) {
      for (let dy = -1; dy <= 1; dy++) found.push(...(squares.get(keyOf(group, x + dx, y + dy)) ?? []));
    }
    return found;
  };
}
