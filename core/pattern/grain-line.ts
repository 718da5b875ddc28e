import { boxOf, liesWithin, signedArea } from './flat-outline.ts';
import type { FlatPoint } from './pattern.ts';

/** Share of the way across the panel that its grain line takes. */
const SHARE = 0.6;
/** Rows tried for a middle where the centre of area lies outside. */
const ROWS = 16;

/**
 * A grain line to be drawn on a panel: along the warp, through its middle, from low to high.
 *
 * @param grain - How far the warp is turned from y towards x, rad.
 */
export function grainLine(loop: readonly FlatPoint[], grain: number): readonly [FlatPoint, FlatPoint] {
  const middle = middleOf(loop);
  const way: FlatPoint = [Math.sin(grain), Math.cos(grain)];
  const [before, after] = reachOf(loop, middle, way);
  const centre = (before + after) / 2;
  const half = (SHARE * (after - before)) / 2;
  const at = (along: number): FlatPoint => [middle[0] + along * way[0], middle[1] + along * way[1]];
  return [at(centre - half), at(centre + half)];
}

/** The head of the arrow at the end of a grain line: a barb, the tip, a barb. */
export function arrowHead([from, to]: readonly [FlatPoint, FlatPoint], size: number): FlatPoint[] {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const [x, y] = [(size * (to[0] - from[0])) / length, (size * (to[1] - from[1])) / length];
  return [[to[0] - x - y / 3, to[1] - y + x / 3], to, [to[0] - x + y / 3, to[1] - y - x / 3]];
}

/** A point well inside a loop: its centre of area where that lies inside. */
export function middleOf(loop: readonly FlatPoint[]): FlatPoint {
  const centre = centreOfArea(loop);
  if (liesWithin(centre, loop)) return centre;
  const { bottom, top, left } = boxOf(loop);
  let best: { at: FlatPoint; width: number } = { at: loop[0]!, width: -1 };
  for (let row = 0; row < ROWS; row++) {
    const y = bottom + ((row + 0.5) * (top - bottom)) / ROWS;
    const meets = crossings(loop, [left, y], [1, 0]).toSorted((a, b) => a - b);
    for (let i = 0; i + 1 < meets.length; i += 2) {
      const width = meets[i + 1]! - meets[i]!;
      if (width > best.width) best = { at: [left + (meets[i]! + meets[i + 1]!) / 2, y], width };
    }
  }
  return best.at;
}

function centreOfArea(loop: readonly FlatPoint[]): FlatPoint {
  let [x, y] = [0, 0];
  const [ox, oy] = loop[0]!;
  for (let i = 0; i < loop.length; i++) {
    const [ax, ay] = [loop[i]![0] - ox, loop[i]![1] - oy];
    const next = loop[(i + 1) % loop.length]!;
    const [bx, by] = [next[0] - ox, next[1] - oy];
    const doubled = ax * by - bx * ay;
    x += (ax + bx) * doubled;
    y += (ay + by) * doubled;
  }
  const sixfold = 6 * signedArea(loop);
  return [ox + x / sixfold, oy + y / sixfold];
}

/** How far it is from a point inside to the loop on its right, m. */
export const roomBeside = (loop: readonly FlatPoint[], from: FlatPoint): number =>
  reachOf(loop, from, [1, 0])[1];

/** How far a line through a point runs within the loop, before and after it. */
function reachOf(loop: readonly FlatPoint[], from: FlatPoint, way: FlatPoint): [number, number] {
  const meets = crossings(loop, from, way);
  const before = Math.max(...meets.filter((along) => along <= 0));
  const after = Math.min(...meets.filter((along) => along > 0));
  return [Number.isFinite(before) ? before : 0, Number.isFinite(after) ? after : 0];
}

/** Where a line crosses the loop, as ways from its point. */
function crossings(loop: readonly FlatPoint[], [x, y]: FlatPoint, [dx, dy]: FlatPoint): number[] {
  const found: number[] = [];
  for (let i = 0, j = loop.length - 1; i < loop.length; j = i++) {
    const [ax, ay] = [loop[j]![0] - x, loop[j]![1] - y];
    const [bx, by] = [loop[i]![0] - x, loop[i]![1] - y];
    const [aOff, bOff] = [ax * dy - ay * dx, bx * dy - by * dx];
    if (aOff > 0 === bOff > 0) continue;
    const share = aOff / (aOff - bOff);
    found.push((ax + share * (bx - ax)) * dx + (ay + share * (by - ay)) * dy);
  }
  return found;
}
