import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fabricFromReadings } from '../../../core/fabric/fabric-from-readings.ts';
import { Fault } from '../../../core/fault/fault.ts';
import { parseBenchSheet } from '../../../core/io/read-bench-sheet.ts';
import {
  entryFigures,
  renamedSheet,
  sheetFileName,
  sheetReading,
  type LibraryEntry,
  type SheetReading,
} from '../../../core/sheet/library-entry.ts';
import { inOrder, isFound, type LibraryLine } from '../../../core/sheet/library-order.ts';
import { demoSheet, demoSheetText } from '../../help/demo-sheet.ts';

/** As a worker reads a sheet. */
const readingOf = (text: string): SheetReading =>
  sheetReading(() => {
    const readings = parseBenchSheet(text);
    return { readings, fabric: fabricFromReadings(readings) };
  });

function entryOf(text: string): LibraryEntry {
  const reading = readingOf(text);
  if (reading.kind === 'broken') throw new Error(`broken: ${reading.fault.code}`);
  return reading.entry;
}

describe('an entry', () => {
  const sheet = demoSheet();
  const entry = entryOf(demoSheetText('tern-210'));

  it('keeps name, lot, date and note, and says that it is invented', () => {
    expect(entry).toMatchObject({ name: sheet['name'], lot: 'T-0417', date: '2025-03-11', invented: true });
    expect(entry.note).toBe(sheet['note']);
  });

  it('weighs what its strips weigh over their area', () => {
    // ISO 3801, arithmetic: mean mass of the strips over length x width; here in grams and square metres.
    const { lengthMm, widthMm, massG } = sheet.strip;
    const means = Object.values(massG).map((mass) => {
      const all = [mass].flat();
      return all.reduce((sum, one) => sum + one, 0) / all.length;
    });
    const mean = means.reduce((sum, one) => sum + one, 0) / means.length;
    expect(entry.arealDensity * 1000).toBeCloseTo(mean / ((lengthMm / 1000) * (widthMm / 1000)), 6);
  });

  it('pulls at 40 % what the bench read there, within 1 %', () => {
    for (const direction of ['warp', 'weft'] as const) {
      const { load } = sheet.stretch[direction];
      const read = load.find(([percent]) => percent === 40)![1]!;
      const perWidth = read / (sheet.stretch.widthMm / 1000);
      expect(Math.abs(entry.pull40[direction] / perWidth - 1)).toBeLessThan(0.01);
    }
    expect(entry.beyond40).toEqual({ warp: false, weft: false });
  });

  it('flags a pull at 40 % that the bench did not reach', () => {
    const short = demoSheet();
    const { warp } = short.stretch;
    warp.load = warp.load.filter(([percent]) => percent! <= 35);
    warp.width = warp.width!.filter(([percent]) => percent! <= 35);
    for (const direction of ['warp', 'weft', 'bias'] as const) delete short.stretch[direction].return;
    expect(entryOf(JSON.stringify(short)).beyond40).toEqual({ warp: true, weft: false });
  });

  it('is printed per 50 mm, in the units of its columns', () => {
    const printed = entryFigures({
      ...entry,
      arealDensity: 0.2104,
      thickness: 4.5e-4,
      thicknessPressure: 4140,
      pull40: { warp: 116, weft: 95.9 },
    });
    expect(printed).toEqual({
      weight: '210',
      thickness: '0.45',
      pressure: '4.14',
      warp40: '5.8',
      weft40: '4.8',
    });
  });
});

const throws = (error: Error) => (): never => {
  throw error;
};

