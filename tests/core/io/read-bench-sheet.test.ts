import { describe, expect, it } from 'vitest';

import type { Fault } from '../../../core/fault/fault.ts';
import { benchSheetText } from '../../../core/io/bench-sheet.ts';
import { checkBenchSheet, parseBenchSheet, readBenchSheet } from '../../../core/io/read-bench-sheet.ts';
import type { LooseSheet } from '../../help/demo-sheet.ts';
import { demoSheet, demoSheetText } from '../../help/demo-sheet.ts';
import { faultOf as faultIn } from '../../help/fault-of.ts';

function faultOf(spoil: (sheet: LooseSheet) => void): Fault {
  const sheet = demoSheet();
  spoil(sheet);
  return faultIn(() => readBenchSheet(JSON.stringify(sheet)));
}

describe('a bench sheet', () => {
  it('is read in SI', () => {
    const { weighed, thickness, stretched, bending } = parseBenchSheet(demoSheetText('tern-210'));
    expect(weighed.length).toBeCloseTo(0.2, 12);
    expect('apart' in weighed.masses && weighed.masses.apart.warp[0]).toBeCloseTo(0.002112, 9);
    expect(thickness).toEqual({ values: [0.00045], pressure: 1000, standard: 'ISO 5084' });
    expect(stretched.strips.warp.load[0]![6]).toEqual({ extension: 0.4, force: 5.8 });
    expect(stretched.heldWidth).toBeNull();
    expect(bending.kind === 'cantilever' && bending.angle).toBeCloseTo(0.72431, 5);
  });

  it('may start with a byte order mark', () => {
    expect(readBenchSheet(`\uFEFF${demoSheetText('plover-185')}`).name).toBe('Plover 185 (invented)');
  });

  it('takes one mass or a list of repeats', () => {
    const sheet = demoSheet();
    sheet.strip.massG = { warp: 2.1, weft: [2.1, 2.1], bias: 2.1 };
    expect(readBenchSheet(JSON.stringify(sheet)).arealDensity).toBeCloseTo(0.21, 12);
  });

  it('uses a strip of held width when there is one', () => {
    const sheet = demoSheet();
    const free = readBenchSheet(JSON.stringify(sheet));
    sheet.stretch.heldWidth = {
      direction: 'weft',
      load: [
        [20, 2.7],
        [30, 3.95],
      ],
    };
    const held = readBenchSheet(JSON.stringify(sheet));
    expect(free.coupling?.from).toBe('reciprocity');
    expect(held.coupling?.from).toBe('held width');
    expect(held.laws.load.coupling).not.toBe(free.laws.load.coupling);
  });
});

describe('what is wrong with a sheet is named by its path', () => {
  it.each<[string, string, (sheet: LooseSheet) => void]>([
    ['a misspelt key', 'stretch.warp.laod', (s) => Object.assign(s.stretch.warp, { laod: [] })],
    ['a missing direction', 'strip.massG.weft', (s) => delete s.strip.massG['weft']],
    [
      'a force that is text',
      'stretch.warp.load[3][1]',
      (s) => Object.assign(s.stretch.warp.load[3]!, { 1: '2,35' }),
    ],
    ['a reading with one number', 'stretch.bias.load[1]', (s) => (s.stretch.bias.load[1] = [5])],
    ['an extension below zero', 'stretch.weft.load[0][0]', (s) => (s.stretch.weft.load[0] = [-5, 0])],
    ['a mass of zero', 'strip.massG.bias', (s) => (s.strip.massG['bias'] = 0)],
    ['a slope beyond any', 'bending.angleDeg', (s) => (s.bending.angleDeg = 90)],
    ['a date in words', 'date', (s) => (s['date'] = '11 March')],
  ])('%s', (_name, path, spoil) => {
    const fault = faultOf(spoil);
    expect(fault.code).toBe('file/wrong-shape');
    expect(fault.facts).toMatchObject({ path });
  });

  it('an unknown version', () => {
    expect(faultOf((s) => (s['snugfieldBench'] = 2))).toMatchObject({
      code: 'file/unknown-version',
      facts: { path: 'snugfieldBench', known: 1, value: '2' },
    });
  });
});

/** Warp reading at 20 % of Tern: 3.06 N on a strip 50 mm wide, which is then 46.9 mm wide. */
const warpOf = (change: (sheet: LooseSheet) => void) => {
  const sheet = demoSheet();
  sheet.stretch.warp.load = [[0, 0]];
  sheet.stretch.warp.width = [[0, 50]];
  change(sheet);
  return parseBenchSheet(JSON.stringify(sheet)).stretched.strips.warp;
};

