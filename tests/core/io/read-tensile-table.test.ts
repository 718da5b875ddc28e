import { readFileSync } from 'node:fs';
import { cpuUsage } from 'node:process';

import { describe, expect, it } from 'vitest';

import { TABLE_LIMITS } from '../../../core/io/delimited-text.ts';
import { readTensileTable } from '../../../core/io/read-tensile-table.ts';
import type { TableWish, TensileTable } from '../../../core/io/tensile-table.ts';
import { sayFault } from '../../../core/words/say.ts';
import { sayTableQuestion } from '../../../core/words/table-words.ts';
import { faultOf } from '../../help/fault-of.ts';

const points = (table: TensileTable) => table.curves.map((curve) => curve.points);
const strands = (table: TensileTable) =>
  table.curves.map(
    ({ direction, specimen, cycle, branch }) => `${direction ?? '-'} ${specimen} ${cycle} ${branch}`,
  );
const meanings = (header: string) =>
  readTensileTable(`${header}\n1;2;3;4;5\n`).columns.map(({ meaning, unit }) => [meaning, unit]);

/** Forces in a table with these cells. */
const read = (...cells: string[]) =>
  points(
    readTensileTable(`Extension (%)\tForce (N)\n${cells.map((cell, i) => `${i}\t${cell}\n`).join('')}`),
  )[0]!.map(([, force]) => force);
const ask = (text: string, wish: TableWish = {}) => readTensileTable(text, wish).questions;
const block = (n: number) => `Specimen ${n}\n0;0\n10;${n}\n\n`;
const cycle = (n: number, k: number) => `${n};${k};0;0\n${n};${k};20;3\n${n};${k};1;0\n`;

describe('columns', () => {
  it.each<[string, [string, string | null], [string, string | null]]>([
    ['Extension (%);Force [N]', ['extension', '%'], ['force', 'N']],
    ['Extension [mm];Load / gf', ['extension', 'mm'], ['force', 'gf']],
    ['Tensile strain %;Load kgf', ['extension', '%'], ['force', 'kgf']],
    ['extension_mm;force_N', ['extension', 'mm'], ['force', 'N']],
    ['Dehnung [%];Standardkraft in N', ['extension', '%'], ['force', 'N']],
    ['Längenänderung (mm);Zugkraft (cN)', ['extension', 'mm'], ['force', 'cN']],
    ['Traversenweg / mm;Prüfkraft / N', ['extension', 'mm'], ['force', 'N']],
    ['Allongement (%);Effort (daN)', ['extension', '%'], ['force', 'daN']],
    ['Déplacement [mm];Charge [N/5 cm]', ['extension', 'mm'], ['force', 'N/5 cm']],
    ['Alargamiento (%);Fuerza (N)', ['extension', '%'], ['force', 'N']],
    ['Deformación [mm/mm];Carga [lbf]', ['extension', 'ratio'], ['force', 'lbf']],
    ['Allungamento (%);Forza (N/m)', ['extension', '%'], ['force', 'N/m']],
    ['Corsa (mm);Carico (kg)', ['extension', 'mm'], ['force', 'kgf']],
    ['Alongamento (%);Força (gf/cm)', ['extension', '%'], ['force', 'gf/cm']],
    ['Deslocamento [in];Carga [cN/cm]', ['extension', 'in'], ['force', 'cN/cm']],
    ['Stretch ratio [-];Tension [N per m]', ['extension', 'stretch ratio'], ['force', 'N/m']],
    [
      'Dehnung\u00a0[\u00a0%\u00a0];Kraft\u00a0[\u00a0N\u00a0/\u00a050\u00a0mm\u00a0]',
      ['extension', '%'],
      ['force', 'N/5 cm'],
    ],
  ])('%s', (header, extension, force) => {
    expect(meanings(`${header};Zeit (s);Note;Bemerkung`).slice(0, 2)).toEqual([extension, force]);
  });

  it('tells the names of everything else from extension and force', () => {
    const header =
      'Load cycle;Specimen width (mm);Test direction;Speed (mm/min);Zugspannung (MPa);Dehnung (%);Kraft (N)';
    const { columns } = readTensileTable(`${header}\n1;50;warp;500;0;0;0\n1;50;warp;500;1;9;1\n`);
    expect(columns.map(({ meaning }) => meaning)).toEqual([
      'cycle',
      'stripWidth',
      'direction',
      'ignored',
      'ignored',
      'extension',
      'force',
    ]);
  });

  it('reads units in a row of their own, and quoted headers over two lines', () => {
    const table = readTensileTable('Dehnung;Kraft;Breite\n%;[cN];(mm)\n0;0;50\n10;150;49\n');
    expect(points(table)).toEqual([
      [
        [0, 0],
        [10, 1.5],
      ],
    ]);
    expect(table.curves[0]!.widths).toEqual([
      [0, 50],
      [10, 49],
    ]);
    expect(table.curves[0]!.rows).toEqual([3, 4]);
    expect(points(readTensileTable('"Extension\n[%]","Force\n[N]"\n0,0\n10,1.5\n'))).toEqual([
      [
        [0, 0],
        [10, 1.5],
      ],
    ]);
  });

  it('passes over a byte order mark and a line that names the separator', () => {
    const table = readTensileTable('\uFEFFsep=;\r\nExtension (%);Force (N)\r\n0;0\r\n1,5;2\r\n');
    expect(points(table)).toEqual([
      [
        [0, 0],
        [1.5, 2],
      ],
    ]);
    expect(table.curves[0]!.rows).toEqual([3, 4]);
  });
});

