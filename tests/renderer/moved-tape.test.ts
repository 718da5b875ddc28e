import { describe, expect, it } from 'vitest';
import type { TapeLine } from '../../core/body/body-tape.ts';
import type { Landmarks } from '../../core/body/landmarks.ts';
import type { TapeNotes } from '../../core/study/study.ts';
import {
  anotherTape,
  foundTape,
  isMoved,
  movedTape,
  surfacedTape,
  tiltedTape,
  tiltOf,
} from '../../renderer/store/moved-tape.ts';

const NOTHING: TapeNotes = { placed: {}, lines: [] };
const waist: TapeLine = {
  name: 'waist',
  kind: 'trunk',
  side: 'middle',
  center: [0, 1.04, 0.01],
  normal: [0, 1, 0],
  surface: 'taut',
};
const landmarks: Landmarks = { waistFront: { point: [0, 1.04, 0.11], how: 'recipe' } };
const FORWARD = [0, 0, 1] as const;

describe('a tape moved by hand', () => {
  it('places the landmark that carries its level, and moves on from there', () => {
    const once = movedTape(NOTHING, waist, landmarks, 0.01);
    expect(once.placed.waistFront![1]).toBeCloseTo(1.05, 12);
    // A key that is pressed again before the first was measured is not lost.
    const twice = movedTape(once, waist, landmarks, 0.01);
    expect(twice.placed.waistFront![1]).toBeCloseTo(1.06, 12);
    expect(isMoved(twice, waist, landmarks)).toBe(true);
    expect(foundTape(twice, waist, landmarks)).toEqual(NOTHING);
  });

  it('goes up whichever way its plane is said to face', () => {
    const arm: TapeLine = { ...waist, name: 'elbow', side: 'left', kind: 'limb', normal: [0.6, -0.8, 0] };
    const placed = movedTape(NOTHING, arm, { elbowLeft: { point: [0.4, 1, 0], how: 'found' } }, 0.01).placed
      .elbowLeft!;
    // Along the axis by 10 mm: 8 of them up.
    expect(placed[1]).toBeCloseTo(1.008, 12);
    expect(Math.hypot(placed[0] - 0.4, placed[1] - 1)).toBeCloseTo(0.01, 12);
  });
});

describe('a tilted tape', () => {
  it.each([
    [10, 0],
    [0, -15],
    [20, 12],
    [-35, 40],
  ])('of %d and %d degrees reads back as it was typed', (forward, left) => {
    const { lines } = tiltedTape(NOTHING, waist, { forward, left }, FORWARD);
    const [line] = lines;
    expect(Math.hypot(...line!.normal)).toBeCloseTo(1, 12);
    expect(tiltOf(line!, FORWARD).forward).toBeCloseTo(forward, 9);
    expect(tiltOf(line!, FORWARD).left).toBeCloseTo(left, 9);
  });

  it('leans its front down when it is tilted to the front', () => {
    const [line] = tiltedTape(NOTHING, waist, { forward: 30, left: 0 }, FORWARD).lines;
    // On the plane n . (p - c) = 0, a decimetre to the front: lower by 100 mm * tan 30 degrees.
    const [, up, ahead] = line!.normal;
    const rise = (-ahead * 0.1) / up;
    expect(rise).toBeCloseTo(-0.1 * Math.tan(Math.PI / 6), 12);
  });

  it('is no note of its own once it is level again', () => {
    const tilted = tiltedTape(NOTHING, waist, { forward: 10, left: 5 }, FORWARD);
    expect(tiltedTape(tilted, waist, { forward: 0, left: 0 }, FORWARD)).toEqual(NOTHING);
  });

  it('keeps its tilt when it is moved, and its centre goes along', () => {
    const tilted = tiltedTape(NOTHING, waist, { forward: 10, left: 0 }, FORWARD);
    const moved = movedTape(tilted, tilted.lines[0]!, landmarks, 0.02);
    expect(moved.lines[0]!.normal).toEqual(tilted.lines[0]!.normal);
    const way = Math.hypot(...moved.lines[0]!.center.map((value, k) => value - waist.center[k]!));
    expect(way).toBeCloseTo(0.02, 12);
  });
});

it('tapes of one’s own take the first free name, lie beside the tape they were begun at, and go away', () => {
  const first = anotherTape(NOTHING, waist, (count) => `tape ${count}`);
  const second = anotherTape(first.notes, waist, (count) => `tape ${count}`);
  expect(second.notes.lines.map(({ name }) => name)).toEqual(['tape 1', 'tape 2']);
  expect(first.line.center[1] - waist.center[1]).toBeCloseTo(0.03, 12);
  expect(foundTape(second.notes, first.line, landmarks).lines).toEqual([second.line]);
  const along = surfacedTape(second.notes, second.line, 'along');
  expect(along.lines.map(({ name, surface }) => [name, surface])).toEqual([
    ['tape 1', 'taut'],
    ['tape 2', 'along'],
  ]);
});