describe('reading a sheet for the library', () => {
  it.each(['', '{', '[]', 'null', '{"snugfieldBench":2}', '{"snugfieldBench":1}'])(
    'answers %o with its fault',
    (text) => {
      expect(readingOf(text)).toMatchObject({
        kind: 'broken',
        fault: { code: expect.stringMatching(/^file\//) as string },
      });
    },
  );

  it('answers whatever text with a fabric or a fault, never with something thrown', () => {
    const text = demoSheetText('plover-185');
    const spoilt = fc.tuple(fc.nat(text.length - 1), fc.string({ maxLength: 3 })).map(([at, put]) => {
      return text.slice(0, at) + put + text.slice(at + put.length);
    });
    fc.assert(
      fc.property(fc.oneof(fc.string(), spoilt), (given) => {
        const reading = readingOf(given);
        if (reading.kind === 'broken') return;
        const { arealDensity, thickness, pull40 } = reading.entry;
        expect([arealDensity, thickness, pull40.warp, pull40.weft].every(Number.isFinite)).toBe(true);
      }),
      { seed: 3, numRuns: 200 },
    );
  });

  it('lets a bug be a bug', () => {
    expect(() => sheetReading(throws(new RangeError('index')))).toThrow(RangeError);
    expect(sheetReading(throws(new Fault('file/missing', { path: 'x' })))).toEqual({
      kind: 'broken',
      fault: { code: 'file/missing', facts: { path: 'x' } },
    });
  });
});

describe('a duplicate', () => {
  it('changes name and lot and nothing else; a byte order mark is passed over', () => {
    const text = demoSheetText('tern-210');
    const copy = JSON.parse(
      renamedSheet(`\uFEFF${text}`, { name: 'Tern 210 copy', lot: 'T-0500' }),
    ) as object;
    expect(copy).toEqual({ ...demoSheet(), name: 'Tern 210 copy', lot: 'T-0500' });
    expect(Object.keys(copy)).toEqual(Object.keys(demoSheet()));
  });

  it.each([
    ['Tern 210 (invented)', 'T-0417', 'tern-210-invented-t-0417.bench.json'],
    ['Größe Ü', '', 'größe-ü.bench.json'],
    ['../../etc', 'a/b', 'etc-a-b.bench.json'],
    ['', '', 'fabric.bench.json'],
    ['x'.repeat(300), '1', `${'x'.repeat(60)}.bench.json`],
  ])('of %o, lot %o, gets the file name %o', (name, lot, expected) => {
    expect(sheetFileName(name, lot)).toBe(expected);
  });
});

const line = (path: string, entry: Partial<LibraryEntry> | null): LibraryLine => ({
  path,
  entry: entry && { ...entryOf(demoSheetText('tern-210')), note: null, ...entry },
});

describe('search', () => {
  const größe = line('a.bench.json', { name: 'Größe 12', lot: 'L-7', note: 'Zweite Wäsche' });
  it.each([
    ['grosse', true],
    ['GRÖẞE', true],
    ['l-7 größe', true],
    ['wasche', true],
    ['größe heron', false],
    ['', true],
    ['   ', true],
    ['a.bench', true],
  ])('%o finds a fabric by name, lot, note or file: %o', (search, expected) => {
    expect(isFound(größe, search)).toBe(expected);
  });

  it('finds a broken sheet by its file name', () => {
    expect(isFound(line('jersey/odd.bench.json', null), 'odd')).toBe(true);
  });
});

describe('order', () => {
  const lines = [
    line('c', { name: 'Tern 10', thickness: 4e-4, thicknessPressure: 4140 }),
    line('broken', null),
    line('a', { name: 'tern 9', thickness: 5e-4, thicknessPressure: 1000 }),
    line('b', { name: 'Avocet', thickness: 6e-4, thicknessPressure: 1000 }),
  ];
  const paths = (order: Parameters<typeof inOrder>[1]) => inOrder(lines, order).map(({ path }) => path);

  it('is by name as a person counts, and what cannot be read comes last either way', () => {
    expect(paths({ by: 'name', falling: false })).toEqual(['b', 'a', 'c', 'broken']);
    expect(paths({ by: 'name', falling: true })).toEqual(['c', 'a', 'b', 'broken']);
  });

  it('keeps thicknesses of one foot pressure together', () => {
    // By thickness alone it would be c (0.40 mm, but under 4.14 kPa), a, b.
    expect(paths({ by: 'thickness', falling: false })).toEqual(['a', 'b', 'c', 'broken']);
  });

  it('leaves equal lines in the order of their paths', () => {
    expect(paths({ by: 'lot', falling: true })).toEqual(['a', 'b', 'c', 'broken']);
  });
});