describe('numbers', () => {
  it('in every spelling that reads one way only', () => {
    expect(read('0,5', '1.234,5', '1\u00a0234,5', "1'234,5", '1,5e3', '+2', '2,')).toEqual([
      0.5, 1234.5, 1234.5, 1234.5, 1500, 2, 2,
    ]);
    expect(read('0.5', '1,234.5', '1 234.5', '1.5E+3', '.5', '1,234,567', '−0.01')).toEqual([
      0.5, 1234.5, 1234.5, 1500, 0.5, 1_234_567, -0.01,
    ]);
  });

  it('asks for the decimal mark where every number reads both ways, and takes the answer', () => {
    const text = 'Extension (%);Force (N)\n1,250;1,500\n10,250;3,000\n';
    const [question] = readTensileTable(text).questions;
    expect(question).toEqual({
      asks: 'decimalMark',
      row: 2,
      column: 1,
      header: 'Extension (%)',
      value: '1,250',
    });
    expect(points(readTensileTable(text, { decimalMark: 'comma' }))).toEqual([
      [
        [1.25, 1.5],
        [10.25, 3],
      ],
    ]);
    expect(faultOf(() => readTensileTable(text, { decimalMark: 'point' })).code).toBe('table/thousands-mark');
  });
});

describe('units', () => {
  /** Exact by definition; ISO 80000-3 and -4, from memory. The strip is 50 mm wide, its gauge 200 mm. */
  it.each<[string, number]>([
    ['N', 1],
    ['mN', 1e-3],
    ['cN', 1e-2],
    ['daN', 10],
    ['kN', 1e3],
    ['gf', 9.80665e-3],
    ['kgf', 9.80665],
    ['lbf', 4.4482216152605],
    ['N/m', 0.05],
    ['N/cm', 5],
    ['N/mm', 50],
    ['N/5 cm', 1],
    ['cN/cm', 0.05],
    ['gf/cm', 5 * 9.80665e-3],
  ])('force in %s', (unit, newtons) => {
    const table = readTensileTable(`Extension (%);Force (${unit})\n0;0\n10;3\n`, { widthMm: 50 });
    expect(points(table)[0]![1]![1]).toBeCloseTo(3 * newtons, 12);
  });

  it.each<[string, string, number]>([
    ['%', '12.5', 12.5],
    ['ratio', '0.125', 12.5],
    ['mm', '25', 12.5],
    ['cm', '2.5', 12.5],
    ['in', '1', 12.7],
    ['stretch ratio', '1.1250', 12.5],
  ])('extension in %s', (unit, value, percent) => {
    const start = unit === 'stretch ratio' ? 1 : 0;
    const table = readTensileTable(`Extension (${unit});Force (N)\n${start};0\n${value};3\n`, {
      gaugeMm: 200,
    });
    expect(points(table)[0]![1]![0]).toBeCloseTo(percent, 10);
  });

  /** Worked example of ASTM D4964, L = E C / 200: E = 50 %, C = 250 mm, L = 62.5 mm (formula from memory). */
  it('turns the travel of a loop into extension', () => {
    const text = 'Travel (mm);Load (N)\n0;0\n62.5;12\n';
    const wish = { test: 'loop', circumferenceMm: 250 } as const;
    expect(points(readTensileTable(text, wish))).toEqual([
      [
        [0, 0],
        [50, 12],
      ],
    ]);
    const named = readTensileTable(`Loop circumference;250 mm\n\n${text}`);
    expect(named.test).toBe('loop');
    expect(points(named)).toEqual([
      [
        [0, 0],
        [50, 12],
      ],
    ]);
  });

  it('widths in % and as ratio count from the unstretched strip', () => {
    for (const [unit, value] of [
      ['%', '90'],
      ['ratio', '0.9'],
      ['mm', '67.5'],
      ['cm', '6.75'],
    ]) {
      const table = readTensileTable(`Extension (%);Force (N);Width (${unit})\n0;0;\n10;3;${value}\n`, {
        widthMm: 75,
      });
      expect(table.curves[0]!.widths).toEqual([[10, 67.5]]);
      expect(table.curves[0]!.widthRows).toEqual([3]);
    }
  });
});

