import { describe, expect, it } from 'vitest';
import { changedStudy } from '../../../core/study/changed-study.ts';
import { asTube } from '../../help/as-tube.ts';
import type { Study } from '../../../core/study/study.ts';

const study: Study = {
  name: 'tube',
  body: {
    kind: 'fitBody',
    measures: { stature: 1.68, bust: 0.92, underbust: 0.79, waist: 0.76, hip: 1.01, figure: 'female' },
  },
  fabrics: [],
  garment: {
    region: 'trunk',
    from: 0.9,
    to: 1.1,
    girths: [
      { at: 0.9, relaxed: 0.8 },
      { at: 1, relaxed: 0.6 },
      { at: 1.1, relaxed: 0.62 },
    ],
    relaxedLength: 0.2,
    warp: 'along',
    bands: [
      { at: 'upper', width: 0.02, relaxed: 0.5, curve: [[0.2, 2]] },
      { at: 1.05, width: 0.01, relaxed: 0.55, curve: [[0.2, 2]] },
    ],
    linings: [{ fabric: 0, from: 0.95 }],
  },
  friction: 0.3,
  frictionFrom: 'dry',
  branch: 'load',
  edge: 0.008,
};

describe('changedStudy', () => {
  it('changes nothing where nothing is asked, and never the study given', () => {
    const before = structuredClone(study);
    expect(changedStudy(study, {})).toEqual(study);
    changedStudy(study, { girthScale: 0.9, from: 0.8, branch: 'return' });
    expect(study).toEqual(before);
  });

  it('takes friction with where it is from, flesh and branch as asked', () => {
    const changed = changedStudy(study, {
      friction: { coefficient: 0.6, from: 'damp' },
      flesh: { kind: 'layer', poisson: 0.45, skin: 'held' },
      branch: 'return',
    });
    expect(changed).toMatchObject({
      friction: 0.6,
      frictionFrom: 'damp',
      flesh: { kind: 'layer', poisson: 0.45, skin: 'held' },
      branch: 'return',
    });
    expect(changed.garment).toEqual(study.garment);
  });

  it('scales every girth and every elastic, and no length', () => {
    const garment = asTube(changedStudy(study, { girthScale: 0.9 }).garment);
    expect(garment.girths.map(({ relaxed }) => relaxed / 0.9)).toEqual(
      [0.8, 0.6, 0.62].map((x) => expect.closeTo(x, 12)),
    );
    expect(garment.bands?.map(({ relaxed }) => relaxed)).toEqual(
      [0.45, 0.495].map((x) => expect.closeTo(x, 12)),
    );
    expect(garment.relaxedLength).toBe(0.2);
  });

  it('lays the same piece elsewhere: heights on it go along, its cut stays', () => {
    const garment = asTube(changedStudy(study, { from: 0.92, to: 1.16 }).garment);
    expect([garment.from, garment.to]).toEqual([0.92, 1.16]);
    // The hems to the bit, so that a girth at a hem never lies off the garment; the middle in the middle.
    expect(garment.girths.map(({ at }) => at)).toEqual([0.92, expect.closeTo(1.04, 12), 1.16]);
    expect(garment.girths.map(({ relaxed }) => relaxed)).toEqual([0.8, 0.6, 0.62]);
    expect(garment.bands?.map(({ at }) => at)).toEqual(['upper', expect.closeTo(1.1, 12)]);
    expect(garment.linings).toEqual([{ fabric: 0, from: expect.closeTo(0.98, 12) as number }]);
  });
});
