/** A form asked for by a study: what stands in the file, and what must be said of a file that cannot be followed. */
import { describe, expect, it } from 'vitest';
import { FIT_PARAMETERS } from '../../../core/body/fit-parameters.ts';
import { INVENTED_CHARTS } from '../../../core/body/size-chart-invented.ts';
import { Fault } from '../../../core/fault/fault.ts';
import { openBody } from '../../../core/study/open-study.ts';
import type { BodyChoice } from '../../../core/study/study.ts';
import { sayFault } from '../../../core/words/say.ts';

const chart = `unit,cm
measure,S,M
stature,165,168
bust,84,92
waist,66,
hip,90,99
`;

const opened = (fitBody: Readonly<Record<string, unknown>>): Promise<BodyChoice> =>
  openBody(
    JSON.stringify({
      snugfield: 1,
      name: 'a form',
      body: { fitBody },
      fabrics: [{ id: 'any', sheet: 'any.json' }],
      garment: {
        tube: {
          region: 'trunk',
          fromMm: 900,
          toMm: 1000,
          girths: [{ atMm: 950, relaxedMm: 700 }],
          relaxedLengthMm: 100,
          warp: 'along',
        },
      },
    }),
    'a.study.json',
    { text: () => Promise.resolve(chart), bytes: () => Promise.reject(new Error('no bytes')) },
  );

const faultIn = async (fitBody: Readonly<Record<string, unknown>>): Promise<Fault> => {
  const thrown: unknown = await opened(fitBody).catch((error: unknown) => error);
  if (thrown instanceof Fault) return thrown;
  throw new Error('no fault was thrown');
};

const five = { statureMm: 1680, bustMm: 920, underbustMm: 790, waistMm: 760, hipMm: 1010 };

const middle = (min: number, max: number): number => (min + max) / 2;

describe('a form in a study', () => {
  it('takes every parameter of the record under its key, in its unit', async () => {
    const numbers = Object.fromEntries(FIT_PARAMETERS.map(({ key, min, max }) => [key, middle(min, max)]));
    const choice = await opened(numbers);
    if (choice.kind !== 'fitBody') throw new Error('a form was asked for');
    const si: Readonly<Record<string, unknown>> = { ...choice.measures, ...choice.shape };
    const perUnit = { mm: 1e-3, deg: Math.PI / 180, share: 1 };
    for (const { name, unit, min, max } of FIT_PARAMETERS) {
      expect(si[name], name).toBeCloseTo(middle(min, max) * perUnit[unit], 9);
    }
  });

  it('has no shape of its own where none is asked for', async () => {
    expect(await opened(five)).toEqual({
      kind: 'fitBody',
      measures: { stature: 1.68, bust: 0.92, underbust: 0.79, waist: 0.76, hip: 1.01, figure: 'female' },
    });
  });

  it('comes in a size of the invented chart; what stands beside it counts first', async () => {
    const choice = await opened({ size: '92', statureMm: 1700, hipMm: 1000, bustSupport: 1 });
    if (choice.kind !== 'fitBody') throw new Error('a form was asked for');
    const { women } = INVENTED_CHARTS;
    const column = women.sizes.indexOf('92');
    const charted = (measure: string): number | null =>
      women.rows.find((row) => row.measure === measure)!.values[column]!;
    expect(choice.measures.waist).toBeCloseTo(charted('waist')!, 12);
    expect(choice.measures.neck).toBeCloseTo(charted('neck')!, 12);
    expect(choice.measures).toMatchObject({ stature: 1.7, hip: 1 });
    expect(choice.shape).toEqual({ bustSupport: 1 });
  });

  it('comes in a size of a chart beside the study; a male form takes its chest', async () => {
    const small = await opened({ size: 'S', sizeChart: 'sizes.csv' });
    // No under-bust in the chart: 130 mm less than the bust.
    expect(small).toMatchObject({ measures: { bust: 0.84, underbust: 0.71, waist: 0.66, hip: 0.9 } });
    const male = await opened({ size: '100', figure: 'male', statureMm: 1800 });
    expect(male).toMatchObject({ measures: { bust: 1, underbust: 1, figure: 'male' } });
  });

  it.each([
    ['an unknown size', { size: 'XXL', sizeChart: 'sizes.csv' }, 'fit/size-unknown', 'S, M'],
    ['a size without a waist', { size: 'M', sizeChart: 'sizes.csv' }, 'fit/size-incomplete', 'waist'],
    ['a size without a height', { size: '92' }, 'fit/size-incomplete', 'height'],
    ['neither size nor waist', { ...five, waistMm: undefined }, 'file/wrong-shape', 'waistMm'],
    ['a chart and no size', { ...five, sizeChart: 'sizes.csv' }, 'file/wrong-shape', 'size'],
    ['a girth by no name', { ...five, calveMm: 380 }, 'file/wrong-shape', 'calveMm'],
  ])('is refused for %s, with what is missing', async (_, fitBody, code, names) => {
    const fault = await faultIn(fitBody);
    expect(fault.code).toBe(code);
    const { what, remedy } = sayFault(fault);
    expect(what + remedy).toContain(names);
  });
});