describe('units of the readings', () => {
  // By definition 1 kgf = 9.80665 N; 1 gf/cm over 5 cm is 5 gf.
  it.each([
    ['N', 3.06],
    ['cN', 306],
    ['gf', 312.0331],
    ['kgf', 0.3120331],
    ['N/m', 61.2],
    ['N/5 cm', 3.06],
    ['gf/cm', 62.40663],
  ])('force in %s', (unit, value) => {
    const { load } = warpOf((s) => {
      s.stretch.units = { force: unit };
      s.stretch.warp.load.push([20, value]);
    });
    expect(load[0]![1]!.force).toBeCloseTo(3.06, 5);
  });

  it.each([
    ['%', 20],
    ['ratio', 0.2],
    ['mm', 20],
  ])('extension in %s, of a gauge of 100 mm', (unit, value) => {
    const { load } = warpOf((s) => {
      s.stretch.units = { extension: unit };
      s.stretch.warp.load.push([value, 3.06]);
    });
    expect(load[0]![1]!.extension).toBeCloseTo(0.2, 12);
  });

  it.each([
    ['mm', 46.9],
    ['%', 93.8],
    ['ratio', 0.938],
  ])('width in %s', (unit, value) => {
    const { width } = warpOf((s) => {
      s.stretch.units = { width: unit };
      s.stretch.warp.width!.push([20, value]);
    });
    expect(width![0]![1]!.width).toBeCloseTo(0.0469, 12);
  });

  it('of a loop: half the force, and travel over half the circumference (ASTM D4964: 62.5 mm is 50 % of 250 mm)', () => {
    const { load } = warpOf((s) => {
      s.stretch.units = { extension: 'mm' };
      Object.assign(s.stretch, { test: 'loop', circumferenceMm: 250, widthMm: 75 });
      s.stretch.warp.load.push([62.5, 12]);
    });
    expect(load[0]![1]!.extension).toBeCloseTo(0.5, 12);
    // 12 N on a loop 75 mm wide is 80 N/m (worked from the standard's arithmetic).
    expect(load[0]![1]!.force / 0.075).toBeCloseTo(80, 9);
  });
});

describe('what may stand instead', () => {
  it('repeats are kept apart, one list a specimen', () => {
    const { strips } = parseBenchSheet(demoSheetText('plover-185')).stretched;
    expect(strips.warp.load).toHaveLength(3);
    expect(strips.warp.return).toHaveLength(3);
    expect(strips.bias.width).toHaveLength(3);
  });

  it('a loop, masses together, a heart loop and a held width', () => {
    const { weighed, stretched, bending, thickness } = parseBenchSheet(demoSheetText('siskin-160'));
    expect(weighed.masses).toEqual({
      together: [0.00601, 0.00598, 0.00603].map((mass) => expect.closeTo(mass, 9)),
    });
    expect(stretched).toMatchObject({ test: 'loop', cycle: 3, circumference: 0.25 });
    expect(stretched.heldWidth!.load[0]).toHaveLength(4);
    expect(bending.kind).toBe('heartLoop');
    expect(thickness.standard).toBe('ASTM D1777');
  });

  it.each<[string, string, (sheet: LooseSheet) => void]>([
    [
      'a force that is text in the second specimen',
      'stretch.warp.load[1][2][1]',
      (s) =>
        Object.assign(s.stretch.warp, {
          load: [
            s.stretch.warp.load,
            [
              [0, 0],
              [5, 0.8],
              [10, '1,6'],
            ],
          ],
        }),
    ],
    ['no specimen', 'stretch.warp.load', (s) => (s.stretch.warp.load = [])],
    ['an unknown unit', 'stretch.units.force', (s) => (s.stretch.units = { force: 'lbf' })],
    [
      'travel of a loop of no known circumference',
      'stretch.circumferenceMm',
      (s) => Object.assign(s.stretch, { test: 'loop', units: { extension: 'mm' } }),
    ],
    ['no masses', 'strip.massG', (s) => Reflect.deleteProperty(s.strip, 'massG')],
    ['masses both ways', 'strip.massTogetherG', (s) => (s.strip.massTogetherG = 6.3)],
    [
      'a slope without overhang',
      'bending.overhangMm',
      (s) => Object.assign(s, { bending: { angleDeg: 41.5 } }),
    ],
    ['overhang without its slope', 'bending.angleDeg', (s) => Reflect.deleteProperty(s.bending, 'angleDeg')],
  ])('%s is named by its path', (_name, path, spoil) => {
    expect(faultOf(spoil)).toMatchObject({ code: 'file/wrong-shape', facts: { path } });
  });
});

it.each(['tern-210', 'plover-185', 'siskin-160'] as const)('%s is written as it was read', (name) => {
  const sheet = checkBenchSheet(JSON.parse(demoSheetText(name)));
  const text = benchSheetText(sheet);
  expect(JSON.parse(text)).toEqual(sheet);
  expect(text).toMatch(/\n +\[\d+(\.\d+)?, \d+(\.\d+)?\],?\n/);
  expect(parseBenchSheet(text)).toEqual(parseBenchSheet(demoSheetText(name)));
});
