import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { POISSON_RANGE } from '../../../core/equilibrium/flesh-kernel.ts';
import { Fault } from '../../../core/fault/fault.ts';
import { openStudy } from '../../../core/study/open-study.ts';
import { asTube } from '../../help/as-tube.ts';
import { SKIN_FRICTION } from '../../../core/study/skin-friction.ts';
import type { Study } from '../../../core/study/study.ts';

const demo = new URL('../../../assets/demo/', import.meta.url);
const readText = (name: string): Promise<string> =>
  Promise.resolve(readFileSync(new URL(name, demo), 'utf8'));

type Part = Readonly<Record<string, unknown>>;

interface Wish {
  readonly keys?: Part;
  readonly tube?: Part;
}

/** The demo's study with some of its keys, and of its tube's, written otherwise. */
async function opened(keys: Part, tube: Part = {}): Promise<Study> {
  const file = JSON.parse(await readText('harbour-waist-shaper.study.json')) as {
    garment: { tube: Part };
  };
  const garment = { tube: { ...file.garment.tube, ...tube } };
  return openStudy(JSON.stringify({ ...file, garment, ...keys }), 'changed.study.json', {
    text: readText,
    bytes: () => Promise.reject(new Error('no bytes in this study')),
  });
}

/** Path and value that a study is refused for. */
async function refusal(keys: Part, tube: Part = {}): Promise<readonly [unknown, unknown]> {
  const error: unknown = await opened(keys, tube).catch((thrown: unknown) => thrown);
  if (!(error instanceof Fault) || error.code !== 'file/wrong-shape') throw error;
  const { path, value } = error.facts as { path: string; value: string };
  return [path, value];
}

describe('a study file', () => {
  it('of before friction by name, flesh and bands reads as it did', async () => {
    const study = await opened({});
    expect(study).toMatchObject({ friction: 0.5, frictionFrom: 'typed', branch: 'load' });
    expect([study.flesh, study.bending, study.liningFabrics, asTube(study.garment).bands]).toEqual(
      Array.from({ length: 4 }, () => undefined),
    );
  });

  it('names friction on dry and damp skin, within what was met on people', async () => {
    for (const from of ['dry', 'damp'] as const) {
      const { coefficient, low, high } = SKIN_FRICTION[from];
      expect(await opened({ friction: from })).toMatchObject({ friction: coefficient, frictionFrom: from });
      expect(low <= coefficient && coefficient <= high).toBe(true);
    }
    // Cotton, static: forearm 0.31 +- 0.07, chest 0.90 +- 0.19; sweat 2 to 5 times.
    // Temel, Johnson & Lloyd, Tribology Letters 70 (2022); factors of sweat from a conference abstract.
    const { dry, damp } = SKIN_FRICTION;
    expect([dry.low, dry.high]).toEqual([0.31 - 0.07, 0.9 + 0.19].map((x) => expect.closeTo(x, 1)));
    expect(damp.coefficient / dry.coefficient).toBe(2);
    expect(damp.high).toBeCloseTo(5 * 0.31, 5);
  });

  it('takes flesh as a layer, its bracket between the ends that the layer is right for', async () => {
    expect((await opened({ flesh: { layer: {} } })).flesh).toEqual({
      kind: 'layer',
      poisson: 0.49,
      skin: 'slides',
    });
    const { least, most } = POISSON_RANGE;
    for (const poisson of [least, most]) {
      const { flesh } = await opened({ flesh: { layer: { poisson, skin: 'held' } } });
      expect(flesh).toEqual({ kind: 'layer', poisson, skin: 'held' });
    }
    expect(await refusal({ flesh: { layer: { poisson: least - 0.001 } } })).toEqual([
      'flesh.layer.poisson',
      String(least - 0.001),
    ]);
    expect((await refusal({ flesh: { layer: { poisson: most + 0.001 } } }))[0]).toBe('flesh.layer.poisson');
    expect((await refusal({ flesh: 'jelly' }))[0]).toBe('flesh');
  });

  it('takes bands and linings in SI, a lining of another sheet with that fabric', async () => {
    const study = await opened(
      {},
      {
        bands: [
          { at: 'upper', widthMm: 25, relaxedMm: 580, curve: [[20, 1.5]] },
          { at: 1000, widthMm: 10, relaxedMm: 600, curve: [[10, 1]] },
        ],
        linings: [
          { grainDeg: 90 },
          { sheet: 'siskin-160.bench.json', fromMm: 900, toMm: 1000 },
          { sheet: 'plover-185.bench.json' },
        ],
      },
    );
    expect(asTube(study.garment).bands).toEqual([
      { at: 'upper', width: 0.025, relaxed: 0.58, curve: [[0.2, 1.5]] },
      { at: 1, width: 0.01, relaxed: 0.6, curve: [[0.1, 1]] },
    ]);
    expect(asTube(study.garment).linings).toEqual([
      { fabric: 0, grain: Math.PI / 2 },
      { fabric: 1, from: 0.9, to: 1 },
      { fabric: 2 },
    ]);
    expect(study.liningFabrics?.map(({ name }) => name.split(' ')[0])).toEqual(['Siskin', 'Plover']);
  });

  it.each<readonly [string, Wish, string, string]>([
    ['friction too high', { keys: { friction: 3 } }, 'friction', '3'],
    ['friction of no known skin', { keys: { friction: 'oily' } }, 'friction', '"oily"'],
    [
      'a band of no width',

      { tube: { bands: [{ at: 'upper', widthMm: 0, relaxedMm: 580, curve: [[20, 1]] }] } },
      'garment.tube.bands[0].widthMm',
      '0',
    ],
    [
      'a band nowhere',

      { tube: { bands: [{ at: 'side', widthMm: 9, relaxedMm: 580, curve: [[20, 1]] }] } },
      'garment.tube.bands[0].at',
      '"side"',
    ],
    [
      'a band without readings',

      { tube: { bands: [{ at: 'lower', widthMm: 9, relaxedMm: 580, curve: [] }] } },
      'garment.tube.bands[0].curve',
      '[]',
    ],
    [
      'a lining turned by a word',

      { tube: { linings: [{ grainDeg: 'bias' }] } },
      'garment.tube.linings[0].grainDeg',
      '"bias"',
    ],
    ['bending by a number', { keys: { bending: 1 } }, 'bending', '1'],
  ])('refuses %s with place and value', async (_, { keys = {}, tube }, path, value) => {
    expect(await refusal(keys, tube)).toEqual([path, value]);
  });
});
