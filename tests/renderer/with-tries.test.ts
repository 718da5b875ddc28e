import { expect, it } from 'vitest';
import { changedStudy } from '../../core/study/changed-study.ts';
import type { StudyChange } from '../../core/study/study.ts';
import { studySheet } from '../../renderer/worker/settled-study.ts';
import { withTries } from '../../renderer/with-tries.ts';
import { demoStudy, demoStudyText } from '../help/demo-study.ts';

/** The demonstration with an elastic and a lining sewn to it. */
function richText(): string {
  const file = JSON.parse(demoStudyText()) as { garment: { tube: Record<string, unknown> } };
  Object.assign(file.garment.tube, {
    bands: [
      { at: 'upper', widthMm: 20, relaxedMm: 560, curve: [[20, 1.5]] },
      { at: 1000, widthMm: 15, relaxedMm: 600, curve: [[20, 1]] },
    ],
    linings: [{ fromMm: 900, toMm: 1000, grainDeg: 90 }, {}],
  });
  return JSON.stringify(file);
}

/** Every number of a piece of data, in order. */
const numbers = (value: unknown): number[] =>
  JSON.stringify(value)
    .match(/-?[\d.]+(e-?\d+)?/g)!
    .map(Number);

it.each<[string, StudyChange]>([
  ['friction by its name', { friction: { coefficient: 0.6, from: 'damp' } }],
  ['friction typed', { friction: { coefficient: 0.42, from: 'typed' } }],
  ['the cut', { girthScale: 0.96 }],
  ['where it is laid', { from: 0.9, to: 1.11 }],
  ['a layer of flesh', { flesh: { kind: 'layer', poisson: 0.47, skin: 'held' } }],
  ['the curve', { branch: 'return' }],
  [
    'other measures',
    {
      measures: {
        stature: 1.7,
        bust: 0.96,
        underbust: 0.82,
        waist: 0.8,
        hip: 1.04,
        thigh: 0.62,
        figure: 'female',
      },
    },
  ],
  [
    'another stance and shape',
    { shape: { legSpread: (5 * Math.PI) / 180, seatCleft: 0.02, bustSupport: 0.5 } },
  ],
  [
    'a tape laid by hand',
    {
      tape: {
        placed: { waistFront: [0.001, 1.052, 0.1] },
        lines: [
          {
            name: 'waist',
            kind: 'trunk',
            side: 'middle',
            center: [0, 1.052, 0.02],
            normal: [0, Math.cos(0.1), Math.sin(0.1)],
            surface: 'taut',
          },
        ],
      },
    },
  ],
  [
    'tissue corrected',
    {
      tissue: {
        regions: [
          { region: 'belly', depth: 0.031 },
          { region: 'side', modulus: 25e3 },
        ],
        strokes: [{ center: [0.1, 1, 0.08], radius: 0.03, depth: 0.022, falloff: 0.5 }],
      },
    },
  ],
  ['all together', { girthScale: 1.05, from: 0.87, flesh: { kind: 'layer', poisson: 0.45, skin: 'slides' } }],
])('a study saved with %s tried reads back as it was tried', async (_, tried) => {
  const text = richText();
  const study = await demoStudy(text);
  const worn = changedStudy(study, tried);
  const read = await demoStudy(withTries(text, tried, studySheet(worn)));
  expect(read.name).toBe(`${study.name}, as tried`);
  expect({ ...read, garment: null }).toEqual({ ...worn, name: read.name, garment: null });
  expect(JSON.stringify(read.garment).replaceAll(/[\d.e-]+/g, '#')).toBe(
    JSON.stringify(worn.garment).replaceAll(/[\d.e-]+/g, '#'),
  );
  // Files hold tenths of a millimetre.
  numbers(read.garment).forEach((value, i) =>
    expect(Math.abs(value - numbers(worn.garment)[i]!)).toBeLessThanOrEqual(0.5001e-4),
  );
});
