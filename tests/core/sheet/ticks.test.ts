import { assert, double, property } from 'fast-check';
import { describe, expect, it } from 'vitest';
import { roundStep, ticksBetween } from '../../../core/sheet/ticks.ts';

describe('marks on a tape', () => {
  it('are round and inside the range, at least two, at most eleven', () => {
    assert(
      property(
        double({ min: -1000, max: 1000, noNaN: true }),
        double({ min: 1e-3, max: 1e4, noNaN: true }),
        (low, span) => {
          const high = low + span;
          const { step, numbered, fine } = ticksBetween(low, high, 10);
          const leading = step / 10 ** Math.floor(Math.log10(step) + 1e-9);
          expect([1, 2, 5]).toContain(Math.round(leading));
          expect(numbered.length).toBeGreaterThanOrEqual(2);
          expect(numbered.length).toBeLessThanOrEqual(11);
          for (const mark of [...numbered, ...fine]) {
            expect(mark).toBeGreaterThanOrEqual(low - 1e-5 * span);
            expect(mark).toBeLessThanOrEqual(high + 1e-5 * span);
          }
          for (const mark of numbered)
            expect(Math.abs(mark / step - Math.round(mark / step))).toBeLessThan(1e-4);
        },
      ),
    );
  });

  it('reads as a person would write it', () => {
    expect(ticksBetween(0, 4, 10)).toMatchObject({
      step: 0.5,
      numbered: [0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4],
      decimals: 1,
    });
    expect(ticksBetween(-0.5, 0.5, 10).numbered).toContain(0);
    expect(ticksBetween(0, 30.0024, 10)).toMatchObject({ step: 5, decimals: 0 });
  });

  it('has no fine mark on a numbered one', () => {
    const { numbered, fine } = ticksBetween(0, 1, 10);
    expect(fine.filter((mark) => numbered.includes(mark))).toEqual([]);
    expect(fine).toHaveLength(40);
  });

  it.each([
    [10, 10, 1],
    [9, 10, 1],
    [11, 10, 2],
    [0.3, 10, 0.05],
    [250, 10, 50],
  ])('divides %d into at most %d parts by %d', (span, parts, step) => {
    expect(roundStep(span, parts)).toBeCloseTo(step, 12);
  });
});