describe('questions', () => {
  it('asks for missing units and takes the answers', () => {
    const text = 'Weg;Kraft;Breite\n0;0;50\n20;300;45\n';
    expect(ask(text)).toMatchObject([
      { asks: 'unit', column: 1, header: 'Weg', meaning: 'extension', likely: 'mm' },
      { asks: 'unit', column: 2, header: 'Kraft', meaning: 'force', likely: 'cN' },
      { asks: 'unit', column: 3, header: 'Breite', meaning: 'width', likely: 'mm' },
    ]);
    const columns = [
      { column: 1, unit: 'mm' },
      { column: 2, unit: 'gf' },
      { column: 3, unit: 'mm' },
    ] as const;
    expect(ask(text, { columns })).toEqual([{ asks: 'gaugeMm', column: 1, header: 'Weg', unit: 'mm' }]);
    const table = readTensileTable(text, { columns, gaugeMm: 100 });
    expect(table.questions).toEqual([]);
    expect(table.curves[0]!.points[1]).toEqual([20, 300 * 0.00980665]);
    expect(table.columns.map(({ from }) => from)).toEqual(['wish', 'wish', 'wish']);
  });

  it('asks for circumference and width where the columns need them', () => {
    expect(ask('Travel (mm);Load (N/m)\n0;0\n20;3\n', { test: 'loop' })).toEqual([
      { asks: 'circumferenceMm', column: 1, header: 'Travel (mm)', unit: 'mm' },
      { asks: 'widthMm', column: 2, header: 'Load (N/m)', unit: 'N/m' },
    ]);
  });

  it('asks which column it is where two claim to be, or none', () => {
    const two = ask('Extension (%);Force (N);Tension (N/m)\n0;0;0\n10;1;20\n', { widthMm: 50 });
    expect(two).toMatchObject([
      { asks: 'column', meaning: 'force', candidates: [{ column: 2 }, { column: 3 }] },
    ]);
    const none = ask('0,0;0,0\n10,5;1,5\n');
    expect(none.map((question) => question.asks === 'column' && question.meaning)).toEqual([
      'extension',
      'force',
    ]);
    const columns = [
      { column: 2, meaning: 'extension', unit: '%' },
      { column: 1, meaning: 'force', unit: 'N' },
    ] as const;
    expect(points(readTensileTable('0,0;0,0\n10,5;1,5\n', { columns }))).toEqual([
      [
        [0, 0],
        [1.5, 10.5],
      ],
    ]);
  });

  it('asks for a direction that it does not know', () => {
    const text = 'Richtung;Dehnung (%);Kraft (N)\nRolle 7;0;0\nRolle 7;10;1\n';
    const [question] = ask(text);
    expect(question).toEqual({ asks: 'direction', text: 'Rolle 7', row: 2, column: 1, header: 'Richtung' });
    expect(sayTableQuestion(question!).what).toBe(
      'Row 2, column 1 (Richtung): "Rolle 7" is not known as a direction.',
    );
    expect(strands(readTensileTable(text, { directions: { 'Rolle 7': 'weft' } }))).toEqual(['weft 1 1 load']);
  });
});

