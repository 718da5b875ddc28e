import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Fault } from '../../../core/fault/fault.ts';
import { readPatternDxf } from '../../../core/io/read-pattern-dxf.ts';
import { readPatternSvg } from '../../../core/io/read-pattern-svg.ts';
import { writePatternDxf } from '../../../core/io/write-pattern-dxf.ts';
import { writePatternSvg } from '../../../core/io/write-pattern-svg.ts';
import type { ImportedPattern } from '../../../core/pattern/imported-pattern.ts';
import { checkPattern } from '../../../core/pattern/check-pattern.ts';
import { proposeSeams } from '../../../core/pattern/propose-seams.ts';
import { sayFault, sayFinding } from '../../../core/words/say.ts';
import { foldedYoke, halfShort } from '../../help/pattern-samples.ts';

/** One change to a text: a piece of it replaced, doubled, or swapped with another. */
interface Change {
  readonly at: number;
  readonly length: number;
  readonly by: string;
}

const words = fc.oneof(
  fc.string({ maxLength: 8 }),
  fc.constantFrom(
    'NaN',
    '-1e308',
    '1e7',
    '0',
    '-5',
    '1,5',
    '\n',
    '0\nPOLYLINE\n',
    '0\nEOF\n',
    '42\n1e6\n',
    '70\n1\n',
  ),
  fc.constantFrom(
    '<g>',
    '</g>',
    '"',
    'transform="scale(0)"',
    'A1e7 1 0 0 1 5 5',
    'Z M',
    'C',
    '&#0;',
    '<!--',
    ' viewBox="0 0 0 0"',
  ),
);
const changes = fc.array(
  fc.record({
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    length: fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 12 }), fc.integer({ min: 0, max: 3000 })),
    by: words,
  }),
  { minLength: 1, maxLength: 5 },
);

const changed = (text: string, all: readonly Change[]): string =>
  all.reduce((now, { at, length, by }) => {
    const start = Math.floor(at * now.length);
    return now.slice(0, start) + by + now.slice(start + length);
  }, text);

/** One pair of lines of a DXF with another code or value, taken out, or written twice. */
const pairChanges = fc.array(
  fc.record({
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    kind: fc.constantFrom('value', 'value', 'value', 'code', 'out', 'twice'),
    by: fc.oneof(
      fc.integer({ min: -9999, max: 9999 }).map(String),
      fc.double({ min: -300, max: 300, noNaN: true }).map(String),
      fc.constantFrom(
        '1e7',
        '1e308',
        '',
        'NaN',
        'VERTEX',
        'SEQEND',
        'INSERT',
        'LINE',
        'front_left',
        '8',
        '14',
        '42',
      ),
    ),
  }),
  { minLength: 1, maxLength: 4 },
);

function withPairs(
  text: string,
  all: readonly { readonly at: number; readonly kind: string; readonly by: string }[],
): string {
  const lines = text.split('\n');
  const pairs = Array.from({ length: Math.floor(lines.length / 2) }, (_, i) => [
    lines[2 * i]!,
    lines[2 * i + 1]!,
  ]);
  for (const { at, kind, by } of all) {
    const i = Math.min(pairs.length - 1, Math.floor(at * pairs.length));
    const [code, value] = pairs[i] as [string, string];
    if (kind === 'value') pairs[i] = [code, by];
    else if (kind === 'code') pairs[i] = [by, value];
    else if (kind === 'out') pairs.splice(i, 1);
    else pairs.splice(i, 0, [code, value]);
  }
  return `${pairs.flat().join('\n')}\n`;
}

/** Reads, sews and checks; whatever comes of it has to be said in numbers and words. */
function expectSound(read: () => ImportedPattern): 'read' | 'refused' {
  try {
    const pattern = read();
    for (const { name, edges, grain = 0 } of pattern.panels) {
      expect(name).not.toBe('');
      expect(Number.isFinite(grain)).toBe(true);
      edges.forEach(({ points }, e) => {
        expect(points.length).toBeGreaterThan(1);
        expect(points.flat().every(Number.isFinite)).toBe(true);
        expect(points.at(-1)).toEqual(edges[(e + 1) % edges.length]!.points[0]);
      });
    }
    const proposals = proposeSeams(pattern);
    expect(proposals.every(({ ease }) => Number.isFinite(ease.ratio))).toBe(true);
    const sewn = { ...pattern, seams: proposals.map(({ seam }) => seam), centre: [] };
    for (const finding of [...pattern.findings, ...checkPattern(sewn)]) {
      expect(sayFinding(finding)).not.toMatch(/NaN|undefined|Infinity/);
    }
    return 'read';
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    expect(error.code).toMatch(/^pattern\//);
    const { what, remedy } = sayFault(error);
    expect(`${what} ${remedy}`).not.toMatch(/undefined|Infinity/);
    return 'refused';
  }
}

/** Makes so many changed files of each original and holds them all; both being read and being refused must occur. */
const hold = (
  originals: readonly string[],
  read: (text: string) => ImportedPattern,
  mutation: fc.Arbitrary<(text: string) => string>,
  numRuns: number,
): void => {
  const counts = { read: 0, refused: 0 };
  fc.assert(
    fc.property(fc.constantFrom(...originals), mutation, (text, change) => {
      counts[expectSound(() => read(change(text)))]++;
    }),
    { seed: 6673, numRuns },
  );
  expect(Math.min(counts.read, counts.refused)).toBeGreaterThan(0);
};

const anywhere = changes.map((all) => (text: string) => changed(text, all));

describe('pattern files with changes anywhere (seed 6673)', () => {
  it('300 of SVG are read or refused with words, never worse', () => {
    hold([writePatternSvg(halfShort), writePatternSvg(foldedYoke)], readPatternSvg, anywhere, 300);
  });

  it('300 of DXF are read or refused with words, never worse', () => {
    const originals = [writePatternDxf(halfShort), writePatternDxf(foldedYoke)];
    hold(originals, readPatternDxf, anywhere, 100);
    hold(
      originals,
      readPatternDxf,
      pairChanges.map((all) => (text: string) => withPairs(text, all)),
      200,
    );
  });
});
