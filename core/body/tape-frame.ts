import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { triple, type Triple } from '../mesh/triple.ts';

type Axis = Readonly<Triple>;

/** A rotation: its rows are the new x, y and z axes in the old frame. */
export interface TapeFrame {
  readonly x: Axis;
  readonly y: Axis;
  readonly z: Axis;
}

export const dot = (a: Axis, b: Axis): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

export const unit = (a: Axis): Triple => {
  const length = Math.hypot(...a);
  return triple((k) => a[k]! / length);
};

const cross = (a: Axis, b: Axis): Triple => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/**
 * The frame whose y axis is `up` and whose z axis lies as near to `ahead` as can be; both of any length, not parallel.
 */
export function frameOf(up: Axis, ahead: Axis): TapeFrame {
  const y = unit(up);
  const x = unit(cross(y, ahead));
  return { x, y, z: cross(x, y) };
}

/** The frame in which planes square to `normal` are level. For a level normal it is the old one. */
export const frameAlong = (normal: Axis): TapeFrame =>
  frameOf(normal, Math.abs(normal[2]) > 0.9 * Math.hypot(...normal) ? [1, 0, 0] : [0, 0, 1]);

/** A point of the old frame in the new one. */
export const intoFrame = ({ x, y, z }: TapeFrame, point: Axis): Triple => [
  dot(x, point),
  dot(y, point),
  dot(z, point),
];

/** A point of the new frame in the old one. */
export const outOfFrame = ({ x, y, z }: TapeFrame, [a, b, c]: Axis): Triple =>
  triple((k) => a * x[k]! + b * y[k]! + c * z[k]!);

/** A mesh seen from another frame; triangles are shared. */
export function meshInFrame({ x, y, z }: TapeFrame, { positions, triangles }: TriangleMesh): TriangleMesh {
  const into = new Float64Array(positions.length);
  for (let i = 0; i < positions.length; i += 3) {
    const [p, q, r] = [positions[i]!, positions[i + 1]!, positions[i + 2]!];
    into[i] = x[0] * p + x[1] * q + x[2] * r;
    into[i + 1] = y[0] * p + y[1] * q + y[2] * r;
    into[i + 2] = z[0] * p + z[1] * q + z[2] * r;
  }
  return { positions: into, triangles };
}