describe('strips and cycles', () => {
  it('side by side under titles, of unequal length', () => {
    const text =
      'Warp 1\t\tWarp 2\t\tWeft 1\t\nExtension [%]\tLoad [N]\tExtension [%]\tLoad [N]\tExtension [%]\tLoad [N]\n' +
      '0\t0\t0\t0\t0\t0\n10\t1\t10\t2\t10\t3\n\t\t20\t4\t\t\n';
    const table = readTensileTable(text);
    expect(strands(table)).toEqual(['warp 1 1 load', 'warp 2 1 load', 'weft 1 1 load']);
    expect(points(table)[1]).toEqual([
      [0, 0],
      [10, 2],
      [20, 4],
    ]);
    expect(table.curves[1]!.rows).toEqual([3, 4, 5]);
  });

  it('several forces over one extension: specimens by number, or load beside return', () => {
    const three = readTensileTable('Extension (%);Force 1 (N);Force 2 (N);Force 3 (N)\n0;0;0;0\n10;1;2;3\n');
    expect(strands(three)).toEqual(['- 1 1 load', '- 2 1 load', '- 3 1 load']);
    const both = readTensileTable('Elongation (%);Load (N);Unload (N)\n0;0;0\n10;1,5;0,9\n20;3;3\n');
    expect(strands(both)).toEqual(['- 1 1 load', '- 1 1 return']);
    expect(points(both)[1]).toEqual([
      [0, 0],
      [10, 0.9],
      [20, 3],
    ]);
  });

  it('under one another, with the header once or every time, and a footer', () => {
    const once = readTensileTable(
      `Direction: weft\nExtension (%);Force (N)\n${block(1)}${block(2)}Mean;1,5\n`,
    );
    expect(strands(once)).toEqual(['weft 1 1 load', 'weft 2 1 load']);
    expect(once.findings).toContainEqual({
      code: 'table/rows-passed-over',
      facts: { row: 11, count: 1, value: 'Mean' },
    });
    const header = 'Extension (%);Force (N)\n';
    const untold = readTensileTable(`${header}0;0\n10;1\n\n${header}0;0\n10;2\n`);
    expect(strands(untold)).toEqual(['- 1 1 load', '- 2 1 load']);
  });

  it('parts load and return at the peak and leaves out a hold', () => {
    const table = readTensileTable(
      'Cycle;Extension (%);Force (N)\n1;0;0\n1;20;3\n1;20;2,9\n1;20;2,8\n1;10;1\n1;1;0\n',
    );
    expect(points(table)).toEqual([
      [
        [0, 0],
        [20, 3],
      ],
      [
        [20, 2.8],
        [10, 1],
        [1, 0],
      ],
    ]);
    expect(table.findings).toContainEqual({
      code: 'table/hold-left-out',
      facts: { specimen: 1, cycle: 1, row: 4, count: 1 },
    });
  });

  it('takes the word of a branch column', () => {
    const text =
      'Phase;Dehnung (%);Kraft (N)\nBelastung;0;0\nBelastung;20;3\nEntlastung;19;2\nEntlastung;1;0\nBelastung;2;0\nBelastung;20;3\n';
    expect(strands(readTensileTable(text))).toEqual(['- 1 1 load', '- 1 1 return', '- 1 2 load']);
  });

  it('counts the cycles of a noisy series by its reversals and says so', () => {
    const lines = ['Time (s),Extension (%),Force (N)'];
    // Five cycles to 80 % in 4000 readings, with a ripple of 0.3 %: far below the 5 % that count as a reversal.
    for (let i = 0; i <= 4000; i++) {
      const phase = (i / 800) * 2 * Math.PI;
      const extension = 40.5 - 40 * Math.cos(phase) + 0.3 * Math.sin(i * 2.4);
      lines.push(`${i / 10},${extension.toFixed(3)},${(0.15 * extension).toFixed(4)}`);
    }
    const table = readTensileTable(lines.join('\n'));
    expect(table.curves).toHaveLength(10);
    expect(table.defaultCycle).toBe(5);
    expect(table.findings.map(({ code }) => code)).toEqual(
      expect.arrayContaining(['table/cycles-counted', 'table/cycle-chosen']),
    );
    for (const curve of table.curves) {
      const extensions = curve.points.map(([extension]) => extension);
      expect(Math.max(...extensions)).toBeGreaterThan(80);
      expect(Math.min(...extensions)).toBeLessThan(1.5);
    }
  });

  it('takes the last cycle that is complete in every specimen, and names one that is cut off', () => {
    const table = readTensileTable(
      `Specimen;Cycle;Extension (%);Force (N)\n${cycle(1, 1)}${cycle(1, 2)}${cycle(2, 1)}2;2;0;0\n2;2;20;3\n`,
    );
    expect(table.defaultCycle).toBe(1);
    expect(table.findings).toContainEqual({
      code: 'table/cycle-incomplete',
      facts: { direction: '', specimen: 2, cycle: 2, row: 12 },
    });
  });

  it('takes a width that never changes for that of the unstretched strip', () => {
    const table = readTensileTable('Extension (%);Force (N/m);Width (cm)\n0;0;5\n10;20;5\n20;40;5\n');
    expect(table.curves[0]).toMatchObject({
      stripWidthMm: 50,
      widths: [],
      points: [
        [0, 0],
        [10, 1],
        [20, 2],
      ],
    });
    expect(table.findings[0]).toMatchObject({
      code: 'table/width-is-constant',
      facts: { column: 3, widthMm: 50 },
    });
  });
});

