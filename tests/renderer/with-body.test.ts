import { describe, expect, it } from 'vitest';
import { readStudyFile } from '../../core/io/study-file.ts';
import { tallWords } from '../../core/words/import-step-words.ts';
import type { LevelPair } from '../../renderer/store/carry-levels.ts';
import { USUAL_FLESH } from '../../renderer/store/import-store.ts';
import { withBody, type StudyBody } from '../../renderer/with-body.ts';
import { demoStudyText } from '../help/demo-study.ts';

const file = { name: 'avatar.glb', blob: new Blob(['the mesh']) };
const body: StudyBody = {
  file,
  choices: { unit: 'cm', up: '+z', front: '-y', part: 'largest', closeHoles: true, refineEdgeMm: 12 },
  partNames: ['Body', 'Eyes', 'Eyes'],
  flesh: USUAL_FLESH,
  places: [],
};
const study = {
  name: 'a.study.json',
  text: demoStudyText(),
  readBeside: (path: string) => Promise.resolve(new TextEncoder().encode(path)),
};
const worn = (part: Partial<StudyBody> = {}) => withBody(study, { ...body, ...part });
const parsed = (part: Partial<StudyBody> = {}) => readStudyFile(worn(part).text);

const part = (index: number) => parsed({ choices: { ...body.choices, part: index } }).body;
const decode = async (path: string) => new TextDecoder().decode((await worn().readBeside(path))!);

describe('a study with another body', () => {
  it('is a study that reads, with everything else as it was', () => {
    const before = readStudyFile(demoStudyText());
    expect(parsed()).toEqual({
      ...before,
      body: {
        mesh: 'avatar.glb',
        import: { unit: 'cm', up: '+z', front: '-y', closeHoles: true, refineEdgeMm: 12 },
        tissue: 'transferred',
      },
    });
  });

  it('names a part by its name, and by its number where others are called the same', () => {
    expect(part(0)).toMatchObject({ import: { part: 'Body' } });
    expect(part(2)).toMatchObject({ import: { part: 3 } });
  });

  it('keeps the flesh that was asked for', () => {
    expect(parsed({ flesh: { kind: 'even', depthMm: 25, modulusKPa: 30 } }).body).toMatchObject({
      tissue: { depthMm: 25, modulusKPa: 30 },
    });
    expect(parsed({ flesh: { ...USUAL_FLESH, kind: 'rigid' } }).body).toMatchObject({ tissue: 'rigid' });
  });

  it('has the mesh beside it, and the files that it had', async () => {
    expect(await decode('avatar.glb')).toBe('the mesh');
    expect(await decode('tern-210.bench.json')).toBe('tern-210.bench.json');
  });

  it('lays the garment at the same places: heights move, measures do not', () => {
    const places: readonly LevelPair[] = [
      [0, 0],
      [2000, 2200],
    ];
    const { garment } = readStudyFile(demoStudyText());
    const moved = parsed({ places }).garment;
    if (!('tube' in garment) || !('tube' in moved)) throw new Error('the demonstration is a tube');
    const { tube } = garment;
    expect(moved.tube.fromMm).toBeCloseTo(1.1 * tube.fromMm, 1);
    expect(moved.tube.toMm).toBeCloseTo(1.1 * tube.toMm, 1);
    moved.tube.girths.forEach(({ atMm, relaxedMm }, i) => {
      expect(atMm).toBeCloseTo(1.1 * tube.girths[i]!.atMm, 1);
      expect(relaxedMm).toBe(tube.girths[i]!.relaxedMm);
    });
    expect(moved.tube.relaxedLengthMm).toBe(tube.relaxedLengthMm);
    expect(moved.tube.bands).toEqual(tube.bands);
  });

  it('does not keep what was corrected by hand on the body before', () => {
    const text = JSON.stringify({
      ...(JSON.parse(study.text) as object),
      tissue: { moduli: 'byRegion' },
    });
    expect('tissue' in (JSON.parse(withBody({ ...study, text }, body).text) as object)).toBe(false);
  });
});

it.each([
  [0.1732, '0.17\u00a0mm'],
  [1.73, '1.7\u00a0mm'],
  [173.2, '173\u00a0mm'],
  [1732, '1\u202f732\u00a0mm'],
  [44_000, '44.0\u00a0m'],
  [143_000, '143\u00a0m'],
  [1_732_000, '1.7\u00a0km'],
])('says %d mm as %s', (height, words) => {
  expect(tallWords(height)).toBe(words);
});
