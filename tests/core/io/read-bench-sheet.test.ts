import { describe, expect, it } from 'vitest';

import type { Fault } from '../../../core/fault/fault.ts';
import { parseBenchSheet, readBenchSheet } from '../../../core/io/read-bench-sheet.ts';
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
