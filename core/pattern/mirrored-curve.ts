import { distanceBetween } from './flat-outline.ts';
import type { FlatPoint } from './pattern.ts';

/** A straight line that a piece is folded on. */
export interface FoldLine {
  readonly from: FlatPoint;
  readonly to: FlatPoint;
}

/** The mirror image of a point on the other side of a line. */
export function mirroredPoint({ from, to }: FoldLine, [x, y]: FlatPoint): FlatPoint {
  const length = distanceBetween(from, to);
  const [dx, dy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const along = (x - from[0]) * dx + (y - from[1]) * dy;
  return [2 * (from[0] + along * dx) - x, 2 * (from[1] + along * dy) - y];
}

/** How far a point lies off a line, m. */
export function awayFrom({ from, to }: FoldLine, [x, y]: FlatPoint): number {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  return Math.abs((x - from[0]) * dy - (y - from[1]) * dx) / Math.hypot(dx, dy);
}
