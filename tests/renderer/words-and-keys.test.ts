import { describe, expect, it } from 'vitest';
import { PRESSURE_BANDS } from '../../core/judgement/limits.ts';
import { FIELD_ORDER, FIELD_WORDS, fieldHeading, missingWords } from '../../core/words/field-words.ts';
import {
  CAUTION_LONG,
  CAUTION_SHORT,
  HOLD_WORDS,
  levelWords,
  placeWords,
} from '../../core/words/judgement-words.ts';
import {
  KEY_LINES,
  LEAF_ORDER,
  LEAF_WORDS,
  progressWords,
  residualText,
  VIEW_KEYS,
} from '../../core/words/stage-words.ts';
import { linesOf } from '../../renderer/panels/PointerCard.tsx';
import { keyTable } from '../../renderer/use-keys.ts';
import { layTable } from '../../renderer/lay-table.ts';
import { createBrowserHost } from '../../renderer/bridge/browser-host.ts';

const table = layTable({
  host: createBrowserHost(),
  startWorker: () => ({ post: () => undefined, end: () => undefined }),
  startBodyWorker: () => ({ post: () => undefined, end: () => undefined }),
  startBenchWorker: () => ({ post: () => undefined, end: () => undefined }),
  startSwatchWorker: () => ({ end: () => undefined }),
  startProofWorker: () => ({ end: () => undefined }),
  startImportWorker: () => ({ post: () => undefined, end: () => undefined }),
  now: () => 0,
  takePicture: () => Promise.reject(new Error('no picture in this test')),
  proofPicture: () => Promise.reject(new Error('no picture in this test')),
});

describe('keys', () => {
  const heard = new Set(keyTable(table).keys());
  const NAMES: Readonly<Record<string, string>> = {
    Space: ' ',
    Esc: 'escape',
    '←': 'arrowleft',
    '→': 'arrowright',
    '↑': 'arrowup',
    '↓': 'arrowdown',
    '−': '-',
  };
  const told = KEY_LINES.flatMap(({ lines }) => lines.flatMap(({ keys }) => keys))
    .filter((key) => key !== '–' && key !== 'drag')
    .map((key) => NAMES[key] ?? key.toLowerCase());

  it('that are told are heard', () => {
    for (const key of told) expect(heard).toContain(key);
  });

  it('that are heard are told', () => {
    // 1 to 9 are told as a stretch; = is + without the shift.
    const untold = [...heard].filter((key) => !told.includes(key) && key !== '=' && !/^[2-8]$/.test(key));
    expect(untold).toEqual([]);
  });

  it('have one meaning each', () => {
    expect(new Set(told).size).toBe(told.length);
    expect(FIELD_ORDER).toHaveLength(9);
    expect(Object.values(VIEW_KEYS)).toHaveLength(5);
  });

  it('choose fields by their number', () => {
    keyTable(table).get('7')!();
    expect(table.view.getState().field).toBe('gap');
  });

  it('do nothing that needs a study while there is none', () => {
    for (const key of [' ', 'd', 'a']) keyTable(table).get(key)!();
    expect(table.view.getState()).toMatchObject({ fabric: 0, showing: 'values' });
  });
});