describe('the lines above the table', () => {
  it('give gauge, width, kind of test, strip and date', () => {
    const table = readTensileTable(
      'Prüfbericht;4711\nDatum;14.03.2025\nEinspannlänge;100,0;mm\nProbenbreite [mm];50\nPrüfverfahren: Streifen\nRichtung: Kette\nProbe;3\n\nWeg [mm];Kraft [N]\n0,0;0,0\n20,5;3,1\n',
    );
    expect(table.named).toEqual({
      gaugeMm: { value: 100, row: 3, column: 2 },
      circumferenceMm: null,
      widthMm: { value: 50, row: 4, column: 2 },
      test: { value: 'strip', row: 5, column: 1 },
      date: { value: '14.03.2025', row: 2, column: 2 },
    });
    expect(table.curves[0]).toMatchObject({ direction: 'warp', specimen: 3, stripWidthMm: 50 });
  });

  it('a length without a unit is not used but named', () => {
    const table = readTensileTable('Gauge length;100\nTravel (mm);Force (N)\n0;0\n20;3\n');
    expect(table.questions).toMatchObject([{ asks: 'gaugeMm' }]);
    expect(table.findings).toEqual([
      { code: 'table/value-without-unit', facts: { row: 1, column: 2, key: 'Gauge length', value: '100' } },
    ]);
  });

  it('a table of results above the readings is passed over', () => {
    const table = readTensileTable(
      '"Specimen label","Width (mm)","Max. load (N)","Extension at break (mm)"\n"A","50","12","80"\n\n"Time (s)","Extension (mm)","Load (N)"\n"0","0","0"\n"1","8","1.2"\n',
      { gaugeMm: 100 },
    );
    expect(table.curves).toMatchObject([
      {
        specimenName: null,
        rows: [5, 6],
        points: [
          [0, 0],
          [8, 1.2],
        ],
      },
    ]);
  });

  it('counts of specimens and cycles name no strip', () => {
    const table = readTensileTable('Number of specimens;3\nCycles;5\nExtension (%);Force (N)\n0;0\n20;3\n');
    expect(table.curves[0]).toMatchObject({ specimen: 1, specimenName: null, cycle: 1 });
  });
});

