import { describe, expect, it } from 'vitest';
import {
  cutDetail,
  cutText,
  FRICTION_MARKS,
  frictionSource,
  shiftText,
  triedLine,
  tryProgress,
} from '../../core/words/try-words.ts';
import { plainChange } from '../../renderer/store/plain-change.ts';
import { pretendSheet } from '../help/pretend-result.ts';

describe('what is tried, in words', () => {
  it('says each part with its number and unit, and nothing of what is as the sheet says', () => {
    const tried = {
      friction: { coefficient: 0.3, from: 'dry' },
      girthScale: 0.96,
      from: 0.92,
      to: 1.16,
      flesh: { kind: 'layer', poisson: 0.45, skin: 'held' },
      branch: 'return',
    } as const;
    expect(triedLine(tried, pretendSheet)).toBe(
      'Tried: friction 0.30, dry skin · cut 4\u00a0% smaller · laid 2.0\u00a0cm higher · flesh layer (Poisson’s ratio 0.45, skin held) · return curve',
    );
    expect(triedLine({}, pretendSheet)).toBe('');
    expect(triedLine(plainChange({ girthScale: 1, to: 1.14 }, pretendSheet), pretendSheet)).toBe('');
  });

  it('tells hems apart that moved each its own way', () => {
    expect(triedLine({ to: 1.15 }, pretendSheet)).toBe('Tried: upper hem 1.0\u00a0cm higher');
    expect(triedLine({ from: 0.895, to: 1.15 }, pretendSheet)).toBe(
      'Tried: upper hem 1.0\u00a0cm higher · lower hem 0.5\u00a0cm lower',
    );
  });

  it.each([
    [1, 'as cut'],
    [0.96, '4\u00a0% smaller'],
    [0.975, '2.5\u00a0% smaller'],
    [1.1, '10\u00a0% larger'],
  ])('a girth times %d is %s', (scale, text) => expect(cutText(scale)).toBe(text));

  it('a cut is told in cm at the narrowest', () => {
    // 0.70 m relaxed: 4 % of it are 2.8 cm.
    expect(cutDetail(0.96, pretendSheet)).toBe('narrowest 70.0 to 67.2\u00a0cm (−2.8)');
    expect(cutDetail(1, pretendSheet)).toBe('narrowest 70.0\u00a0cm around');
  });

  it('a shift has its way', () => {
    expect(shiftText(0.015)).toBe('1.5\u00a0cm higher');
    expect(shiftText(-0.015)).toBe('1.5\u00a0cm lower');
  });

  it('a coefficient on a mark has the source of its reading, another has none', () => {
    expect(FRICTION_MARKS.map(({ from }) => from)).toEqual(['dry', 'damp']);
    expect(frictionSource(0.3, 0.5)).toMatch(/^Cotton on dry skin.*Temel.*0\.24 to 1\.1 on people/);
    expect(frictionSource(0.5, 0.5)).toMatch(/typed in the study/);
    expect(frictionSource(0.41, 0.5)).toMatch(/your own/);
  });

  it('progress names the fabric and what is unbalanced', () => {
    const settle = { level: 2, levelCount: 5, iteration: 7, residual: 0.004 };
    const fabrics = [{ id: 'tern' }, { id: 'plover' }];
    expect(tryProgress({ step: 'settle', fabricId: 'plover', settle }, fabrics)).toBe(
      'B settles again, 4·10⁻³ unbalanced',
    );
    expect(tryProgress({ step: 'garment' }, fabrics)).toBe('Settling again …');
  });
});
