import { Box3, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import {
  between,
  directionOf,
  distanceFor,
  frameOf,
  freeRoom,
  LENS,
  positionOf,
  standOf,
} from '../../renderer/scene/views.ts';
import { placeNotches } from '../../renderer/store/place-notches.ts';
import { createSignal } from '../../renderer/store/stage-signals.ts';
import { VIEW_ORDER } from '../../core/words/stage-words.ts';

const cloth = new Box3(new Vector3(-0.17, 0.9, -0.13), new Vector3(0.17, 1.14, 0.13));
const skin = new Box3(new Vector3(-0.5, 0, -0.2), new Vector3(0.5, 1.5, 0.2));

describe('standard views', () => {
  it.each([
    ['front', [0, 0, 1]],
    ['back', [0, 0, -1]],
    // x points to the wearer's left.
    ['left', [1, 0, 0]],
    ['right', [-1, 0, 0]],
  ] as const)('%s looks from where its name says', (view, direction) => {
    const place = positionOf({ distance: 1, ...directionOf(view) }, new Vector3());
    expect(place.distanceTo(new Vector3(...direction))).toBeLessThan(1e-9);
  });

  it.each(VIEW_ORDER)('%s can be read back from where the camera stands', (view) => {
    const stand = { distance: 2.5, ...directionOf(view) };
    const target = new Vector3(0.1, 1, -0.2);
    const back = standOf(positionOf(stand, target), target);
    expect(back.distance).toBeCloseTo(2.5, 9);
    expect(Math.cos(back.azimuth - stand.azimuth)).toBeCloseTo(1, 9);
  });

  it('turns the short way round', () => {
    const from = { distance: 1, polar: 1.5, azimuth: Math.PI - 0.1 };
    const half = between(from, { ...from, azimuth: -Math.PI + 0.1 }, 0.5);
    expect(Math.cos(half.azimuth)).toBeCloseTo(-1, 9);
  });
});

describe('framing', () => {
  it.each([
    [1280, 664],
    [1920, 944],
  ])('keeps garment and form inside the free room at %d x %d', (width, height) => {
    for (const framing of ['garment', 'form'] as const) {
      const frame = frameOf(framing, cloth, skin);
      const room = freeRoom(width, height, true);
      const distance = distanceFor(frame, room, height);
      // What the lens sees at the target, m per px.
      const perPixel = (2 * distance * Math.tan((LENS * Math.PI) / 360)) / height;
      expect(frame.height / perPixel).toBeLessThanOrEqual(room.bottom - room.top + 1e-6);
      expect(frame.width / perPixel).toBeLessThanOrEqual(room.right - room.left + 1e-6);
    }
  });
});

const point = (zone: number, x: number, y: number, isVisible = true) => ({ zone, x, y, isVisible });

describe('notches', () => {
  const room = { left: 60, right: 1000 };

  it('stand beside the cloth on the nearer side, never over one another', () => {
    const points = [point(1, 700, 300), point(2, 710, 305), point(3, 690, 310), point(4, 450, 300)];
    const placed = placeNotches({ points, left: 400, right: 800, room });
    const right = placed.filter(({ labelX }) => labelX > 800);
    expect(right.map(({ zone }) => zone)).toEqual([1, 2, 3]);
    right
      .slice(1)
      .forEach(({ labelY }, index) => expect(labelY - right[index]!.labelY).toBeGreaterThanOrEqual(24));
    expect(placed.find(({ zone }) => zone === 4)!.labelX).toBeLessThan(400);
  });

  it('leave out what the form hides, and stay in the free room', () => {
    const placed = placeNotches({
      points: [point(1, 10, 10, false), point(2, 900, 20)],
      left: 0,
      right: 990,
      room,
    });
    expect(placed.map(({ zone }) => zone)).toEqual([2]);
    expect(placed[0]!.labelX).toBeLessThan(1000);
  });
});

it('a signal is heard at once, until listening ends', () => {
  const signal = createSignal(0);
  const heard: number[] = [];
  const end = signal.listen((value) => heard.push(value));
  signal.set(1);
  end();
  signal.set(2);
  expect([heard, signal.get()]).toEqual([[1], 2]);
});
