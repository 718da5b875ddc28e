import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { isotonic, tilted } from '../../../core/fabric/isotonic.ts';

const sum = (list: readonly number[]): number => list.reduce((total, value) => total + value, 0);

describe('isotonic', () => {
  it('pools falling neighbours to their mean', () => {
    expect(isotonic([1, 3, 2, 4])).toEqual([1, 2.5, 2.5, 4]);
    expect(isotonic([3, 2, 1])).toEqual([2, 2, 2]);
  });

  it('weighs the pools', () => {
    expect(isotonic([4, 1], [1, 2])).toEqual([2, 2]);
  });

  it('is the nearest rising sequence: rises, keeps the sum, and no small rising change comes closer', () => {
    const values = fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 2, maxLength: 12 });
    fc.assert(
      fc.property(values, fc.nat(), (raw, at) => {
        const rising = isotonic(raw);
        const miss = (list: readonly number[]): number => sum(list.map((value, i) => (value - raw[i]!) ** 2));
        for (let i = 1; i < raw.length; i++) expect(rising[i]!).toBeGreaterThanOrEqual(rising[i - 1]!);
        expect(sum(rising)).toBeCloseTo(sum(raw), 8);
        const lifted = rising.map((value, i) => (i >= at % raw.length ? value + 1e-3 : value));
        expect(miss(lifted)).toBeGreaterThanOrEqual(miss(rising) - 1e-12);
      }),
      { seed: 1972, numRuns: 200 },
    );
  });
});

it('tilts a level pool but keeps it between its neighbours', () => {
  const result = tilted([1, 2.5, 2.5, 4], [0.1, 0.2, 0.3, 0.4]);
  expect(result[1]!).toBeLessThan(2.5);
  expect(result[2]!).toBeGreaterThan(2.5);
  expect(result[1]!).toBeGreaterThan(1);
  expect(result[2]!).toBeLessThan(4);
  expect(result[1]! + result[2]!).toBeCloseTo(5, 12);
});
