import { describe, expect, it } from 'vitest';
import type { BodyTape, TapeReading } from '../../../core/body/body-tape.ts';
import { nearestSize, type SizeChart } from '../../../core/body/size-chart.ts';
import { heightRows, tapeRows } from '../../../core/sheet/tape-table.ts';

const reading = (
  name: string,
  side: 'left' | 'middle' | 'right',
  girth: number,
  height: number,
): TapeReading => ({
  line: {
    name,
    side,
    kind: side === 'middle' ? 'trunk' : 'limb',
    center: [0, height, 0],
    normal: [0, 1, 0],
    surface: 'taut',
  },
  girth,
  points: new Float64Array(),
  height,
});

const tape: BodyTape = {
  landmarks: {
    chestFront: { point: [0, 1.2, 0.1], how: 'found' },
    waistFront: { point: [0, 1.04, 0.1], how: 'placed' },
    thighLeft: { point: [0.1, 0.75, 0.1], how: 'recipe' },
  },
  floor: 0,
  forward: [0, 0, 1],
  readings: [
    reading('chest', 'middle', 1.0004, 1.2),
    reading('waist', 'middle', 0.7131, 1.04),
    reading('thigh', 'left', 0.57, 0.75),
    reading('thigh', 'right', 0.58, 0.75),
    reading('strap line', 'middle', 0.9, 1.3),
  ],
  heights: [
    { name: 'stature', height: 1.7 },
    { name: 'crotch', height: 0.76 },
  ],
  findings: [],
};

const chart: SizeChart = {
  name: 'test',
  source: '',
  isInvented: false,
  sizes: ['S', 'M'],
  rows: [
    { measure: 'bust', values: [0.96, 1] },
    { measure: 'waist', values: [0.68, 0.72] },
    { measure: 'thigh', values: [0.55, null] },
    { measure: 'crotchHeight', values: [0.75, 0.77] },
  ],
};

describe('tapeRows', () => {
  const rows = tapeRows(tape, { chart, size: 'M' });
  const row = (name: string, side = 'middle') => rows.find((one) => one.name === name && one.side === side)!;

  it('prints body, chart and body minus chart in mm, a sign before every difference', () => {
    expect(row('waist')).toEqual({
      name: 'waist',
      side: 'middle',
      heightMm: '1040',
      girthMm: '713.1',
      chartMm: '720.0',
      differenceMm: '−6.9',
      how: 'placed',
    });
    expect(tapeRows(tape, { chart, size: 'S' }).map(({ differenceMm }) => differenceMm)).toEqual([
      '+40.4',
      '+33.1',
      '+20.0',
      '+30.0',
      '',
    ]);
  });

  it('holds a chest beside a chart’s bust, leaves cells empty that the chart leaves empty', () => {
    expect([row('chest').chartMm, row('chest').differenceMm]).toEqual(['1000.0', '+0.4']);
    expect([row('thigh', 'left').chartMm, row('thigh', 'left').differenceMm]).toEqual(['', '']);
    expect([row('thigh', 'left').how, row('strap line').how]).toEqual(['recipe', 'own']);
  });

  it('stands without a chart', () => {
    expect(
      tapeRows(tape, null).every(({ chartMm, differenceMm }) => chartMm === '' && differenceMm === ''),
    ).toBe(true);
  });
});

describe('heightRows', () => {
  it('compares the crotch with its height on the chart, nothing else', () => {
    expect(heightRows(tape, { chart, size: 'M' })).toEqual([
      { name: 'stature', heightMm: '1700', chartMm: '', differenceMm: '' },
      { name: 'crotch', heightMm: '760', chartMm: '770.0', differenceMm: '−10.0' },
    ]);
  });
});

describe('nearestSize', () => {
  it('is the size that bust, waist and hip together are nearest to: M is off by 0.4 and 7 mm, S by 40 and 33', () => {
    expect(nearestSize(tape, chart)).toBe('M');
    expect(nearestSize({ ...tape, readings: [] }, chart)).toBe(null);
  });
});
