import { describe, expect, it } from 'vitest';
import { carriedLevel, levelPairs } from '../../renderer/store/carry-levels.ts';

const level = (name: string, levelMm: number) => ({ name, levelMm });

describe('heights carried to the same places of another body', () => {
  const pairs = levelPairs(
    [level('bust', 1200), level('waist', 1000), level('hip', 800), level('knee', 450)],
    [level('hip', 880), level('waist', 1100), level('bust', 1320), level('wrist', 850)],
  );

  it('are known where both bodies have the place, the lowest first', () => {
    expect(pairs).toEqual([
      [800, 880],
      [1000, 1100],
      [1200, 1320],
    ]);
  });

  it('lie on the place itself, in proportion between two, and as far beyond as before', () => {
    expect(carriedLevel(1000, pairs)).toBe(1100);
    expect(carriedLevel(950, pairs)).toBe(1045);
    expect(carriedLevel(1250, pairs)).toBe(1370);
    expect(carriedLevel(700, pairs)).toBe(780);
  });

  it('keep their order, whatever the places say', () => {
    const crossed = levelPairs(
      [level('hip', 800), level('waist', 1000), level('bust', 1200)],
      [level('hip', 900), level('waist', 850), level('bust', 1300)],
    );
    const heights = [600, 800, 900, 1000, 1100, 1200, 1400].map((height) => carriedLevel(height, crossed));
    expect(heights).toEqual(heights.toSorted((one, other) => one - other));
    expect(new Set(heights).size).toBe(heights.length);
  });

  it('stay as they are where no place is known', () => {
    expect(carriedLevel(1000, levelPairs([level('waist', 1)], [level('knee', 2)]))).toBe(1000);
  });
});
