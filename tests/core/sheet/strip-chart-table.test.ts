import { csvParse } from 'd3-dsv';
import { describe, expect, it } from 'vitest';
import { STRIP_TABLE_COLUMNS, stripTable } from '../../../core/sheet/strip-chart-table.ts';
import { pretendCharted } from '../../help/pretend-evidence.ts';

describe('the table of strips', () => {
  const name = 'Heron, "light"\nsecond dye';
  const fabrics = [
    pretendCharted({ specimens: 3, name }),
    pretendCharted({ letter: 'B', withReturn: false, withWidth: false }),
  ];
  // Read by another program's reader of comma-separated text (d3-dsv).
  const rows = csvParse(stripTable(fabrics));

  it('has its columns, and as many rows as readings, specimens and fitted points', () => {
    expect(rows.columns).toEqual([...STRIP_TABLE_COLUMNS]);
    const count = fabrics
      .flatMap(({ strips }) => Object.values(strips))
      .flatMap(({ load, return: back, width }) => [
        { ...load, points: load.fitted.extensions.length },
        ...(back ? [{ ...back, points: back.fitted.extensions.length }] : []),
        { ...width, points: width.fitted.extensions.length },
      ])
      .reduce(
        (sum, { readings, specimens, points }) => sum + readings.length + specimens.flat().length + points,
        0,
      );
    expect(rows).toHaveLength(count);
  });

  it('gives names back as they are', () => {
    expect(new Set(rows.filter(({ fabric }) => fabric === 'A').map((row) => row['name']))).toEqual(
      new Set([name]),
    );
  });

  it('gives means, deviations and residuals back to seven figures', () => {
    const { readings } = fabrics[0]!.strips.weft.return!;
    const means = rows.filter(
      (row) =>
        row['fabric'] === 'A' &&
        row['direction'] === 'weft' &&
        row['branch'] === 'return' &&
        row['row'] === 'mean',
    );
    expect(means).toHaveLength(readings.length);
    for (const [i, { extension, tension, deviation, fitted }] of readings.entries()) {
      const row = means[i]!;
      expect(Number(row['extension_percent'])).toBeCloseTo(100 * extension, 5);
      expect(Number(row['tension_N_per_m']) / tension).toBeCloseTo(1, 6);
      // N per 50 mm is a twentieth of N/m.
      expect((20 * Number(row['force_N_per_50mm'])) / tension).toBeCloseTo(1, 6);
      expect((20 * Number(row['sd_N_per_50mm'])) / deviation!).toBeCloseTo(1, 6);
      expect(20 * Number(row['residual_N_per_50mm'])).toBeCloseTo(fitted - tension, 5);
      expect(row['n']).toBe('3');
    }
  });

  it('says which widths were assumed', () => {
    const widths = rows.filter(({ branch }) => branch === 'width');
    expect(widths.every((row) => row['width_assumed'] === (row['fabric'] === 'B' ? 'yes' : 'no'))).toBe(true);
    expect(widths.some(({ row }) => row === 'mean')).toBe(true);
    expect(widths.filter(({ fabric, row }) => fabric === 'B' && row !== 'fitted')).toEqual([]);
  });

  it('leaves empty what is no number', () => {
    const { strips, ...rest } = pretendCharted({ withReturn: false });
    const readings = [{ extension: 0.2, tension: Number.NaN, deviation: null, fitted: 1 }];
    const spoilt = {
      ...rest,
      strips: { ...strips, warp: { ...strips.warp, load: { ...strips.warp.load, readings } } },
    };
    expect(stripTable([spoilt])).not.toMatch(/NaN|Infinity|null|undefined/);
  });
});
