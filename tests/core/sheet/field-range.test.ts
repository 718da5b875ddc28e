import { describe, expect, it } from 'vitest';
import { automaticRange, rampFor, standardRange, symmetricRange } from '../../../core/sheet/field-range.ts';
import { FIELD_ORDER } from '../../../core/words/field-words.ts';
import { pretendField } from '../../help/pretend-result.ts';

const fallback = { low: 0, high: 4000 };

describe('automatic range', () => {
  it('holds every value of both fabrics and is round', () => {
    const range = automaticRange([pretendField([120, 830]), pretendField([400, 1740])], fallback);
    expect(range).toEqual({ low: 0, high: 1800 });
  });

  it.each([
    ['no field', []],
    ['no value', [pretendField([Number.NaN, Number.NaN])]],
    ['only zeros', [pretendField([0, 0])]],
    ['only infinities', [pretendField([Infinity, -Infinity])]],
  ])('leaves the range where there is nothing to hold: %s', (_, fields) => {
    expect(automaticRange(fields, fallback)).toEqual(fallback);
  });

  it('passes over infinities and missing values', () => {
    expect(automaticRange([pretendField([Infinity, Number.NaN, 900])], fallback)).toEqual({
      low: 0,
      high: 900,
    });
  });

  it('keeps zero in the middle of what may be of either sign', () => {
    const field = pretendField([-0.12, 0.05], { id: 'stretchAlong', unit: 'ratio', kind: 'symmetric' });
    const { low, high } = automaticRange([field], { low: -0.2, high: 0.2 });
    expect(low).toBeCloseTo(-0.12, 12);
    expect(high).toBeCloseTo(0.12, 12);
  });
});

describe('standard range', () => {
  it.each(FIELD_ORDER)('%s has one without values, and a symmetric difference', (id) => {
    const values = standardRange(id, 'values', []);
    expect(values.high).toBeGreaterThan(values.low);
    const difference = standardRange(id, 'difference', []);
    expect(difference.low).toBe(-difference.high);
  });

  it('is the smallest that holds nearly all', () => {
    const many = Array.from({ length: 1000 }, () => 900);
    expect(standardRange('skinPressure', 'values', [pretendField(many)])).toEqual({ low: 0, high: 1000 });
    expect(standardRange('skinPressure', 'values', [pretendField([...many, 7000])]).high).toBe(1000);
    expect(
      standardRange('skinPressure', 'values', [pretendField([...many, ...many.map(() => 1100)])]).high,
    ).toBe(2000);
  });

  it('is shared: the greater fabric decides', () => {
    const soft = pretendField([300, 400]);
    const firm = pretendField([2500, 3000]);
    expect(standardRange('skinPressure', 'values', [soft, firm])).toEqual(
      standardRange('skinPressure', 'values', [firm, soft]),
    );
    expect(standardRange('skinPressure', 'values', [soft, firm]).high).toBe(4000);
  });
});

it('takes the diverging ramp for what may be of either sign only', () => {
  expect(rampFor('symmetric', 'cividis')).toBe('blueRed');
  expect(rampFor('sequential', 'cividis')).toBe('cividis');
});

it('reaches as far to either side as the farther end', () => {
  expect(symmetricRange({ low: -3, high: 1 })).toEqual({ low: -3, high: 3 });
});