describe('words', () => {
  it.each(FIELD_ORDER)('%s has a name, a meaning and a word for what is hatched', (id) => {
    const { name, meaning, missing, missingHere } = FIELD_WORDS[id];
    expect(meaning).toMatch(/^[A-Z].*\.$/);
    for (const text of [name, missing, missingHere]) expect(text.length).toBeGreaterThan(3);
    expect(fieldHeading(id, 'difference')).toContain('B minus A');
    expect(missingWords(id, 'difference')).toContain('both');
  });

  it('knows every leaf and every band', () => {
    for (const leaf of LEAF_ORDER) expect(LEAF_WORDS[leaf]).toMatch(/^[A-Z][a-z]+$/);
    for (const { level } of PRESSURE_BANDS) expect(HOLD_WORDS[level].length).toBeGreaterThan(3);
  });

  it('says the caution with its numbers', () => {
    // 5 mmHg = 0.667 kPa (ISO 80000-4), printed as 0.7.
    expect(CAUTION_SHORT).toMatch(/30 %.*0\.7 kPa \(5 mmHg\).*Not a medical device/);
    expect(CAUTION_LONG.join(' ')).toMatch(/32 mmHg/);
  });

  it('never shouts, and leaves computing out', () => {
    const said = [
      ...FIELD_ORDER.flatMap((id) => Object.values(FIELD_WORDS[id]) as string[]),
      ...CAUTION_LONG,
      CAUTION_SHORT,
    ].join(' ');
    expect(said).not.toMatch(/!|\b(mesh|vertex|vertices|solver|null|NaN|undefined)\b/i);
  });

  it('names places as a fitter would', () => {
    const place = { height: 1.04, hem: null } as const;
    expect(placeWords({ ...place, level: 'waist', side: 'left' })).toBe('Waist, left side');
    expect(placeWords({ ...place, level: 'topHip', side: 'around', hem: 'lower' })).toBe(
      'Lower hem, high hip, all round',
    );
    expect(placeWords({ ...place, level: null, side: 'back' })).toBe('104 cm up, back');
    expect(placeWords({ ...place, level: 'waist', side: 'back', region: 'lumbar' })).toBe(
      'Waist, small of the back',
    );
    expect(placeWords({ ...place, level: 'thigh', side: 'back', region: 'underSeat' })).toBe(
      'Thigh, under-seat fold',
    );
    expect(placeWords({ ...place, level: 'waist', side: 'left', region: 'side' })).toBe('Waist, left side');
    expect(levelWords('smallestGirth')).toBe('smallest girth');
  });

  it.each([
    [3.2e-5, '3·10⁻⁵'],
    [9.7e-4, '1·10⁻³'],
    [0.012, '0.012'],
    [0.5, '0.50'],
    [0, '0'],
    [Number.NaN, 'not a number'],
  ])('writes the residual %d as %s', (residual, text) => {
    expect(residualText(residual)).toBe(text);
  });

  it('tells how far a run has come', () => {
    const settle = { level: 2, levelCount: 5, iteration: 7, residual: 0.004 };
    expect(progressWords({ step: 'settle', fabricId: 'a', settle }, 'Tern')).toEqual({
      doing: 'Tern settles',
      detail: 'mesh 3 of 5, step 7, unbalanced 4·10⁻³',
    });
    expect(progressWords({ step: 'body' }, '').doing).not.toBe('');
  });
});

describe('the reading under the pointer', () => {
  const at = {
    x: 0,
    y: 0,
    field: 'skinPressure',
    unit: 'Pa',
    showing: 'values',
    pair: null,
    band: null,
  } as const;

  it('gives both units and what it means', () => {
    expect(linesOf({ ...at, value: 2310 })).toEqual(['2.31\u00a0kPa', '17.3\u00a0mmHg', 'shaping hold']);
  });

  it('does not call nothing zero', () => {
    expect(linesOf({ ...at, value: null })).toEqual(['off the skin, nothing presses here']);
  });

  it('shows both fabrics beside a difference', () => {
    const lines = linesOf({ ...at, showing: 'difference', value: -400, pair: [1200, 800] });
    expect(lines).toEqual(['−0.40\u00a0kPa', '−3.0\u00a0mmHg', 'A 1.20, B 0.80 kPa']);
  });

  it('tells the band in the first unit, behind the value', () => {
    const lines = linesOf({ ...at, value: 620, band: { low: 550, high: 661 } });
    expect(lines.slice(0, 2)).toEqual(['0.62\u00a0kPa', 'band 0.55 to 0.66']);
  });

  it('says where a difference is not sure', () => {
    const difference = { ...at, showing: 'difference', value: -40, pair: [1200, 1160] } as const;
    const unsure = linesOf({ ...difference, band: { low: -120, high: 30 } });
    expect(unsure).toContain('band −0.12 to +0.03');
    expect(unsure.at(-1)).toBe('no sure difference');
    expect(linesOf({ ...difference, band: { low: -120, high: -10 } })).not.toContain('no sure difference');
  });
});
