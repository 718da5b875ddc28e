import { describe, expect, it } from 'vitest';
import { FIT_PARAMETERS } from '../../../core/body/fit-parameters.ts';
import type { FitMeasures } from '../../../core/body/fit-measures.ts';
import type { SizeChart } from '../../../core/body/size-chart.ts';
import { fitSliders, withValue, type AskedForm } from '../../../core/sheet/fit-sliders.ts';
import { houseChart } from '../../../core/sheet/house-chart.ts';
import { sizedMeasures, sizeOf } from '../../../core/sheet/size-measures.ts';

const measures: FitMeasures = {
  stature: 1.68,
  bust: 0.92,
  underbust: 0.79,
  waist: 0.76,
  hip: 1.01,
  figure: 'female',
};
const form: AskedForm = { measures, shape: {} };
const slider = (of: AskedForm, name: string) => fitSliders(of).find((one) => one.name === name)!;

describe('sliders of our own form', () => {
  it('there is one for everything it may be asked for, each with its value within its range', () => {
    expect(fitSliders(form).map(({ name }) => name)).toEqual(FIT_PARAMETERS.map(({ name }) => name));
    for (const { value, low, high } of fitSliders(form)) {
      expect(value).toBeGreaterThanOrEqual(low);
      expect(value).toBeLessThanOrEqual(high);
    }
  });

  it('girths are in cm, and those that nobody gave are marked', () => {
    expect(slider(form, 'waist')).toMatchObject({ value: 76, unit: 'cm', isEstimated: false });
    expect(slider(form, 'thigh').isEstimated).toBe(true);
    expect(slider(form, 'seatCleft')).toMatchObject({ value: 15, unit: 'mm', isEstimated: false });
  });

  it('a value set and left to be estimated again changes nothing else', () => {
    const set = withValue(form, slider(form, 'thigh'), 62.5);
    expect(set.measures.thigh).toBeCloseTo(0.625, 12);
    expect(slider(set, 'thigh').isEstimated).toBe(false);
    const back = withValue(set, slider(set, 'thigh'), null);
    expect(back.measures).not.toHaveProperty('thigh');
    for (const name of ['stature', 'bust', 'underbust', 'waist', 'hip'] as const)
      expect(back.measures[name]).toBeCloseTo(measures[name], 12);
  });

  it('what lies beyond the range goes as far as the form does; what every form needs is not left out', () => {
    const waist = slider(form, 'waist');
    expect(withValue(form, waist, 500).measures.waist).toBeCloseTo(waist.high / 100, 12);
    expect(withValue(form, waist, null)).toBe(form);
    const feet = withValue(form, slider(form, 'legSpread'), 6);
    expect(feet.shape.legSpread).toBeCloseTo((6 * Math.PI) / 180, 12);
  });

  it('a male form has a chest and no under-bust', () => {
    const names = fitSliders({ measures: { ...measures, figure: 'male' }, shape: {} }).map(
      ({ name }) => name,
    );
    expect(names).not.toContain('underbust');
    expect(names).toContain('bust');
  });
});

describe('sizes by name', () => {
  it('every size of the house charts is found again from its measures', () => {
    for (const figure of ['female', 'male'] as const) {
      const chart = houseChart(figure);
      expect(chart.isInvented).toBe(true);
      for (const size of chart.sizes)
        expect(sizeOf(chart, sizedMeasures(chart, size, { ...measures, figure }))).toBe(size);
    }
  });

  it('what a chart leaves empty stays where every form needs it, and is estimated elsewhere', () => {
    const chart: SizeChart = {
      name: 'short',
      source: '',
      isInvented: false,
      sizes: ['S', 'M'],
      rows: [
        { measure: 'waist', values: [0.7, null] },
        { measure: 'chest', values: [0.9, 0.96] },
        { measure: 'crotchHeight', values: [0.77, 0.78] },
      ],
    };
    const before = { ...measures, thigh: 0.6 };
    expect(sizedMeasures(chart, 'M', before)).toEqual({ ...measures, bust: 0.96 });
    expect(sizeOf(chart, measures)).toBeNull();
  });
});
