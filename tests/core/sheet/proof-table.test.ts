import { describe, expect, it } from 'vitest';

import { PROOF_PAGE, proofPages } from '../../../core/sheet/proof-picture.ts';
import { proofCsv, proofNumber, proofTable, type ProofResult } from '../../../core/sheet/proof-table.ts';
import { PROOF_WORDS } from '../../../core/words/proof-words.ts';

const row = (id: string, got: number, source = 'a book') => ({
  id,
  source,
  expected: 10,
  got,
  unit: 'Pa',
  tolerance: 0.5,
});

const results: ProofResult[] = [
  { subject: 'tubes', checks: [row('a', 10.1), { ...row('b', 11), what: 'the second' }] },
  { subject: 'cloth, "folded"', checks: [row('c', Number.NaN), { ...row('d', 10), tolerance: 0 }] },
];

describe('the table of checks', () => {
  const table = proofTable(results);

  it('counts what passes, by subject and in all; what is no number fails', () => {
    expect(table.subjects.map(({ passed, failed }) => [passed, failed])).toEqual([
      [1, 1],
      [1, 1],
    ]);
    expect([table.passed, table.failed]).toEqual([2, 2]);
  });

  it('says how much of each tolerance is used', () => {
    const used = table.subjects.flatMap(({ rows }) => rows.map((one) => one.used));
    expect(used[0]).toBeCloseTo(0.2, 12);
    expect(used[1]).toBeCloseTo(2, 12);
    expect(used[2]).toBeNaN();
    expect(used[3]).toBe(0);
  });

  it('calls rows and subjects by their words, or by id and name', () => {
    const words = { title: (subject: string) => subject.toUpperCase(), what: () => 'said' };
    expect(proofTable(results, words).subjects[0]).toMatchObject({
      title: 'TUBES',
      rows: [{ what: 'said' }, {}],
    });
    expect(table.subjects[0]!.rows.map(({ what }) => what)).toEqual(['a', 'the second']);
  });
});

/** Reads CSV as RFC 4180 has it, section 2: written anew here so that the writer does not judge itself. */
function readCsv(text: string): string[][] {
  const records: string[][] = [];
  const field = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n)/gy;
  let record: string[] = [];
  for (const [, inQuotes, plain, end] of text.matchAll(field)) {
    record.push(inQuotes?.replaceAll('""', '"') ?? plain!);
    if (end !== ',') {
      records.push(record);
      record = [];
    }
  }
  return records;
}

it('writes the table as RFC 4180 has it: what was put in comes out', () => {
  const source = 'Laplace, "P = T / R"\r\nand more';
  const table = proofTable([{ subject: 'a, b', checks: [row('x', 10 / 3, source), row('y', 10.2)] }]);
  const csv = proofCsv(table);
  expect(csv.endsWith('\r\n')).toBe(true);
  expect(readCsv(csv)).toEqual([
    ['subject', 'id', 'source', 'expected', 'got', 'unit', 'tolerance', 'pass'],
    ['a, b', 'x', source, '10', String(10 / 3), 'Pa', '0.5', 'FAIL'],
    ['a, b', 'y', 'a book', '10', '10.2', 'Pa', '0.5', 'pass'],
  ]);
});

it.each([
  [133.322387415, '133.322'],
  [0, '0'],
  [-0.0000067163, '-6.72e-6'],
  [0.25, '0.25'],
])('prints %d as %s', (value, text) => {
  expect(proofNumber(value)).toBe(text);
});

describe('the table as pages', () => {
  const many = Array.from({ length: 200 }, (_, i) =>
    row(`check number ${i}`, i === 150 ? 12 : 10, `source ${i % 50 < 25}`),
  );
  const table = proofTable([{ subject: 'much', checks: many }]);
  // Half the size a letter: a rough face is enough to break lines.
  const pages = proofPages(table, PROOF_WORDS, (text, size) => (text.length * size) / 2);
  const texts = pages.flatMap(({ shapes }) => shapes.filter((shape) => shape.kind === 'text'));

  it('has every row once, on pages that hold it', () => {
    for (const { id } of many) {
      const at = texts.filter(({ text }) => text === id || text === `${PROOF_WORDS.fail}: ${id}`);
      expect(at).toHaveLength(1);
    }
    expect(pages.length).toBeGreaterThan(1);
    for (const { shapes } of pages) {
      for (const { x, y } of shapes) {
        expect(x).toBeGreaterThanOrEqual(0);
        expect(x).toBeLessThanOrEqual(PROOF_PAGE.width);
        expect(y).toBeGreaterThan(0);
        expect(y).toBeLessThan(PROOF_PAGE.height);
      }
    }
  });

  it('says a row’s source above it, on every page', () => {
    for (const { shapes } of pages) {
      const words = shapes.filter(
        (shape) => shape.kind === 'text' && shape.align === 'start' && shape.x < 100,
      );
      const lines = words.map((shape) => (shape as { text: string }).text);
      const first = lines.findIndex((line) => line.includes('check number'));
      expect(lines[first - 1]).toMatch(/^source/);
    }
  });

  it('lays no two lines of words over each other', () => {
    for (const { shapes } of pages) {
      const lines = shapes.filter(
        (shape) => shape.kind === 'text' && shape.align === 'start' && shape.x < 100,
      );
      const ys = lines.map(({ y }) => y).sort((a, b) => a - b);
      for (let i = 1; i < ys.length; i++) expect(ys[i]! - ys[i - 1]!).toBeGreaterThan(15);
    }
  });

  it('shows a failed check in its own ink, with the whole bar', () => {
    const failed = pages.flatMap(({ shapes }) => shapes.filter(({ ink }) => ink === 'fail'));
    expect(failed.some((shape) => shape.kind === 'box' && shape.width > 80)).toBe(true);
    expect(texts.filter(({ text }) => text.startsWith('source')).length).toBeGreaterThanOrEqual(8);
  });
});
