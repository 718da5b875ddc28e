import { Fault } from '../fault/fault.ts';
import type { Axis } from '../mesh/mesh-scene.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { triple, type Triple } from '../mesh/triple.ts';

/** Every direction along an axis. */
export const AXES: readonly Axis[] = ['+x', '-x', '+y', '-y', '+z', '-z'];

/** Its unit vector. */
export function axisVector(axis: Axis): Triple {
  const sign = axis.startsWith('-') ? -1 : 1;
  return triple((k) => (k === axisNumber(axis) ? sign : 0));
}

/** 0, 1, 2 for x, y, z, whichever way. */
export const axisNumber = (axis: Axis): number => 'xyz'.indexOf(axis[1]!);

/** The direction along axis 0, 1, 2. */
export const axisOf = (k: number, sign: number): Axis => AXES[2 * k + (sign < 0 ? 1 : 0)]!;

/**
 * The rotation, as rows, that takes `up` to y and `front` to z; x is then the wearer's left, up x front.
 *
 * @throws {Fault} `body/axes-not-square` where both lie along the same axis.
 */
export function turnTo(up: Axis, front: Axis): number[] {
  if (axisNumber(up) === axisNumber(front)) throw new Fault('body/axes-not-square', { up, front });
  const [u, f] = [axisVector(up), axisVector(front)];
  const left = triple((k) => u[(k + 1) % 3]! * f[(k + 2) % 3]! - u[(k + 2) % 3]! * f[(k + 1) % 3]!);
  return [...left, ...u, ...f].map((value) => value + 0);
}

/** p = turn (scale q) for every vertex q. */
export function placed(mesh: TriangleMesh, turn: readonly number[], scale: number): TriangleMesh {
  const { positions } = mesh;
  const moved = new Float64Array(positions.length);
  for (let i = 0; i < positions.length; i += 3)
    for (let k = 0; k < 3; k++) {
      moved[i + k] =
        scale *
        (turn[3 * k]! * positions[i]! +
          turn[3 * k + 1]! * positions[i + 1]! +
          turn[3 * k + 2]! * positions[i + 2]!);
    }
  return { positions: moved, triangles: mesh.triangles };
}