describe('refusals name row and column', () => {
  const head = 'Extension (%);Force (N)\n0;0\n';
  it.each<[string, string, string, RegExp, TableWish?]>([
    ['text', `${head}10;abc\n`, 'table/not-a-number', /^Row 3, column 2 \(Force \(N\)\): "abc"/],
    [
      'a row of text',
      `${head}n.b.;x\n20;3\n`,
      'table/not-a-number',
      /^Row 3, column 1 \(Extension \(%\)\): "n\.b\."/,
    ],
    ['NaN', `${head}10;NaN\n`, 'table/not-finite', /^Row 3, column 2 .*"NaN"/],
    ['infinity', `${head}-Inf;1\n`, 'table/not-finite', /^Row 3, column 1 .*"-Inf"/],
    ['too large a number', `${head}10;1e999\n`, 'table/not-finite', /^Row 3, column 2 .*"1e999"/],
    ['an empty cell', `${head}10;\n20;3\n`, 'table/empty-cell', /^Row 3, column 2 .*empty/],
    ['a dash', `${head}10;-\n20;3\n`, 'table/empty-cell', /^Row 3, column 2 .*"-" is no reading/],
    [
      'a cell too many',
      `${head}10;1;7\n`,
      'table/ragged-row',
      /^Row 3, column 3: the row has 3 cells, its header 2/,
    ],
    [
      'a cell too few',
      'Extension (%)  Force (N)\n0  0\n10\n',
      'table/ragged-row',
      /^Row 3, column 2: the row has 1 cell, /,
    ],
    [
      'commas for both',
      'Extension (%),Force (N)\n0,0,0,1\n',
      'table/commas-both-ways',
      /^Row 2, column 3.*comma/,
    ],
    [
      'the other mark',
      `${head}10,5;1,5\n11,5;1.75\n`,
      'table/other-decimal-mark',
      /^Row 4, column 2.*"1\.75".*decimal commas/,
    ],
    [
      'thousands',
      `${head}10,5;1,5\n11,5;1.750\n`,
      'table/thousands-mark',
      /^Row 4, column 2.*"1\.750".*two ways/,
    ],
    ['an open quote', `${head}10;"1,5\n`, 'table/open-quote', /^Row 3, column 2/],
    ['text behind a quote', `${head}"10"5;1\n`, 'table/stray-after-quote', /^Row 3, column 1: "5"/],
    [
      'a broken cycle',
      'Cycle;Extension (%);Force (N)\n1;0;0\n1.5;10;1\n',
      'table/not-a-cycle',
      /^Row 3, column 1 \(Cycle\): "1.5"/,
    ],
    [
      'an unknown branch',
      'Branch;Extension (%);Force (N)\nsideways;0;0\n',
      'table/not-a-branch',
      /^Row 2, column 1/,
    ],
    [
      'forces with the wrong sign',
      `${head}10;-1\n20;-3\n`,
      'table/negative',
      /^Row 3, column 2.*force "-1" lies far below zero/,
    ],
    [
      'a stretch ratio as ratio',
      'Stretch ratio;Force (N)\n0;0\n0,2;3\n',
      'table/negative',
      /^Row 2, column 1.*unstretched length/,
    ],
    [
      'no width',
      'Extension (%);Force (N);Width (mm)\n0;0;0\n5;1;49\n',
      'table/width-not-positive',
      /^Row 2, column 3.*"0" wide/,
    ],
    ['no numbers', 'Dear Sir;Madam\n', 'table/no-numbers', /^The whole file: in 1 row /],
    ['nothing', '', 'table/no-numbers', /^The whole file/],
    [
      'a spreadsheet',
      'PK\u0003\u0004;1\n',
      'table/not-text',
      /^The whole file: .* row 1, character 3 is U\+0003/,
    ],
    [
      'a column that is not there',
      head,
      'table/no-such-column',
      /^The whole file: there is no column 3; it has 2 columns/,
      { columns: [{ column: 3 }] },
    ],
    [
      'a unit that does not fit',
      head,
      'table/unit-unfit',
      /column 1 \(Extension \(%\)\) is taken as extension, which cannot be in N/,
      { columns: [{ column: 1, unit: 'N' }] },
    ],
    ['a gauge of nothing', head, 'table/length-unfit', /the gauge length is given as 0 mm/, { gaugeMm: 0 }],
    [
      'too many columns',
      `${'a;'.repeat(1500)}\n${'1;'.repeat(1500)}\n`,
      'table/too-large',
      /1,501 columns; at most 1,000 are read/,
    ],
    [
      'too many rows',
      `${head}${'1;1\n'.repeat(400_000)}`,
      'table/too-large',
      /400,002 rows; at most 400,000/,
    ],
    [
      'too much text',
      `${head}${' '.repeat(TABLE_LIMITS.characters)}`,
      'table/too-large',
      /characters; at most 33,554,432/,
    ],
  ])('%s', (...[, text, code, what, wish]) => {
    const fault = faultOf(() => readTensileTable(text, wish));
    expect(fault.code).toBe(code);
    expect(sayFault(fault).what).toMatch(what);
    expect(sayFault(fault).remedy).toMatch(/\.$/);
  });

  it('leaves rows without a reading out where that is wished, and says which', () => {
    const table = readTensileTable(`${head}10;NaN\n15;\n20;3\n`, { missing: 'leave out' });
    expect(points(table)).toEqual([
      [
        [0, 0],
        [20, 3],
      ],
    ]);
    expect(table.findings).toContainEqual({
      code: 'table/rows-left-out',
      facts: { row: 3, column: 2, header: 'Force (N)', value: 'NaN', count: 2 },
    });
  });
});

