import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { createTensionResponse, evaluateTension } from '../../../core/fabric/evaluate-tension.ts';
import { fabricFromReadings } from '../../../core/fabric/fabric-from-readings.ts';
import type { Fabric } from '../../../core/fabric/fabric.ts';
import { Fault } from '../../../core/fault/fault.ts';
import { parseBenchSheet, readBenchSheet } from '../../../core/io/read-bench-sheet.ts';
import { sayFault, sayFinding } from '../../../core/words/say.ts';
import { demoSheetText } from '../../help/demo-sheet.ts';

const NAMES = ['tern-210', 'plover-185', 'siskin-160'] as const;
const demoName = fc.constantFrom(...NAMES);

type Place = (string | number)[];

/** Every place of a value that `wanted` picks. */
function placesIn(value: unknown, wanted: (value: unknown) => boolean, place: Place = []): Place[] {
  const own = place.length > 0 && wanted(value) ? [place] : [];
  if (typeof value !== 'object' || value === null) return own;
  const inner = Object.entries(value).flatMap(([key, part]) =>
    placesIn(part, wanted, [...place, Array.isArray(value) ? Number(key) : key]),
  );
  return [...own, ...inner];
}

const sheetOf = (name: (typeof NAMES)[number]): unknown => JSON.parse(demoSheetText(name));
const places = new Map(NAMES.map((name) => [name, placesIn(sheetOf(name), () => true)]));
const numbers = new Map(
  NAMES.map((name) => [name, placesIn(sheetOf(name), (value) => typeof value === 'number')]),
);

/** Changes the value at a place, if the place is still there; `undefined` takes it out. */
function put(sheet: unknown, place: Place, change: (value: unknown) => unknown): void {
  let holder: unknown = sheet;
  for (const part of place.slice(0, -1)) {
    if (typeof holder !== 'object' || holder === null) return;
    holder = (holder as Record<string | number, unknown>)[part];
  }
  if (typeof holder !== 'object' || holder === null) return;
  const last = place.at(-1)!;
  (holder as Record<string | number, unknown>)[last] = change(
    (holder as Record<string | number, unknown>)[last],
  );
}

/** The fault of `run`, or what it gives; any other error goes on and fails the test. */
function outcome<T>(run: () => T): T | Fault {
  try {
    return run();
  } catch (error) {
    if (error instanceof Fault) return error;
    throw error;
  }
}

