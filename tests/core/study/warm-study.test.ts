/** A changed study run on from what stood before, beside the same study run afresh: two ways to one rest. */
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { Fault } from '../../../core/fault/fault.ts';
import { wornMesh } from '../../../core/fields/worn-fields.ts';
import { vertexAreas } from '../../../core/mesh/vertex-areas.ts';
import { changedStudy } from '../../../core/study/changed-study.ts';
import { openStudy } from '../../../core/study/open-study.ts';
import { runStudy } from '../../../core/study/run-study.ts';
import type { StandingStudy, StudyRun } from '../../../core/study/standing-study.ts';
import type { Study, StudyChange } from '../../../core/study/study.ts';
import { fieldNamed } from '../../help/banded-tube.ts';

const demo = new URL('../../../assets/demo/', import.meta.url);
const readText = (name: string): Promise<string> =>
  Promise.resolve(readFileSync(new URL(name, demo), 'utf8'));

function run(study: Study, before?: StandingStudy): StudyRun {
  const chain = runStudy(study, before);
  let step = chain.next();
  while (!step.done) step = chain.next();
  return step.value;
}

let study: Study;
let first: StudyRun;
beforeAll(async () => {
  const name = 'harbour-waist-shaper.study.json';
  const opened = await openStudy(await readText(name), name, {
    text: readText,
    bytes: () => Promise.reject(new Error('no bytes in this study')),
  });
  study = { ...opened, fabrics: opened.fabrics.slice(0, 1), edge: 0.01 };
  first = run(study);
});

/** Root mean square of the difference of two pressure maps over that of the second, by worn area. */
function apart(one: StudyRun, other: StudyRun): number {
  const [a, b] = [one, other].map(({ worn }) => fieldNamed(worn[0]!.fields, 'skinPressure').values);
  const areas = vertexAreas(wornMesh(other.garment, other.worn[0]!.equilibrium));
  let [difference, size] = [0, 0];
  areas.forEach((area, v) => {
    difference += area * (a![v]! - b![v]!) ** 2;
    size += area * b![v]! ** 2;
  });
  return Math.sqrt(difference / size);
}

const finestSteps = ({ worn }: StudyRun): number => worn[0]!.equilibrium.newtonSteps.at(-1)!;

describe('a study run on from what stood before', () => {
  const changes: readonly (readonly [string, StudyChange])[] = [
    ['nothing changed', {}],
    ['more friction', { friction: { coefficient: 0.7, from: 'typed' } }],
    ['the return branch', { branch: 'return' }],
    ['cut 3 % smaller', { girthScale: 0.97 }],
    ['cut 6 % larger', { girthScale: 1.06 }],
    ['laid 8 mm lower', { from: 0.872, to: 1.092 }],
    ['laid over a longer way, on a mesh of its own', { from: 0.85, to: 1.13 }],
    ['flesh as a layer', { flesh: { kind: 'layer', poisson: 0.45, skin: 'slides' } }],
  ];

  it.each(changes)('rests where it rests afresh: %s', (_, change) => {
    const changed = changedStudy(study, change);
    const warm = run(changed, first.standing);
    const cold = run(changed);
    expect(warm.worn[0]!.equilibrium.atRest && cold.worn[0]!.equilibrium.atRest).toBe(true);
    // Both are settled to 1e-4 of the contact force; met 1e-6 to 5e-4.
    expect(apart(warm, cold)).toBeLessThan(1e-3);
  });

  it('hardly searches on the finest level after a small change, and not at all after none', () => {
    // A search that came from afar may leave its last friction two steps of polish; what was run on leaves none.
    const again = run(study, first.standing);
    expect(finestSteps(again)).toBeLessThanOrEqual(2);
    expect(finestSteps(run(study, again.standing))).toBe(0);
    const changed = changedStudy(study, { girthScale: 0.99 });
    expect(finestSteps(run(changed, first.standing))).toBeLessThan(finestSteps(run(changed)));
  });

  it('goes on from change to change', () => {
    let standing = first.standing;
    for (const girthScale of [0.99, 0.98, 0.97]) {
      standing = run(changedStudy(study, { girthScale }), standing).standing;
    }
    const back = run(study, standing);
    expect(apart(back, first)).toBeLessThan(1e-3);
  });

  it('keeps the body, and of the laid cloth what a change leaves alone', () => {
    const rubbed = run(changedStudy(study, { friction: { coefficient: 0.6, from: 'damp' } }), first.standing);
    expect(rubbed.standing.body).toBe(first.standing.body);
    expect(rubbed.standing.cloth).toBe(first.standing.cloth);
    const { cloth } = run(changedStudy(study, { girthScale: 0.98 }), first.standing).standing;
    expect(cloth.foundation).toBe(first.standing.cloth.foundation);
    expect(cloth.prepared).toBe(first.standing.cloth.prepared);
    expect(cloth.skin).toBe(first.standing.cloth.skin);
  });

  it('makes another body anew', () => {
    const { body } = study;
    if (body.kind !== 'fitBody') throw new Error('the demo has a form');
    const other = { ...study, body: { ...body, measures: { ...body.measures, waist: 0.78 } } };
    const warm = run(other, first.standing);
    expect(warm.standing.body).not.toBe(first.standing.body);
    expect(apart(warm, run(other))).toBeLessThan(1e-3);
  });

  it('does not start from where nothing came to rest', () => {
    const rests = new Map(
      [...first.standing.rests].map(([id, rest]) => {
        const levels = rest.levels.map(
          (level) => level && { ...level, shift: level.shift.map((moved, i) => moved + 0.05 * Math.sin(i)) },
        );
        return [id, { ...rest, levels, equilibrium: { ...rest.equilibrium, atRest: false } }];
      }),
    );
    const { worn } = run(study, { ...first.standing, rests });
    expect(worn[0]!.equilibrium.positions).toEqual(first.worn[0]!.equilibrium.positions);
  });

  it('finds the rest that a search from the laid cloth finds, also where what stood before leads astray', () => {
    const rests = new Map(
      [...first.standing.rests].map(([id, rest]) => {
        // The cloth turned inside out round the body's axis, and said to rest there.
        const finest = rest.levels.at(-1)!;
        const laid = first.garment.levels.at(-1)!.mesh.positions;
        const shift = finest.shift.map((moved, i) => (i % 3 === 1 ? moved : -2 * laid[i]!));
        return [id, { ...rest, levels: [...rest.levels.slice(0, -1), { ...finest, shift }] }];
      }),
    );
    const again = run(study, { ...first.standing, rests });
    expect(again.worn[0]!.equilibrium.atRest).toBe(true);
    expect(apart(again, first)).toBeLessThan(1e-3);
  });

  it('loses nothing by a run that is stopped or fails', () => {
    const changed = changedStudy(study, { girthScale: 0.95 });
    const expected = run(changed, first.standing);
    const stopped = runStudy(changedStudy(study, { girthScale: 0.8 }), first.standing);
    for (let i = 0; i < 8; i++) expect(stopped.next().done).toBe(false);
    expect(() => run(changedStudy(study, { girthScale: 0.1 }), first.standing)).toThrow(Fault);
    const again = run(changed, first.standing);
    expect(again.worn[0]!.equilibrium.positions).toEqual(expected.worn[0]!.equilibrium.positions);
  });
});
