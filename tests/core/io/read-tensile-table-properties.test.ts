import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { Fault } from '../../../core/fault/fault.ts';
import { readTensileTable } from '../../../core/io/read-tensile-table.ts';
import { tensileIntoSheet } from '../../../core/io/tensile-into-sheet.ts';
import type { TableWish, TensileTable } from '../../../core/io/tensile-table.ts';
import { sayFault, sayFinding } from '../../../core/words/say.ts';
import { sayTableQuestion } from '../../../core/words/table-words.ts';
import { dialects, exportTable, GAUGE_MM, testedStrips, WIDTH_MM } from '../../help/tester-export.ts';
import type { Dialect, Reading, TestedStrip } from '../../help/tester-export.ts';

/** kgf = 9.80665 N: ISO 80000-4; from memory. Width of the strip in m: 0.075. */
const NEWTON_PER: Record<Dialect['forceUnit'], number> = {
  N: 1,
  cN: 0.01,
  gf: 0.00980665,
  kgf: 9.80665,
  'N/m': WIDTH_MM / 1000,
  'N/5 cm': WIDTH_MM / 50,
  'gf/cm': (0.00980665 * WIDTH_MM) / 10,
};
const PERCENT_PER: Record<Dialect['extensionUnit'], number> = { '%': 1, ratio: 100, mm: 100 / GAUGE_MM };

/** What the file means, in order of direction and specimen. */
function expectedCurves(strips: readonly TestedStrip[], dialect: Dialect) {
  const sheet = ([extension, force]: Reading): [number, number] => [
    extension * PERCENT_PER[dialect.extensionUnit],
    force * NEWTON_PER[dialect.forceUnit],
  ];
  const isSeries = dialect.layout === 'series' || dialect.layout === 'side by side';
  return strips.flatMap(({ direction, specimen, cycles }) =>
    cycles.flatMap((own, k) => {
      // Without cycle numbers, the lowest reading belongs to both of its cycles.
      const load = isSeries && k > 0 ? [cycles[k - 1]!.return.at(-1)!, ...own.load.slice(1)] : own.load;
      const widths = load.flatMap((reading): [number, number][] =>
        reading[2] === null || !dialect.withWidth ? [] : [[sheet(reading)[0], reading[2]]],
      );
      const place = { direction, specimen, cycle: k + 1 };
      return [
        { ...place, branch: 'load', points: load.map(sheet), widths },
        { ...place, branch: 'return', points: own.return.map(sheet), widths: null },
      ];
    }),
  );
}

/** One rounding per conversion, so 1e-12 of the value; per cent, N and mm come back to the last bit. */
function expectPairs(found: readonly (readonly number[])[], expected: readonly (readonly number[])[]): void {
  expect(found).toHaveLength(expected.length);
  for (const [i, pair] of expected.entries()) {
    for (const [k, value] of pair.entries()) {
      expect(Math.abs(found[i]![k]! - value)).toBeLessThanOrEqual(1e-12 * Math.abs(value));
    }
  }
}

describe('tables come back as they were written (seed 20250418)', () => {
  it('in every dialect and layout', () => {
    fc.assert(
      fc.property(testedStrips, dialects, (strips, dialect) => {
        const text = exportTable(strips, dialect);
        const table = readTensileTable(text);
        expect(table.questions).toEqual([]);
        expect(table.separator).toBe(dialect.separator);
        expect(table.decimalMark).toBe(dialect.mark === ',' ? 'comma' : 'point');
        const expected = expectedCurves(strips, dialect);
        const place = ({ direction, specimen, cycle, branch }: (typeof table.curves)[number]) => ({
          direction,
          specimen,
          cycle,
          branch,
        });
        expect(table.curves.map(place)).toEqual(
          expected.map(({ direction, specimen, cycle, branch }) => ({ direction, specimen, cycle, branch })),
        );
        for (const [i, curve] of table.curves.entries()) {
          expectPairs(curve.points, expected[i]!.points);
          const { widths } = expected[i]!;
          if (widths !== null) expectPairs(curve.widths, widths);
        }
        rowsAreRight(table, text, dialect);
      }),
      { seed: 20250418, numRuns: 400 },
    );
  });
});

/** The row that a point is said to come from holds its force. */
function rowsAreRight(table: TensileTable, text: string, dialect: Dialect): void {
  const lines = text.split(/\r\n|\n|\r/);
  for (const curve of table.curves) {
    for (const [i, row] of curve.rows.entries()) {
      const force = (curve.points[i]![1] / NEWTON_PER[dialect.forceUnit])
        .toFixed(3)
        .replace('.', dialect.mark);
      expect(lines[row - 1]).toContain(force);
    }
  }
}

