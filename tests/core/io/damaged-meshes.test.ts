import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { damaged, outcomeOf, soundMeshFiles, type Outcome } from '../../help/mutated-meshes.ts';

const files = soundMeshFiles();

describe('damaged mesh files', () => {
  it('the sound ones are read and make bodies', async () => {
    for (const file of files) expect([file.name, await outcomeOf(file)]).toEqual([file.name, 'imported']);
  });

  it('500 damaged files of all four formats: read soundly or refused, nothing else (seed 11)', async () => {
    const seen = new Map<Outcome, number>();
    await fc.assert(
      fc.asyncProperty(fc.nat(files.length - 1), fc.integer(), async (which, seed) => {
        const file = files[which]!;
        const outcome = await outcomeOf({ name: file.name, bytes: damaged(file.bytes, seed) });
        seen.set(outcome, (seen.get(outcome) ?? 0) + 1);
      }),
      { seed: 11, numRuns: 500 },
    );
    // Both ways are taken: damage that hurts, and damage that can be lived with.
    expect(seen.get('refused')).toBeGreaterThan(100);
    expect(seen.get('imported')).toBeGreaterThan(30);
  });
});