/** A fault says where: a path in the sheet, a line of the text, or a strip and a place on it. */
function expectPlain(fault: Fault): void {
  const { what, remedy } = sayFault(fault);
  expect(`${what} ${remedy}`).not.toMatch(/NaN|undefined|Infinity|\[object/);
  expect(what.length).toBeGreaterThan(10);
  if (fault.code === 'file/wrong-shape') expect(fault.facts).toHaveProperty('path');
  if (fault.code === 'file/not-json') expect((fault.facts as { line: number }).line).toBeGreaterThan(0);
}

/** Every number under a value, typed arrays included. */
function* numbersUnder(value: unknown): Generator<number> {
  if (typeof value === 'number') yield value;
  else if (value instanceof Float64Array) yield* value;
  else if (typeof value === 'object' && value !== null)
    for (const part of Object.values(value)) yield* numbersUnder(part);
}

function expectSound(fabric: Fabric, f: readonly number[]): void {
  const { laws, bandLaws, ...rest } = fabric;
  for (const number of numbersUnder(rest)) expect(Number.isFinite(number)).toBe(true);
  for (const finding of fabric.findings)
    expect(sayFinding(finding)).not.toMatch(/NaN|undefined|Infinity|\[object/);
  const { band } = fabric;
  expect(band!.low).toBeLessThanOrEqual(band!.shown);
  expect(band!.shown).toBeLessThanOrEqual(band!.high);
  const response = createTensionResponse();
  for (const law of [laws.load, laws.return, bandLaws!.load.low, bandLaws!.load.high]) {
    if (law === null) continue;
    for (const at of [
      f,
      [1.3, 0, 0, 0, 1.1, 0],
      [1, 0, 0, 0, 1, 0],
      [1.9, 0, 0, 0, 0.6, 0],
      [0, 0, 0, 0, 0, 0],
    ]) {
      evaluateTension(law, Float64Array.from(at), true, response);
      expect(Number.isFinite(response.energy)).toBe(true);
      expect([...response.stress, ...response.stiffness].every(Number.isFinite)).toBe(true);
    }
  }
}

const oddValue = fc.oneof(
  fc.constantFrom<unknown>(
    undefined,
    null,
    true,
    '',
    '12,5',
    [],
    {},
    [[]],
    [[[]]],
    [[0, 0]],
    -1,
    0,
    1e-300,
    1e300,
  ),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.string({ maxLength: 5 }),
  fc.jsonValue({ maxDepth: 2 }),
);

describe('a spoilt sheet gives a fault that says where, or a sound fabric; never another error', () => {
  it('with values replaced by odd ones (seed 1)', () => {
    const changes = demoName.chain((name) =>
      fc.record({
        name: fc.constant(name),
        odd: fc.array(fc.tuple(fc.constantFrom(...places.get(name)!), oddValue), {
          minLength: 1,
          maxLength: 3,
        }),
      }),
    );
    fc.assert(
      fc.property(changes, ({ name, odd }) => {
        const sheet = sheetOf(name);
        for (const [place, value] of odd) put(sheet, place, () => value);
        const got = outcome(() => readBenchSheet(JSON.stringify(sheet)));
        if (got instanceof Fault) expectPlain(got);
        else expectSound(got, [1.1, 0, 0, 0, 1.1, 0]);
      }),
      { seed: 1, numRuns: 400 },
    );
  });

  it('with numbers off by a factor, as slips of unit and of the finger make them (seed 2)', () => {
    const factor = fc.constantFrom(0, 1e-6, 0.01, 0.5, 0.9, 0.97, 0.99, 1.01, 1.03, 1.1, 2, 100, 1e6, -1);
    const changes = demoName.chain((name) =>
      fc.record({
        name: fc.constant(name),
        slips: fc.array(fc.tuple(fc.constantFrom(...numbers.get(name)!), factor), {
          minLength: 1,
          maxLength: 3,
        }),
      }),
    );
    const deformation = fc.array(fc.double({ min: -2, max: 2, noNaN: true }), { minLength: 6, maxLength: 6 });
    let accepted = 0;
    fc.assert(
      fc.property(changes, deformation, ({ name, slips }, f) => {
        const sheet = sheetOf(name);
        for (const [place, by] of slips) put(sheet, place, (value) => (value as number) * by);
        const got = outcome(() => readBenchSheet(JSON.stringify(sheet)));
        if (got instanceof Fault) return expectPlain(got);
        accepted++;
        expectSound(got, f);
      }),
      { seed: 2, numRuns: 300 },
    );
    expect(accepted).toBeGreaterThan(75);
  });

  it('with every unit that a sheet may choose (seed 3)', () => {
    const units = fc.record(
      {
        extension: fc.constantFrom('%', 'mm', 'ratio'),
        force: fc.constantFrom('N', 'cN', 'gf', 'kgf', 'N/m', 'N/5 cm', 'gf/cm'),
        width: fc.constantFrom('mm', '%', 'ratio'),
      },
      { requiredKeys: [] },
    );
    fc.assert(
      fc.property(demoName, units, fc.constantFrom('strip', 'loop'), (name, chosen, test) => {
        const sheet = sheetOf(name) as { stretch: Record<string, unknown> };
        Object.assign(sheet.stretch, { units: chosen, test });
        const got = outcome(() => readBenchSheet(JSON.stringify(sheet)));
        if (got instanceof Fault) expectPlain(got);
        else expectSound(got, [1.1, 0, 0, 0, 1.1, 0]);
      }),
      { seed: 3, numRuns: 150 },
    );
  });

  it('with the text itself cut, doubled or sown with other characters (seed 4)', () => {
    const edit = fc.record({
      at: fc.double({ min: 0, max: 1, noNaN: true }),
      length: fc.nat(40),
      put: fc.string({ unit: 'binary', maxLength: 4 }),
    });
    fc.assert(
      fc.property(demoName, fc.array(edit, { minLength: 1, maxLength: 3 }), (name, edits) => {
        let text = demoSheetText(name);
        for (const { at, length, put: added } of edits) {
          const start = Math.floor(at * text.length);
          text = text.slice(0, start) + added + text.slice(start + length);
        }
        const got = outcome(() => parseBenchSheet(text));
        if (got instanceof Fault) expectPlain(got);
        else for (const number of numbersUnder(got)) expect(Number.isFinite(number)).toBe(true);
      }),
      { seed: 4, numRuns: 400 },
    );
  });
});

/** Readings that come from anywhere: rising or not, dense or sparse, with or without each optional part. */
const randomReadings = fc.array(
  fc.tuple(fc.double({ min: 0, max: 3, noNaN: true }), fc.double({ min: -1, max: 400, noNaN: true })),
  { minLength: 1, maxLength: 12 },
);

/** By extension. */
const rising = <T extends readonly [number, number]>(list: readonly T[]): T[] =>
  list.toSorted((a, b) => a[0] - b[0]);

it('curves drawn at random are refused or fitted, never answered with a NaN (seed 5)', () => {
  const curves = fc.record({
    load: fc.array(randomReadings, { minLength: 1, maxLength: 3 }),
    back: fc.option(randomReadings),
    width: fc.option(
      fc.array(
        fc.tuple(
          fc.double({ min: 0, max: 2, noNaN: true }),
          fc.double({ min: 1e-3, max: 0.06, noNaN: true }),
        ),
        { maxLength: 6 },
      ),
    ),
  });
  const base = parseBenchSheet(demoSheetText('tern-210'));
  fc.assert(
    fc.property(
      curves,
      fc.constantFrom('warp', 'weft', 'bias'),
      fc.boolean(),
      ({ load, back, width }, direction, sorted) => {
        // Half of them with forces that rise, so that more than the first guard is met.
        const forces = (list: readonly (readonly [number, number])[]) => {
          const values = list.map(([, force]) => force);
          const inOrder = sorted ? values.toSorted((a, b) => a - b) : values;
          return rising(list).map(([extension], i) => ({ extension, force: inOrder[i]! / 20 }));
        };
        const strip = {
          load: load.map(forces),
          return: back === null ? null : [forces(back)],
          width:
            width === null
              ? null
              : [rising(width).map(([extension, value]) => ({ extension, width: value }))],
        };
        const got = outcome(() =>
          fabricFromReadings({
            ...base,
            stretched: { ...base.stretched, strips: { ...base.stretched.strips, [direction]: strip } },
          }),
        );
        if (got instanceof Fault) expectPlain(got);
        else expectSound(got, [1.1, 0, 0, 0, 1.1, 0]);
      },
    ),
    { seed: 5, numRuns: 400 },
  );
});
