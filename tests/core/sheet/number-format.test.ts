import { describe, expect, it } from 'vitest';
import { tapeUnits } from '../../../core/sheet/display-unit.ts';
import { areaText, fixed, readings, signed, typedNumber } from '../../../core/sheet/number-format.ts';

describe('numbers as they are printed', () => {
  it.each([
    [1.25, 1, '1.3'],
    [-0.04, 1, '0.0'],
    [-2.5, 1, '−2.5'],
    [Number.NaN, 1, '–'],
    [Infinity, 1, '∞'],
    [-Infinity, 0, '−∞'],
  ])('%d with %d decimals is %s', (value, decimals, text) => {
    expect(fixed(value, decimals)).toBe(text);
  });

  it('signs a difference, but not nothing', () => {
    expect([signed(0.25, 2), signed(-0.25, 2), signed(0.001, 2)]).toEqual(['+0.25', '−0.25', '0.00']);
  });

  it('gives a pressure in kPa and mmHg', () => {
    // Source: 2 kPa = 15.0 mmHg (1 kPa = 7.500615758 mmHg, ISO 80000-4).
    expect(readings(2000, 'Pa')).toEqual(['2.00\u00a0kPa', '15.0\u00a0mmHg']);
    expect(readings(-200, 'Pa', true)).toEqual(['−0.20\u00a0kPa', '−1.5\u00a0mmHg']);
  });

  it('gives a tension per metre and per bench strip of 50 mm', () => {
    expect(readings(100, 'N/m')).toEqual([
      '100\u00a0N/m',
      '5.00\u00a0N/50\u00a0mm'.replace('50\u00a0mm', '50 mm'),
    ]);
  });

  it('gives areas in cm²', () => {
    expect([areaText(0.00046), areaText(0.0123)]).toEqual(['4.6\u00a0cm²', '123\u00a0cm²']);
  });

  it.each(['Pa', 'ratio', 'N/m', 'm'] as const)('goes there and back in every unit of %s', (unit) => {
    const { first, second } = tapeUnits(unit);
    for (const shown of second === null ? [first] : [first, second]) {
      expect(shown.toSi(shown.fromSi(0.1234))).toBeCloseTo(0.1234, 12);
    }
  });
});

describe('numbers as they are typed', () => {
  it.each([
    ['2.5', 2.5],
    ['2,5', 2.5],
    [' −0.5 ', -0.5],
    ['+.5', 0.5],
    ['4.', 4],
    ['', null],
    ['four', null],
    ['1e3', null],
    ['1.2.3', null],
    ['Infinity', null],
  ])('"%s" is %s', (text, number) => {
    expect(typedNumber(text)).toBe(number);
  });
});