/** Reads; whatever comes of it must be whole: finite numbers, or a refusal with its place. */
function readWhole(text: string, wish: TableWish): TensileTable | null {
  let table: TensileTable;
  try {
    table = readTensileTable(text, wish);
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    expect(error.code).toMatch(/^table\//);
    const { what, remedy } = sayFault(error);
    expect(what).toMatch(/^(The whole file: |Row \d+, column \d+)/);
    expect(`${what} ${remedy}`).not.toMatch(/undefined|\[object/);
    return null;
  }
  for (const question of table.questions) expect(sayTableQuestion(question).what).not.toMatch(/undefined/);
  for (const finding of table.findings) expect(sayFinding(finding)).not.toMatch(/undefined|\[object/);
  for (const curve of table.curves) {
    expect(curve.rows).toHaveLength(curve.points.length);
    for (const value of [...curve.points.flat(), ...curve.widths.flat()])
      expect(value).toSatisfy(Number.isFinite);
    expect(curve.rows.every((row) => row >= 1 && row <= table.rowCount)).toBe(true);
  }
  for (const direction of new Set(table.curves.map((curve) => curve.direction)))
    pairsAreWhole(table, direction);
  return table;
}

function pairsAreWhole(table: TensileTable, direction: TensileTable['curves'][number]['direction']): void {
  const { defaultCycle: cycle } = table;
  const has = table.curves.some(
    (curve) => curve.direction === direction && curve.cycle === cycle && curve.branch === 'load',
  );
  if (!has) return;
  const strip = tensileIntoSheet(table, { direction });
  for (const pairs of [...strip.load, ...(strip.return ?? []), ...(strip.width ?? [])]) {
    for (const [i, [extension, value]] of pairs.entries()) {
      expect(extension).toBeGreaterThanOrEqual(0);
      expect(value).toBeGreaterThanOrEqual(0);
      expect(value).toBeLessThan(Infinity);
      if (i > 0) expect(extension).toBeGreaterThan(pairs[i - 1]![0]);
    }
  }
}

const wishes: fc.Arbitrary<TableWish> = fc.record(
  {
    separator: fc.constantFrom('tab', 'semicolon', 'comma', 'spaces'),
    decimalMark: fc.constantFrom('comma', 'point'),
    test: fc.constantFrom('strip', 'loop'),
    missing: fc.constantFrom('refuse', 'leave out'),
    gaugeMm: fc.double(),
    widthMm: fc.constantFrom(50, 0, NaN, -1),
    circumferenceMm: fc.constantFrom(250, 0),
    columns: fc.array(
      fc.record(
        {
          column: fc.integer({ min: -1, max: 9 }),
          meaning: fc.constantFrom('extension', 'force', 'width', 'stripWidth', 'cycle', 'ignored', 'branch'),
          unit: fc.constantFrom('%', 'mm', 'N', 'N/m', 'ratio', 'stretch ratio'),
        },
        { requiredKeys: ['column'] },
      ),
      { maxLength: 3 },
    ),
  } as const,
  { requiredKeys: [] },
);
const mayWish = fc.oneof({ weight: 3, arbitrary: fc.constant({}) }, { weight: 1, arbitrary: wishes });

/** Few characters, those that tables are made of. */
const tableText = fc.string({
  unit: fc.constantFrom(
    ...'0123456789,;.\t\n\r "-+eE#:=[]()%Nm'.split(''),
    'NaN',
    '\n',
    '\n',
    ';',
    ';',
    'Force [N]',
    'Extension (%)',
    'Width mm',
    'Cycle',
    'Specimen 1',
    'warp',
    'inf',
    '1e999',
    '__proto__',
  ),
  maxLength: 120,
});

describe('spoiled tables are read or refused with a place, never worse (seed 20250419)', () => {
  it('flipped, cut and doubled', () => {
    const outcomes = { read: 0, refused: 0 };
    const spoil = fc.array(
      fc.record({
        kind: fc.constantFrom('flip', 'cut', 'double row', 'drop row', 'insert'),
        at: fc.double({ min: 0, max: 0.999, noNaN: true }),
        to: fc.string({ minLength: 1, maxLength: 1, unit: 'binary' }),
        word: fc.constantFrom('NaN', '-Infinity', '"', '1e400', ';;', 'abc', '\n', '-', '\u0000', '1.234,5'),
      }),
      { minLength: 1, maxLength: 4 },
    );
    fc.assert(
      fc.property(testedStrips, dialects, spoil, mayWish, (strips, dialect, spoils, wish) => {
        let text = exportTable(strips, dialect);
        for (const { kind, at, to, word } of spoils) {
          const i = Math.floor(at * text.length);
          const end = text.indexOf('\n', i) + 1;
          if (kind === 'flip') text = text.slice(0, i) + to + text.slice(i + 1);
          if (kind === 'cut') text = text.slice(0, Math.max(i, 1));
          if (kind === 'insert') text = text.slice(0, i) + word + text.slice(i);
          if (kind === 'drop row') text = text.slice(0, i) + text.slice(end);
          if (kind === 'double row') text = text.slice(0, end) + text.slice(i);
        }
        outcomes[readWhole(text, wish) === null ? 'refused' : 'read']++;
      }),
      { seed: 20250419, numRuns: 1000 },
    );
    // Both happen often, or the spoiling is too weak or too strong to show anything.
    expect(Math.min(outcomes.read, outcomes.refused)).toBeGreaterThan(150);
  });

  it('random words of a table', () => {
    fc.assert(
      fc.property(tableText, mayWish, (text, wish) => {
        readWhole(text, wish);
        readWhole(`Extension (%);Force (N);Width (mm);Cycle\n0;0;50;1\n${text}`, wish);
      }),
      { seed: 20250419, numRuns: 2000 },
    );
  });

  it('random bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 4000 }), fc.string({ unit: 'binary' }), (bytes, words) => {
        expect(readWhole(new TextDecoder('latin1').decode(bytes), {})?.curves ?? []).toEqual([]);
        readWhole(words, {});
      }),
      { seed: 20250419, numRuns: 300 },
    );
  });
});
