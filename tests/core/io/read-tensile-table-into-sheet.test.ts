import { readFileSync } from 'node:fs';

import { describe, expect, it } from 'vitest';

import { readTensileTable } from '../../../core/io/read-tensile-table.ts';
import { tensileIntoSheet } from '../../../core/io/tensile-into-sheet.ts';
import { sayFault } from '../../../core/words/say.ts';
import { demoSheet } from '../../help/demo-sheet.ts';
import { faultOf } from '../../help/fault-of.ts';

const demo = readFileSync(new URL('../../../assets/demo/tern-210-warp.tensile.csv', import.meta.url), 'utf8');

describe('the demo table', () => {
  it('says in its first line that it is invented', () => {
    expect(demo.split('\n')[0]).toMatch(/^Invented example/);
  });

  it('gives in its fifth cycle the warp strip of the demo sheet', () => {
    const table = readTensileTable(demo);
    expect(table).toMatchObject({
      separator: 'semicolon',
      decimalMark: 'comma',
      defaultCycle: 5,
      questions: [],
    });
    const { load, return: home, width, widthMm, findings } = tensileIntoSheet(table, { direction: 'warp' });
    const { warp, gaugeMm, widthMm: sheetWidth } = demoSheet('tern-210').stretch;
    expect(load).toEqual([warp.load]);
    expect(home).toEqual([warp.return!.toReversed()]);
    expect(width).toEqual([warp.width]);
    expect([widthMm, table.named.gaugeMm!.value]).toEqual([sheetWidth, gaugeMm]);
    expect(findings).toEqual([]);
  });

  it('gives an earlier cycle when asked', () => {
    const { load, cycle } = tensileIntoSheet(readTensileTable(demo), { direction: 'warp', cycle: 1 });
    expect(cycle).toBe(1);
    expect(load[0]!.at(-1)).toEqual([80, 13.48]);
  });

  it('says what it does not hold', () => {
    const fault = faultOf(() => tensileIntoSheet(readTensileTable(demo), { direction: 'weft' }));
    expect(sayFault(fault).what).toBe('The whole file: it holds no load curve in weft direction in cycle 5.');
  });
});

describe('tensileIntoSheet', () => {
  const head = 'Specimen;Branch;Extension (%);Force (N)\n';

  it('lists specimens apart, and those that are asked for', () => {
    const table = readTensileTable(
      'Specimen;Extension (%);Force (N)\n1;0;0\n1;10;1\n2;0;0\n2;10;2\n3;0;0\n3;10;3\n',
    );
    expect(tensileIntoSheet(table, { direction: null }).load.map((pairs) => pairs[1])).toEqual([
      [10, 1],
      [10, 2],
      [10, 3],
    ]);
    expect(tensileIntoSheet(table, { direction: null, specimens: [2] }).load).toEqual([
      [
        [0, 0],
        [10, 2],
      ],
    ]);
    expect(tensileIntoSheet(table, { direction: null })).not.toHaveProperty('return');
  });

  it('lets load and return meet at the peak that either of them saw', () => {
    const below = `${head}1;load;0;0\n1;load;80;12\n1;return;79,5;11,8\n1;return;2;0\n`;
    const meet = tensileIntoSheet(readTensileTable(below), { direction: null });
    expect(meet.return).toEqual([
      [
        [2, 0],
        [79.5, 11.8],
        [80, 12],
      ],
    ]);
    const above = `${head}1;load;0;0\n1;load;79,5;11,8\n1;return;80;12\n1;return;2;0\n`;
    expect(tensileIntoSheet(readTensileTable(above), { direction: null }).load).toEqual([
      [
        [0, 0],
        [79.5, 11.8],
        [80, 12],
      ],
    ]);
    const far = `${head}1;load;0;0\n1;load;80;12\n1;return;60;7\n1;return;2;0\n`;
    expect(tensileIntoSheet(readTensileTable(far), { direction: null }).return).toEqual([
      [
        [2, 0],
        [60, 7],
      ],
    ]);
  });

  it('sorts, merges what rounds to one extension, and takes a little below zero as zero', () => {
    const table = readTensileTable(
      'Extension (%);Force (N)\n-0.02;-0.01\n10.001;1.00001\n10.004;1.00003\n9.5;0.9\n20;3.000004\n',
    );
    const { load, findings } = tensileIntoSheet(table, { direction: null });
    expect(load).toEqual([
      [
        [0, 0],
        [9.5, 0.9],
        [10, 1],
        [20, 3],
      ],
    ]);
    expect(findings).toEqual([
      { code: 'table/negative-set-to-zero', facts: { direction: '', branch: 'load', specimen: 1, count: 1 } },
      { code: 'table/readings-merged', facts: { direction: '', branch: 'load', specimen: 1, count: 1 } },
    ]);
  });

  it('brings strips of another width to that of the sheet', () => {
    const table = readTensileTable('Extension (%);Force (N);Width (mm)\n0;0;100\n10;2;98\n', {
      widthMm: 100,
    });
    const { load, width, findings } = tensileIntoSheet(table, { direction: null, widthMm: 50 });
    expect(load).toEqual([
      [
        [0, 0],
        [10, 1],
      ],
    ]);
    expect(width).toEqual([
      [
        [0, 50],
        [10, 49],
      ],
    ]);
    expect(findings).toEqual([
      { code: 'table/strip-widths-differ', facts: { specimen: 1, widthMm: 100, sheetMm: 50 } },
    ]);
  });

  it('says which specimen was not let back', () => {
    const table = readTensileTable(
      `${head}1;load;0;0\n1;load;80;12\n1;return;2;0\n1;return;80;12\n2;load;0;0\n2;load;80;12\n`,
    );
    const { load, return: home, findings } = tensileIntoSheet(table, { direction: null });
    expect([load.length, home!.length]).toEqual([2, 1]);
    expect(findings).toContainEqual({
      code: 'table/no-return',
      facts: { direction: '', specimen: 2, cycle: 1 },
    });
  });
});