/** The open knits (see tests/reference/data/knit-uniaxial-2023.source.txt) come in through the same door. */
describe('the open knit curves', () => {
  const text = readFileSync(new URL('../../reference/data/knit-uniaxial-2023.csv', import.meta.url), 'utf8');
  const wish: TableWish = {
    missing: 'leave out',
    columns: [
      { column: 2, meaning: 'stripWidth', unit: 'm' },
      { column: 4, meaning: 'force', unit: 'N/m' },
      { column: 5, meaning: 'extension', unit: 'stretch ratio' },
      { column: 6, meaning: 'width', unit: 'ratio' },
    ],
  };

  it('ask what they leave open', () => {
    expect(readTensileTable(text).questions).toMatchObject([
      {
        asks: 'column',
        meaning: 'extension',
        candidates: [{ header: 'lambda_long' }, { header: 'lambda_lat' }],
      },
    ]);
    const fault = faultOf(() => readTensileTable(text, { ...wish, missing: 'refuse' }));
    expect(sayFault(fault).what).toBe(
      'Row 134, column 5 (lambda_long): "NaN" is no number that can be measured.',
    );
  });

  it('read as 24 specimens, with force, stretch and width of every row', () => {
    const table = readTensileTable(text, wish);
    expect(table.questions).toEqual([]);
    const rows = text.trim().split('\n');
    expect(table.curves).toHaveLength(24);
    expect(table.curves.reduce((sum, { rows: own }) => sum + own.length, 0)).toBe(168 - 3);
    for (const curve of table.curves) {
      expect(curve.widths).toHaveLength(curve.points.length);
      for (const [i, row] of curve.rows.entries()) {
        const [sample, width, force, , stretch, narrow] = rows[row - 1]!.split(',');
        expect(curve.specimenName).toBe(sample);
        expect(curve.stripWidthMm).toBe(Number((Number(width) * 1000).toFixed(6)));
        expect(curve.points[i]![0]).toBeCloseTo((Number(stretch) - 1) * 100, 9);
        // Widths stand with four decimals: 0.05 mm of 35 mm is 0.14 %; N/m with two: 0.005 N/m of 4 is as much.
        expect(Math.abs(curve.points[i]![1] - Number(force))).toBeLessThan(0.0028 * Number(force));
        expect(curve.widths[i]![1]).toBeCloseTo(Number(narrow) * curve.stripWidthMm!, 9);
      }
    }
  });
});

it('reads 5 MB in well under a second of work', () => {
  const lines = ['Time (s),Extension (%),Force (N)'];
  for (let i = 0; lines.length < 240_000; i++) {
    const rise = 1 - Math.cos(i / 2000);
    lines.push(`${(i / 100).toFixed(2)},${(40 * rise).toFixed(3)},${(6 * rise).toFixed(4)}`);
  }
  const text = lines.join('\n');
  expect(text.length).toBeGreaterThan(5e6);
  readTensileTable(text.slice(0, text.lastIndexOf('\n', 1e6)));
  const before = cpuUsage();
  const table = readTensileTable(text);
  const { user, system } = cpuUsage(before);
  expect(table.curves.length).toBeGreaterThan(30);
  // Processor time, garbage collection on other threads included; three times the usual, for a busy machine.
  expect((user + system) / 1e6).toBeLessThan(2);
});
