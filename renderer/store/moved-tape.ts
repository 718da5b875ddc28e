import type { TapeLine, TapeSurface } from '../../core/body/body-tape.ts';
import type { LandmarkName, Landmarks, PlacedLandmarks } from '../../core/body/landmarks.ts';
import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';
import type { TapeNotes } from '../../core/study/study.ts';
import { tapeKey } from './body-store.ts';

type Place = readonly [number, number, number];

const along = (place: Place, direction: Place, way: number): Place => [
  place[0] + way * direction[0],
  place[1] + way * direction[1],
  place[2] + way * direction[2],
];

/** The landmark that carries a tape's level; undefined for a tape of the wearer's own. */
export function carrierOf({ name, side }: TapeLine, landmarks: Landmarks): LandmarkName | undefined {
  const end = side === 'middle' ? 'Front' : side === 'left' ? 'Left' : 'Right';
  const wanted = `${name}${end}`;
  return Object.keys(landmarks).find((key): key is LandmarkName => key === wanted);
}

/** Notes with one tape moved along its own axis, m; upwards is above zero. */
export function movedTape(notes: TapeNotes, line: TapeLine, landmarks: Landmarks, way: number): TapeNotes {
  const carrier = carrierOf(line, landmarks);
  const up: Place = line.normal[1] < 0 ? along([0, 0, 0], line.normal, -1) : line.normal;
  const key = tapeKey(line);
  return {
    placed:
      carrier === undefined
        ? notes.placed
        : { ...notes.placed, [carrier]: along(notes.placed[carrier] ?? landmarks[carrier]!.point, up, way) },
    lines: notes.lines.map((own) =>
      tapeKey(own) === key ? { ...own, center: along(own.center, up, way) } : own,
    ),
  };
}

/** Notes with one tape as it was found. */
export function foundTape(notes: TapeNotes, line: TapeLine, landmarks: Landmarks): TapeNotes {
  const carrier = carrierOf(line, landmarks);
  const kept = Object.entries(notes.placed).filter(([name]) => name !== carrier);
  const placed: PlacedLandmarks = Object.fromEntries(kept);
  return { placed, lines: notes.lines.filter((own) => tapeKey(own) !== tapeKey(line)) };
}

/** True where a tape does not lie as it was found. */
export const isMoved = (notes: TapeNotes, line: TapeLine, landmarks: Landmarks): boolean => {
  const carrier = carrierOf(line, landmarks);
  const isPlaced = carrier !== undefined && notes.placed[carrier] !== undefined;
  return isPlaced || notes.lines.some((own) => tapeKey(own) === tapeKey(line));
};

/** How far a tape is tilted, degrees: forward down, and to the wearer's left down. */
export interface Tilt {
  readonly forward: number;
  readonly left: number;
}

const DEGREE = Math.PI / 180;

/** The wearer's left, level: across from `forward`. */
const leftOf = (forward: Place): Place => [forward[2], 0, -forward[0]];

const dot = (a: Place, b: Place): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** The tilt of a plane whose normal points up. */
export function tiltOf({ normal }: TapeLine, forward: Place): Tilt {
  const up: Place = normal[1] < 0 ? [-normal[0], -normal[1], -normal[2]] : normal;
  return {
    forward: Math.atan2(dot(up, forward), up[1]) / DEGREE,
    left: Math.atan2(dot(up, leftOf(forward)), up[1]) / DEGREE,
  };
}

/** Notes with one tape tilted so; level again where both are nothing and it was found level. */
export function tiltedTape(notes: TapeNotes, line: TapeLine, tilt: Tilt, forward: Place): TapeNotes {
  const left = leftOf(forward);
  const [f, l] = [Math.tan(tilt.forward * DEGREE), Math.tan(tilt.left * DEGREE)];
  const length = Math.hypot(f, l, 1);
  const normal: Place = [
    (f * forward[0] + l * left[0]) / length,
    1 / length,
    (f * forward[2] + l * left[2]) / length,
  ];
  const others = notes.lines.filter((own) => tapeKey(own) !== tapeKey(line));
  if (f === 0 && l === 0 && line.kind === 'trunk') return { ...notes, lines: others };
  return { ...notes, lines: [...others, { ...line, normal: [...normal] }] };
}

/** Notes with one tape drawn taut, or following the skin. */
export function surfacedTape(notes: TapeNotes, line: TapeLine, surface: TapeSurface): TapeNotes {
  const others = notes.lines.filter((own) => tapeKey(own) !== tapeKey(line));
  return { ...notes, lines: [...others, { ...line, surface }] };
}

/** How far another tape lies from the one it was begun at, m. */
const BESIDE = 0.03;

/** Notes with a tape of the wearer's own beside another one, under the first name that is free. */
export function anotherTape(
  notes: TapeNotes,
  line: TapeLine,
  nameOf: (count: number) => string,
): { readonly notes: TapeNotes; readonly line: TapeLine } {
  let count = 1;
  while (notes.lines.some(({ name }) => name === nameOf(count))) count++;
  const sign = line.normal[1] < 0 ? -1 : 1;
  const own: TapeLine = {
    ...line,
    name: nameOf(count),
    center: along(line.center, line.normal, sign * BESIDE),
  };
  return { notes: { ...notes, lines: [...notes.lines, own] }, line: own };
}

/** Notes with a level tape at half the height of a body in which nobody was seen. */
export function firstTape(notes: TapeNotes, { positions }: TriangleMesh, name: string): TapeNotes {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  positions.forEach((value, i) => {
    low[i % 3] = Math.min(low[i % 3]!, value);
    high[i % 3] = Math.max(high[i % 3]!, value);
  });
  const middle = (k: number): number => (low[k]! + high[k]!) / 2;
  const line: TapeLine = {
    name,
    kind: 'trunk',
    side: 'middle',
    center: [middle(0), middle(1), middle(2)],
    normal: [0, 1, 0],
    surface: 'taut',
  };
  return { ...notes, lines: [...notes.lines, line] };
}
