import { Buffer } from 'node:buffer';

import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { readTensileTable } from '../../../core/io/read-tensile-table.ts';
import { encodingOfTable } from '../../../core/io/table-encoding.ts';

const table = 'Längung (%);Kraft µ (cN)\n0,0;0,0\n10,5;160\n';

describe('encodingOfTable', () => {
  it.each<[string, Uint8Array, string]>([
    ['UTF-8', Buffer.from(table, 'utf8'), 'utf-8'],
    ['plain ASCII', Buffer.from('a;b\n1;2\n', 'latin1'), 'utf-8'],
    ['Windows-1252', Buffer.from(table, 'latin1'), 'windows-1252'],
    ['UTF-16 with its mark', Buffer.from(`\uFEFF${table}`, 'utf16le'), 'utf-16le'],
    ['UTF-16 without its mark', Buffer.from(table, 'utf16le'), 'utf-16le'],
    ['UTF-16 the other way round', Buffer.from(`\uFEFF${table}`, 'utf16le').swap16(), 'utf-16be'],
    ['nothing', new Uint8Array(), 'utf-8'],
  ])('tells %s', (...[, bytes, encoding]) => {
    expect(encodingOfTable(bytes)).toBe(encoding);
  });

  it('agrees with the decoder on what is UTF-8 (seed 20250420)', () => {
    const bytes = fc.oneof(
      fc.uint8Array({ maxLength: 40, min: 1 }),
      fc.string({ unit: 'binary' }).map((text) => new TextEncoder().encode(text)),
    );
    fc.assert(
      fc.property(bytes, (some) => {
        fc.pre(!some.includes(0) && !(some[0]! >= 0xfe && some[1]! >= 0xfe));
        let strict = true;
        try {
          // A line end behind, so that no character is cut at the end.
          new TextDecoder('utf-8', { fatal: true }).decode(Uint8Array.from([...some, 10]));
        } catch {
          strict = false;
        }
        const told = encodingOfTable(Uint8Array.from([...some, 10]));
        // Surrogates and overlong forms written out byte by byte are let through: no tester writes them.
        if (strict) expect(told).toBe('utf-8');
        else if (!some.some((byte) => byte === 0xe0 || byte === 0xed || byte >= 0xf0))
          expect(told).toBe('windows-1252');
      }),
      { seed: 20250420, numRuns: 200 },
    );
  });

  it('names read in the wrong encoding are recognised all the same', () => {
    const read = readTensileTable(new TextDecoder('utf-8').decode(Buffer.from(table, 'latin1')), {});
    expect(read.questions).toEqual([]);
    expect(read.curves[0]!.points).toEqual([
      [0, 0],
      [10.5, 1.6],
    ]);
  });
});
