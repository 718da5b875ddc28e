import type { Axis } from '../../core/mesh/mesh-scene.ts';

/** Which of a file's axes point up and to the front. */
export interface Stance {
  readonly up: Axis;
  readonly front: Axis;
}

const opposite = (axis: Axis): Axis => AXES[AXES.indexOf(axis) ^ 1]!;

const AXES: readonly Axis[] = ['+x', '-x', '+y', '-y', '+z', '-z'];

/** Unit vector of an axis. */
export function axisVector(axis: Axis): readonly [number, number, number] {
  const sign = axis.startsWith('-') ? -1 : 1;
  return [axis[1] === 'x' ? sign : 0, axis[1] === 'y' ? sign : 0, axis[1] === 'z' ? sign : 0];
}

/** The file's axis on the wearer's left: up x front. */
export function leftAxis({ up, front }: Stance): Axis {
  const [a, b] = [axisVector(up), axisVector(front)];
  const cross = [0, 1, 2].map((k) => a[(k + 1) % 3]! * b[(k + 2) % 3]! - a[(k + 2) % 3]! * b[(k + 1) % 3]!);
  const k = cross.findIndex((value) => value !== 0);
  return AXES[2 * k + (cross[k]! < 0 ? 1 : 0)]!;
}

/** A quarter round the upright axis: the word on the floor goes to what was the wearer's left. */
export const turnedQuarter = (stance: Stance): Stance => ({ up: stance.up, front: leftAxis(stance) });

/** A quarter over: what was up is now in front, as one who lies down on the face. */
export const tippedForward = ({ up, front }: Stance): Stance => ({ up: opposite(front), front: up });

/** A quarter over to the side: what was on the left is now up. */
export const tippedSideways = (stance: Stance): Stance => ({ up: leftAxis(stance), front: stance.front });

/** The rotation from the file's axes to the body's, by rows: left, up, front. */
export const turnOf = (stance: Stance): readonly number[] => [
  ...axisVector(leftAxis(stance)),
  ...axisVector(stance.up),
  ...axisVector(stance.front),
];
