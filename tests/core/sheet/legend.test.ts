import { describe, expect, it } from 'vitest';
import { areaHistogram } from '../../../core/sheet/area-histogram.ts';
import { defaultLegendParts } from '../../help/legend-parts.ts';
import { legendOf } from '../../../core/sheet/legend.ts';
import { pretendField } from '../../help/pretend-result.ts';

describe('area histogram', () => {
  it('adds up to the cloth, whatever lies outside or has no value', () => {
    const field = pretendField([-5, 0, 1, 2.5, 9.99, 10, 11, Infinity, Number.NaN]);
    const areas = Float64Array.from([1, 2, 4, 8, 16, 32, 64, 128, 256]);
    const { bands, below, above, missing } = areaHistogram(field, areas, { low: 0, high: 10 }, 5);
    expect([...bands]).toEqual([6, 8, 0, 0, 48]);
    expect([below, above, missing]).toEqual([1, 192, 256]);
    expect(bands.reduce((sum, area) => sum + area, 0) + below + above + missing).toBe(511);
  });
});

describe('legend of pressure', () => {
  const { subject } = defaultLegendParts();
  const legend = legendOf(subject);

  it('has kPa on one edge and mmHg on the other', () => {
    expect(legend.first.unit).toBe('kPa');
    expect(legend.second?.unit).toBe('mmHg');
    expect(legend.first.marks.map(({ label }) => label)).toEqual([
      '0.0',
      '0.5',
      '1.0',
      '1.5',
      '2.0',
      '2.5',
      '3.0',
      '3.5',
      '4.0',
    ]);
  });

  it('puts equal pressures at equal heights on both edges', () => {
    // Source: ISO 80000-4, conventional millimetre of mercury: 1 mmHg = 133.322387415 Pa, so 30 mmHg = 3.99967 kPa.
    const thirty = legend.second!.marks.find(({ label }) => label === '30')!;
    expect(thirty.at * 4).toBeCloseTo(3.99967, 4);
  });

  it('draws isolines at the numbered marks', () => {
    expect(legend.isolineStep).toBe(500);
  });

  it('adds up to the cloth', () => {
    const total =
      legend.bands.reduce((sum, area) => sum + area, 0) + legend.below + legend.above + legend.missing;
    expect(total).toBeCloseTo(
      subject.vertexArea.reduce((sum, area) => sum + area, 0),
      12,
    );
  });
});

describe('legend of a difference', () => {
  const { subject } = defaultLegendParts();
  const legend = legendOf({ ...subject, range: { low: -500, high: 500 }, isDifference: true });

  it('is signed and has zero in the middle', () => {
    expect(legend.first.marks.find(({ label }) => label === '0.0')?.at).toBeCloseTo(0.5, 12);
    expect([legend.lowLabel, legend.highLabel]).toEqual(['−0.5', '+0.5']);
  });

  it('mirrors its marks about zero', () => {
    const places = legend.first.marks.map(({ at }) => at);
    places.forEach((at, index) => expect(at + places.at(-1 - index)!).toBeCloseTo(1, 12));
  });
});

describe('band beside the legend', () => {
  const areas = Float64Array.from([1, 1, 1, 9]);
  const band = { low: -0.12, high: 0.06 };
  const legend = (values: readonly number[], isDifference = false, unit: 'Pa' | 'N/m' = 'Pa') =>
    legendOf({
      field: pretendField(values, { unit, band }),
      range: { low: -4000, high: 4000 },
      vertexArea: areas,
      isDifference,
    }).band;

  it('is told in shares of the value', () => {
    expect(legend([500, 1000, 2000, 3000])).toEqual({ low: '−12', high: '+6', unit: '%' });
  });

  it('is the median by area, over what has a value', () => {
    const field = pretendField([100, 100, 100, 100]);
    const low = Float64Array.of(70, 80, 90, 95);
    const high = Float64Array.of(130, 120, 110, 105);
    const wide = { ...field, band: { low, high } };
    const parts = { range: { low: 0, high: 4000 }, vertexArea: areas, isDifference: false };
    // The last vertex alone is nine twelfths of the area; without it the middle one of three is the median.
    expect(legendOf({ ...parts, field: wide }).band).toEqual({ low: '−5', high: '+5', unit: '%' });
    const undefinedAt = Uint8Array.of(0, 0, 0, 1);
    expect(legendOf({ ...parts, field: { ...wide, undefinedAt } }).band).toEqual({
      low: '−20',
      high: '+20',
      unit: '%',
    });
  });

  it('is told in the unit where values stand near zero, and always in a difference', () => {
    const field = { ...pretendField([10, 10, 10, 10], { unit: 'N/m' }) };
    const wide = { low: Float64Array.of(6, 6, 6, 6), high: Float64Array.of(18, 18, 18, 18) };
    const parts = { range: { low: 0, high: 50 }, vertexArea: areas, isDifference: false };
    expect(legendOf({ ...parts, field: { ...field, band: wide } }).band).toEqual({
      low: '−4',
      high: '+8',
      unit: 'N/m',
    });
    expect(legend([1000, 1000, 1000, 1000], true)).toEqual({ low: '−0.12', high: '+0.06', unit: 'kPa' });
  });

  it('is not there where the field bears none', () => {
    expect(legendOf(defaultLegendParts().subject).band).toBeNull();
  });
});
