/**
 * Damages small mesh files of all four formats and reads each; prints how they fared as JSON, and ends with 1 where
 * one was let through unsound, was not done in steps that suit its size, or made anything fail but a Fault.
 *
 * Arguments: how many (20000 if left out) and the first seed. What a failing one was can be made again from its seed.
 */
import { damaged, outcomeOf, soundMeshFiles } from '../help/mutated-meshes.ts';

const count = Number(process.argv[2] ?? 20_000);
const first = Number(process.argv[3] ?? 1);
const files = soundMeshFiles();
const outcomes: Record<string, number> = {};
const failures: { readonly seed: number; readonly name: string; readonly error: string }[] = [];
let slowestMs = 0;
let slowest = '';
const start = performance.now();
for (let seed = first; seed < first + count; seed++) {
  const file = files[seed % files.length]!;
  const began = performance.now();
  try {
    // oxlint-disable-next-line no-await-in-loop -- one after another, so that each has its own time
    const outcome = await outcomeOf({ name: file.name, bytes: damaged(file.bytes, seed) });
    outcomes[outcome] = (outcomes[outcome] ?? 0) + 1;
  } catch (error) {
    failures.push({ seed, name: file.name, error: String(error).slice(0, 300) });
  }
  const took = performance.now() - began;
  if (took > slowestMs) [slowestMs, slowest] = [took, `${file.name}, seed ${seed}`];
}
const seconds = (performance.now() - start) / 1000;
console.log(JSON.stringify({ count, first, seconds, outcomes, slowestMs, slowest, failures }, null, 2));
process.exitCode = failures.length > 0 ? 1 : 0;
