import { describe, expect, it } from 'vitest';
import { spreadOf } from '../../../core/study/worn-summary.ts';

describe('spread over the cloth', () => {
  it('weighs by area and leaves out what has none', () => {
    const spread = spreadOf(Float64Array.of(99, 1, 3), Float64Array.of(0, 3, 1));
    expect(spread).toEqual({ min: 1, mean: 1.5, p95: 3, max: 3 });
  });

  it('finds the value below which 95 % of the area lies', () => {
    const values = Float64Array.from({ length: 100 }, (_, i) => 100 - i);
    expect(spreadOf(values, new Float64Array(100).fill(2)).p95).toBe(95);
  });
});
