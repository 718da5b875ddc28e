import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { changedStudy } from '../../../core/study/changed-study.ts';
import { openStudy } from '../../../core/study/open-study.ts';
import { runStudy } from '../../../core/study/run-study.ts';
import type { StandingStudy } from '../../../core/study/standing-study.ts';
import type { Study } from '../../../core/study/study.ts';
import { faultOf } from '../../help/fault-of.ts';

const folder = new URL('../../../assets/short/', import.meta.url);
const beside = (name: string): string => readFileSync(new URL(name, folder), 'utf8');
const text = beside('harbour-short.study.json');
const open = (file: string): Promise<Study> =>
  openStudy(file, 'short.study.json', {
    text: (name) => Promise.resolve(beside(name)),
    bytes: (name) => Promise.resolve(readFileSync(new URL(name, folder))),
  });

function run(study: Study, before?: StandingStudy) {
  const chain = runStudy(study, before);
  let step = chain.next();
  while (!step.done) step = chain.next();
  return step.value;
}

describe('a study of a cut short', async () => {
  const opened = await open(text);
  const study = { ...opened, fabrics: opened.fabrics.slice(0, 1), edge: 0.012 };
  const first = run(study);

  it('comes to rest, sewn of panels, its lines as the sheet says', () => {
    expect(first.worn[0]!.equilibrium.atRest).toBe(true);
    const relaxed = Object.fromEntries(first.garment.lines!.map((line) => [line.name, line.relaxed]));
    expect(Math.abs(relaxed['waist']! - 0.612)).toBeLessThan(0.0005);
    expect(Math.abs(relaxed['hem']! - 0.424)).toBeLessThan(0.0005);
  });

  it('is tried smaller from where it rested, as if it had been cut so', () => {
    const smaller = changedStudy(study, { girthScale: 0.98 });
    const warm = run(smaller, first.standing);
    const cold = run(smaller);
    expect(warm.worn[0]!.equilibrium.atRest).toBe(true);
    const mean = (result: typeof warm): number => {
      const { values } = result.worn[0]!.fields.find(({ id }) => id === 'skinPressure')!;
      return values.reduce((sum, value) => sum + value, 0) / values.length;
    };
    expect(Math.abs(mean(warm) / mean(cold) - 1)).toBeLessThan(0.01);
    expect(mean(warm)).toBeGreaterThan(mean(first));
  });
});

const withGarment = (change: (garment: Record<string, Record<string, number>>) => void): string => {
  const file = JSON.parse(text) as { garment: Record<string, Record<string, number>> };
  change(file.garment);
  return JSON.stringify(file);
};

describe('a block that cannot be read', () => {
  it('names a level that the block has none of', async () => {
    await expect(open(withGarment(({ girthsMm }) => (girthsMm!['elbow'] = 200)))).rejects.toMatchObject({
      code: 'file/wrong-shape',
      facts: { path: 'garment.girthsMm.elbow' },
    });
  });

  it('names a girth that is missing', async () => {
    const study = await open(withGarment(({ girthsMm }) => delete girthsMm!['thigh']));
    expect(faultOf(() => run(study))).toMatchObject({
      code: 'block/girth-missing',
      facts: { level: 'thigh' },
    });
  });
});
