import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';

import { Fault } from '../../../core/fault/fault.ts';
import type { FileFaults } from '../../../core/fault/file-faults.ts';
import { checkShape, readJson } from '../../../core/io/read-json.ts';
import { fileFaultWords } from '../../../core/words/file-words.ts';
import { faultOf } from '../../help/fault-of.ts';

describe('readJson', () => {
  it('passes over a byte order mark', () => {
    expect(readJson('\uFEFF{"a": 1}')).toEqual({ a: 1 });
  });

  it.each<[string, string, number, number, RegExp]>([
    ['a missing comma', '{\n  "a": 1\n  "b": 2\n}', 3, 3, /comma/],
    ['a trailing comma', '[1,\n2,\n]', 3, 1, /no value/],
    ['a decimal comma', '{"a": 1,5}', 1, 9, /key in double quotes/],
    ['single quotes', "{'a': 1}", 1, 2, /key in double quotes/],
    ['a bare word', '{"a": NaN}', 1, 7, /NaN is no value/],
    ['a leading zero', '{"a": 05}', 1, 7, /05 is no value/],
    ['an open text', '{"a": "b}', 1, 7, /not closed/],
    ['an early end', '{"a":', 1, 6, /ends/],
    ['nothing', '', 1, 1, /ends/],
    ['two values', '{} {}', 1, 4, /after the end/],
    ['a key given twice', '{"a": 1,\r\n "a": 2}', 2, 2, /stands twice/],
  ])('names line and column of %s', (...row) => {
    const [, text, line, column, problem] = row;
    const fault = faultOf(() => readJson(text));
    expect(fault.code).toBe('file/not-json');
    expect(fault.facts).toMatchObject({ line, column, problem: expect.stringMatching(problem) });
  });

  it('agrees with the language on what is JSON', () => {
    fc.assert(
      fc.property(
        fc.json(),
        fc.nat(),
        fc.constantFrom('', ',', '}', '"', '1', '\\', 'e', '-'),
        (json, at, extra) => {
          const place = at % (json.length + 1);
          const text = json.slice(0, place) + extra + json.slice(place + (extra === '' ? 1 : 0));
          let expected: unknown;
          try {
            expected = JSON.parse(text);
          } catch {
            expect(() => readJson(text)).toThrow(Fault);
            return;
          }
          try {
            expect(readJson(text)).toEqual(expected);
          } catch (error) {
            // The one thing stricter here: a key given twice.
            if (!(error instanceof Fault)) throw error;
            expect(error.facts).toMatchObject({ problem: expect.stringContaining('stands twice') });
          }
        },
      ),
      { seed: 20250314, numRuns: 400 },
    );
  });
});

describe('checkShape', () => {
  const schema = z.strictObject({
    stretch: z.strictObject({
      load: z.array(z.tuple([z.number().min(0), z.number()])),
      unit: z.enum(['mm', 'cm']).optional(),
    }),
    mass: z.union([z.number().positive(), z.array(z.number().positive()).min(1)]),
  });
  const good = {
    stretch: {
      load: [
        [0, 0],
        [10, 1.5],
      ],
    },
    mass: [2.1],
  };
  const factsOf = (value: unknown): FileFaults['file/wrong-shape'] => {
    const fault = faultOf(() => checkShape(schema, value));
    if (fault.code !== 'file/wrong-shape') throw new Error(fault.code);
    return fault.facts as FileFaults['file/wrong-shape'];
  };

  it('gives the value back when all is well', () => {
    expect(checkShape(schema, good)).toEqual(good);
  });

  it('names the path, what was expected and what was found', () => {
    expect(
      factsOf({
        ...good,
        stretch: {
          load: [
            [0, 0],
            [10, 'x'],
          ],
        },
      }),
    ).toEqual({
      path: 'stretch.load[1][1]',
      expected: 'a number',
      value: '"x"',
    });
    expect(factsOf({ ...good, stretch: { load: [[-5, 0]] } })).toEqual({
      path: 'stretch.load[0][0]',
      expected: 'at least 0',
      value: '-5',
    });
    expect(factsOf({ ...good, stretch: { load: [], unit: 'inch' } })).toMatchObject({
      path: 'stretch.unit',
      expected: '"mm" or "cm"',
    });
  });

  it('says that a value is missing', () => {
    expect(factsOf({ mass: 1 })).toMatchObject({
      path: 'stretch',
      expected: 'a group in { }',
      value: 'nothing',
    });
  });

  it('refuses a misspelt key and lists the known ones', () => {
    const facts = factsOf({ ...good, stretch: { load: [], units: 'mm' } });
    expect(facts).toMatchObject({ path: 'stretch.units', value: '"mm"' });
    expect(facts.expected).toContain('load, unit');
  });

  it('looks into a list that may also be one number', () => {
    expect(factsOf({ ...good, mass: [2.1, -1] })).toMatchObject({
      path: 'mass[1]',
      expected: 'more than 0',
      value: '-1',
    });
    expect(factsOf({ ...good, mass: 'heavy' }).expected).toBe('a number, or a list in [ ]');
  });

  it('tells the next few problems too, in words', () => {
    const facts = factsOf({
      stretch: {
        load: [
          [0, 'a'],
          ['b', 0],
          [1, 'c'],
          [2, 'd'],
          [3, 'e'],
        ],
      },
      mass: 0,
    });
    expect(facts.others).toHaveLength(3);
    const { what } = fileFaultWords['file/wrong-shape'](facts);
    expect(what).toContain('stretch.load[0][1] should be a number; found "a".');
    expect(what).toContain('stretch.load[1][0] should be a number; found "b".');
  });
});
