import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readBenchSheet } from '../../../core/io/read-bench-sheet.ts';
import { girthRows } from '../../../core/sheet/body-sheet.ts';
import { fabricSheet } from '../../../core/sheet/fabric-sheet.ts';
import { garmentRows } from '../../../core/sheet/garment-sheet.ts';
import { holdLevelAt, holdStretches } from '../../../core/sheet/hold-level.ts';
import { pretendTube } from '../../help/pretend-result.ts';

describe('fabric card', () => {
  const text = readFileSync(new URL('../../../assets/demo/tern-210.bench.json', import.meta.url), 'utf8');
  const fabric = readBenchSheet(text);
  const readings = JSON.parse(text) as {
    stretch: Record<'warp' | 'weft' | 'bias', { load: [number, number][] }>;
  };
  const card = fabricSheet(fabric, { id: 'tern', branch: 'load', warp: 'along' });

  it.each(['warp', 'weft', 'bias'] as const)(
    'prints what the bench read at 20 and 40 %% on the %s strip',
    (direction) => {
      // Source: the bench sheet itself. The law passes within 3 % of bias readings, closer elsewhere; print rounds by 0.05 N.
      const read = (percent: number): number =>
        readings.stretch[direction].load.find(([extension]) => extension === percent)![1];
      const strip = card.strips.find((candidate) => candidate.direction === direction)!;
      for (const [printed, percent] of [
        [strip.at20, 20],
        [strip.at40, 40],
      ] as const) {
        expect(Math.abs(Number.parseFloat(printed) - read(percent))).toBeLessThanOrEqual(
          0.05 + 0.03 * read(percent),
        );
      }
    },
  );

  it('takes the weft for the force around where warp runs along, and the other way round', () => {
    expect(card.around40).toBe(card.strips.find(({ direction }) => direction === 'weft')!.at40);
    const turned = fabricSheet(fabric, { id: 'tern', branch: 'load', warp: 'around' });
    expect(turned.around40).toBe(card.strips.find(({ direction }) => direction === 'warp')!.at40);
  });

  it('prints weight and thickness with their units', () => {
    // Source: mean of the sheet's nine masses, about 2.097 g on 200 x 50 mm = 210 g/m².
    expect(card.weight).toBe('210\u00a0g/m²');
    expect(card.thickness).toBe('0.45\u00a0mm at 1.0\u00a0kPa');
    expect(card.invented).toBe(true);
  });
});

describe('garment table', () => {
  it('gives the worn girth as the length round the ring, flat girth and reduction from the rest shape', () => {
    const { mesh, columns, rings } = pretendTube({
      columns: 360,
      halfWidth: 0.15,
      halfDepth: 0.15,
      from: 0.9,
      to: 1.1,
    });
    const garment = {
      columnCount: columns,
      rings: Array.from({ length: rings }, (_, ring) => ({
        at: 0.9 + (0.2 * ring) / (rings - 1),
        laid: 1,
        relaxed: 0.8,
      })),
    };
    const sheet = {
      region: 'trunk',
      from: 0.9,
      to: 1.1,
      girths: [{ at: 1, relaxed: 0.8 }],
      relaxedLength: 0.2,
      warp: 'along',
    } as const;
    const rows = garmentRows(garment, sheet, [mesh.positions]);
    expect(rows.map(({ heightCm }) => heightCm)).toEqual(['110.0', '100.0', '90.0']);
    // Closed form: 2 pi 15 cm = 94.2 cm.
    expect(rows[1]).toEqual({
      heightCm: '100.0',
      relaxedCm: '80.0',
      bodyCm: '100.0',
      reduction: '20\u00a0%',
      wornCm: ['94.2'],
    });
  });
});

it('lists girths from the highest down', () => {
  const girths = [
    { name: 'hip', level: 0.845, girth: 1.01 },
    { name: 'waist', level: 1.045, girth: 0.76 },
  ];
  expect(girthRows({ girths })).toEqual([
    { name: 'waist', levelCm: '104.5', girthCm: '76.0' },
    { name: 'hip', levelCm: '84.5', girthCm: '101.0' },
  ]);
});

describe('hold levels', () => {
  it('change at the published pressures', () => {
    // Source: Anthropometry, Apparel Sizing and Design (Woodhead), ch. 13, table 13.5: 0.4, 1.3, 2.0, 3.3 kPa; capillary
    // closure 32 mmHg = 4.27 kPa (Landis 1930).
    const levels = [0.39, 0.41, 1.29, 1.31, 1.99, 2.01, 3.29, 3.31, 4.26, 4.27].map((kPa) =>
      holdLevelAt(1000 * kPa),
    );
    expect(levels).toEqual([
      'none',
      'light',
      'light',
      'firm',
      'firm',
      'shaping',
      'shaping',
      'tight',
      'tight',
      'caution',
    ]);
  });

  it('fill the tape from end to end', () => {
    const stretches = holdStretches({ low: 500, high: 2500 });
    expect(stretches.map(({ level }) => level)).toEqual(['light', 'firm', 'shaping']);
    expect(stretches[0]!.from).toBe(0);
    expect(stretches.at(-1)!.to).toBe(1);
    stretches.slice(1).forEach(({ from }, index) => expect(from).toBe(stretches[index]!.to));
  });
});
