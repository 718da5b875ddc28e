import { describe, expect, it } from 'vitest';
import { turnTo } from '../../core/body/import-axes.ts';
import {
  leftAxis,
  tippedForward,
  tippedSideways,
  turnedQuarter,
  turnOf,
  type Stance,
} from '../../renderer/store/axis-turns.ts';

const START: Stance = { up: '+z', front: '-y' };

/** Every stance that the three words reach from one. */
function reached(from: Stance): Stance[] {
  const found = new Map([[JSON.stringify(from), from]]);
  for (const stance of found.values()) {
    for (const turn of [turnedQuarter, tippedForward, tippedSideways]) {
      const next = turn(stance);
      found.set(JSON.stringify(next), next);
    }
  }
  return [...found.values()];
}

describe('a stance', () => {
  it('can be turned into each of the 24 that there are', () => {
    // A cube has 24 rotations.
    expect(reached(START)).toHaveLength(24);
  });

  it('is drawn as the body will be placed', () => {
    for (const stance of reached(START)) {
      expect(turnOf(stance).map((value) => value + 0)).toEqual(turnTo(stance.up, stance.front));
    }
  });

  it.each([
    ['a quarter', turnedQuarter],
    ['forward', tippedForward],
    ['sideways', tippedSideways],
  ])('comes back after four turns %s, not before', (_, turn) => {
    const [one, two, three, four] = [1, 2, 3, 4].map((count) =>
      Array.from({ length: count }).reduce<Stance>(turn, START),
    );
    expect(four).toEqual(START);
    for (const stance of [one, two, three]) expect(stance).not.toEqual(START);
  });

  it('keeps what it turns about: up, left, front', () => {
    expect(turnedQuarter(START).up).toBe(START.up);
    expect(leftAxis(tippedForward(START))).toBe(leftAxis(START));
    expect(tippedSideways(START).front).toBe(START.front);
  });
});
