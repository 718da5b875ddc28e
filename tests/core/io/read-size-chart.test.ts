import { describe, expect, it } from 'vitest';
import { INVENTED_CHARTS } from '../../../core/body/size-chart-invented.ts';
import { readSizeChart } from '../../../core/io/read-size-chart.ts';
import { sayFault } from '../../../core/words/say.ts';
import { faultOf } from '../../help/fault-of.ts';

const table = (...lines: string[]): string => lines.join('\n');
const full = table(
  'name,Our blocks',
  'unit,mm',
  'source,fit form 3',
  'measure,S,M',
  'waist,680,720',
  'Under-bust,,755',
);

describe('readSizeChart', () => {
  it('reads a table: head, sizes, names as people write them, empty cells', () => {
    const chart = readSizeChart(full, 'chart.csv');
    expect(chart).toEqual({
      name: 'Our blocks',
      source: 'fit form 3',
      isInvented: false,
      sizes: ['S', 'M'],
      rows: [
        { measure: 'waist', values: [0.68, 0.72] },
        { measure: 'underbust', values: [null, 0.755] },
      ],
    });
  });

  it('takes cm where no unit is given, decimal commas, semicolons, inches (exactly 25.4 mm)', () => {
    const german = readSizeChart(table('measure;38', 'waist;72,5', 'hip;97,0'), 'a.csv');
    expect(german.name).toBe('a.csv');
    expect(german.rows[0]!.values[0]).toBeCloseTo(0.725, 12);
    const inches = readSizeChart(table('unit,in', 'measure,8', 'waist,28'), 'b.csv');
    expect(inches.rows[0]!.values[0]).toBeCloseTo(0.7112, 12);
  });

  it('reads JSON', () => {
    const text = JSON.stringify({
      snugfieldChart: 1,
      name: 'J',
      unit: 'cm',
      sizes: ['S'],
      rows: { waist: [68], stature: [168] },
    });
    const chart = readSizeChart(text, 'x.json');
    expect(chart.rows.map(({ measure, values }) => [measure, values[0]])).toEqual([
      ['waist', 0.68],
      ['stature', 1.68],
    ]);
  });

  it.each([
    ['no sizes', table('measure', 'waist'), 'chart/no-sizes', ['measure']],
    ['no rows', 'measure,S', 'chart/no-rows', ['chart.csv']],
    [
      'a measure that is none',
      table('measure,S', 'elbow room,80'),
      'chart/unknown-measure',
      ['Row 2', 'elbow room', 'waist'],
    ],
    ['a size twice', table('measure,S,S', 'waist,68,72'), 'chart/twice', ['size', 'S']],
    ['a measure twice', table('measure,S', 'waist,68', 'waist,70'), 'chart/twice', ['Row 3', 'waist']],
    ['a unit that is none', table('unit,ell', 'measure,S', 'waist,68'), 'chart/bad-unit', ['ell', 'mm, cm']],
    ['no number', table('measure,S,M', 'waist,68,7o'), 'chart/bad-value', ['Row 2', 'column 3', 'M', '7o']],
    [
      'half a girth of a child',
      table('unit,mm', 'measure,S', 'waist,68'),
      'chart/out-of-range',
      ['Row 3', '68 mm', 'S'],
    ],
    ['a short row', table('measure,S,M', 'waist,68'), 'chart/ragged-row', ['Row 2', '2 cells', '3']],
    [
      'a size in JSON too many',
      '{"snugfieldChart":1,"name":"J","unit":"cm","sizes":["S"],"rows":{"waist":[68,70]}}',
      'chart/ragged-row',
      ['Row 1'],
    ],
    ['JSON of another kind', '{"sizes":[]}', 'file/wrong-shape', ['snugfieldChart']],
  ])('refuses %s and names the place', (_, text, code, parts) => {
    const fault = faultOf(() => readSizeChart(text, 'chart.csv'));
    expect(fault.code).toBe(code);
    const { what, remedy } = sayFault(fault);
    for (const part of parts) expect(`${what} ${remedy}`).toContain(part);
  });
});

describe('the invented charts', () => {
  it('say that they are invented, and step by 4 cm up to 104, then by 6 (EN 13402-3, women, from memory)', () => {
    const { women, men } = INVENTED_CHARTS;
    for (const chart of [women, men]) {
      expect(chart.isInvented).toBe(true);
      expect(chart.source).toContain('Invented');
      for (const { values } of chart.rows) {
        expect(values).toHaveLength(chart.sizes.length);
        expect(values).toEqual([...values].sort((a, b) => a! - b!));
      }
    }
    const bust = women.rows.find(({ measure }) => measure === 'bust')!.values;
    const steps = bust.slice(1).map((value, i) => Math.round(100 * (value! - bust[i]!)));
    expect(steps).toEqual([4, 4, 4, 4, 4, 4, 4, 6, 6]);
  });
});
