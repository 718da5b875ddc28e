/** Source: each check names its own; these are the very checks that `snugfield prove` prints. */
import { readFileSync } from 'node:fs';

import { describe, expect, it } from 'vitest';
import { passes, type Check } from '../../core/proof/check.ts';
import { knits2023 } from '../../core/proof/data/knit-uniaxial-2023.ts';
import { PROOF_SUBJECTS, proveSubject, runProof, type ProofSubject } from '../../core/proof/run-proof.ts';
import { proofWhat } from '../../core/words/proof-row-words.ts';
import { proofTitle } from '../../core/words/proof-words.ts';

// Each subject is computed once, while the tests are gathered: no test waits for it.
const seen: Check[] = [];

describe.each(PROOF_SUBJECTS)('$subject', (subject) => {
  const search = proveSubject(subject);
  let step = search.next();
  while (!step.done) step = search.next();
  const checks = step.value;
  seen.push(...checks);

  it.each(checks)('$id', (check) => {
    expect(check.source.length).toBeGreaterThan(10);
    expect(check.tolerance).toBeGreaterThanOrEqual(0);
    expect(Math.abs(check.got - check.expected)).toBeLessThanOrEqual(check.tolerance);
  });

  it('has a title, and words for every row', () => {
    expect(proofTitle(subject.subject)).not.toBe(subject.subject);
    expect(checks.filter((check) => proofWhat(check) === check.id)).toEqual([]);
    expect(checks.filter((check) => proofWhat(check).includes('$'))).toEqual([]);
  });
});

it('no two checks share an id', () => {
  expect(new Set(seen.map(({ id }) => id)).size).toBe(seen.length);
});

describe('a check', () => {
  const check = { id: 'x', source: 'made up', expected: 10, unit: 'Pa', tolerance: 0.1 };

  it('fails outside its tolerance and for what is no number', () => {
    expect(passes({ ...check, got: 10.05 })).toBe(true);
    expect(passes({ ...check, got: 10.2 })).toBe(false);
    expect(passes({ ...check, got: Number.NaN })).toBe(false);
  });
});

describe('running a proof', () => {
  const check = { id: 'x', source: 'made up', expected: 1, got: 1, unit: '1', tolerance: 0 };
  const long: ProofSubject = {
    subject: 'long',
    *run() {
      yield;
      yield;
      return [check];
    },
  };
  const short: ProofSubject = { subject: 'short', run: () => [check, check] };

  it('tells the subject before it begins and at every pause, then gives all in order', () => {
    const running = runProof([short, long]);
    const told: string[] = [];
    let step = running.next();
    for (; !step.done; step = running.next())
      told.push(`${step.value.done + 1}/${step.value.of} ${step.value.subject}`);
    expect(told).toEqual(['1/2 short', '2/2 long', '2/2 long', '2/2 long']);
    expect(step.value).toEqual([
      { subject: 'short', checks: [check, check] },
      { subject: 'long', checks: [check] },
    ]);
  });
});

it('the knits in the proof are those of the open data', () => {
  const table = readFileSync(new URL('./data/knit-uniaxial-2023.csv', import.meta.url), 'utf8');
  const rows = table
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(','))
    .filter((cells) => cells[4] !== 'nan' && cells[4] !== 'NaN')
    .map(([sample, width, force, , stretch, ratio]) => [
      sample,
      ...[width, force, stretch, ratio].map(Number),
    ]);
  const ours = knits2023.flatMap(({ sample, clampWidth, readings }) =>
    readings.map((reading) => [sample, clampWidth, ...reading]),
  );
  expect(ours).toEqual(rows);
});
