/** Source: each check names its own; these are the very checks that `snugfield prove` prints. */
import { describe, expect, it } from 'vitest';
import { passes } from '../../core/proof/check.ts';
import { PROOF_SUBJECTS, proveSubject } from '../../core/proof/run-proof.ts';

describe.each(PROOF_SUBJECTS)('$subject', (subject) => {
  const search = proveSubject(subject);
  let step = search.next();
  while (!step.done) step = search.next();
  const checks = step.value;

  it.each(checks)('$id', (check) => {
    expect(check.source).not.toBe('');
    expect(check.tolerance).toBeGreaterThanOrEqual(0);
    expect(Math.abs(check.got - check.expected)).toBeLessThanOrEqual(check.tolerance);
  });
});

describe('a check', () => {
  const check = { id: 'x', source: 'made up', expected: 10, unit: 'Pa', tolerance: 0.1 };

  it('fails outside its tolerance and for what is no number', () => {
    expect(passes({ ...check, got: 10.05 })).toBe(true);
    expect(passes({ ...check, got: 10.2 })).toBe(false);
    expect(passes({ ...check, got: Number.NaN })).toBe(false);
  });
});
