import type { FlatPoint } from '../pattern/pattern.ts';
import { monotoneCubic, slopeAt, valueAt, type MonotoneCubic } from '../units/monotone-cubic.ts';
import { curveBetween, unit } from './flat-curves.ts';

/** A side seam by the way along it: x as drafted, y so that its length is the way. */
export interface SideSeam {
  readonly x: MonotoneCubic;
  readonly y: MonotoneCubic;
}

/** The seam whose points at `ways` lie as far along it as these say. */
export function seamOf(x: MonotoneCubic, ways: readonly number[]): SideSeam {
  const ys = [0];
  for (let i = 1; i < ways.length; i++) {
    const step = ways[i]! - ways[i - 1]!;
    const across = valueAt(x, ways[i]!) - valueAt(x, ways[i - 1]!);
    ys.push(ys[i - 1]! + Math.sqrt(Math.max(0, step * step - across * across)));
  }
  return { x, y: monotoneCubic(ways, ys) };
}

/** The point so far up along the seam. */
export const pointAt = ({ x, y }: SideSeam, way: number): FlatPoint => [valueAt(x, way), valueAt(y, way)];

/** Up along the seam. */
export const directionAt = ({ x, y }: SideSeam, way: number): FlatPoint =>
  unit([slopeAt(x, way), slopeAt(y, way)]);

/** How much higher a row lies at the centre than at the side so that it can meet both square, m. */
export function bowOf(seam: SideSeam, way: number): number {
  const [dx, dy] = directionAt(seam, way);
  return (valueAt(seam.x, way) / 2) * (dx / dy);
}

/** A row from the centre to the side seam that meets both square. */
export function truedRow(seam: SideSeam, way: number, centre: FlatPoint): FlatPoint[] {
  const [dx, dy] = directionAt(seam, way);
  return curveBetween({ at: centre, leave: [1, 0] }, { at: pointAt(seam, way), arrive: [dy, -dx] });
}
