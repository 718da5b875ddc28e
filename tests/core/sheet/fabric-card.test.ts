import { describe, expect, it } from 'vitest';

import { fabricFromReadings } from '../../../core/fabric/fabric-from-readings.ts';
import type { Fabric } from '../../../core/fabric/fabric.ts';
import type { BenchSheet } from '../../../core/io/bench-sheet.ts';
import { checkBenchSheet, readingsOf } from '../../../core/io/read-bench-sheet.ts';
import { fabricCard } from '../../../core/sheet/fabric-card.ts';
import { cardText, nextReadingText, remarksOnPage } from '../../../core/words/card-text.ts';
import { CAUTION_SHORT } from '../../../core/words/judgement-words.ts';
import { demoSheet } from '../../help/demo-sheet.ts';

const tern = (): BenchSheet => demoSheet('tern-210') as unknown as BenchSheet;

function textOf(sheet: BenchSheet, change: (fabric: Fabric) => Fabric = (fabric) => fabric) {
  const readings = readingsOf(checkBenchSheet(sheet));
  return cardText(fabricCard(change(fabricFromReadings(readings)), readings));
}

/** A straight strip, 0.1 N per 1 %. */
const pairs: [number, number][] = [10, 20, 40, 60].map((extension) => [extension, extension / 10]);

const saidOf = (greatestStretch: 'warp' | 'weft' | 'bias') =>
  textOf({ ...tern(), greatestStretch }).coupling.at(-1);

const plainSpaces = (text: string): string => text.replaceAll('\u00a0', ' ');

describe('the card in words', () => {
  const text = textOf(tern());

  it('names fabric, lot and date, and marks invented readings', () => {
    expect([text.name, text.lot, text.mark]).toEqual([
      'Tern 210 (invented)',
      'Lot T-0417 · read on 2025-03-11',
      'Invented readings',
    ]);
    expect(textOf({ ...tern(), invented: false }).mark).toBeNull();
  });

  it('says how each reading was taken', () => {
    const { stretch } = tern();
    const one = { load: pairs };
    const plain = textOf({
      ...tern(),
      thickness: { mm: 0.45, pressureKPa: 1 },
      stretch: { gaugeMm: stretch.gaugeMm, widthMm: stretch.widthMm, warp: one, weft: one, bias: one },
      bending: { angleDeg: 41.5, overhangMm: { warp: 28, weft: 27, bias: 27 } },
    });
    const methods = Object.fromEntries(plain.methods.map(({ title, text: how }) => [title, how]));
    expect(methods['Mass']).toContain('200 × 50 mm, weighed apart: 3 in each direction');
    expect(methods['Thickness']).toBe('one place under 1.00 kPa (no standard named)');
    expect(methods['Stretch']).toBe(
      'strip test, 50 mm wide, marks 100 mm apart; cycle not said; specimens: 1 in each direction; let back: none; width under load: none',
    );
    expect(methods['Bending']).toBe('cantilever at 41.5°: 1 in each direction');
  });

  it('says what was read otherwise when it was', () => {
    const one = { load: pairs, return: pairs };
    const other = textOf({
      ...tern(),
      strip: { lengthMm: 200, widthMm: 50, massTogetherG: 6.3 },
      thickness: { mm: [0.4, 0.5], pressureKPa: 4.14, standard: 'ASTM D1777' },
      stretch: { gaugeMm: 100, widthMm: 50, cycle: 3, warp: one, weft: one, bias: { load: [pairs, pairs] } },
    });
    const methods = other.methods.map(({ text: how }) => plainSpaces(how)).join(' | ');
    expect(methods).toContain('on the pan together, weighed once');
    expect(methods).toContain('mean of 2 places under 4.14 kPa (ASTM D1777)');
    expect(methods).toContain('cycle 3; specimens: warp 1, weft 1, bias 2; let back: warp, weft;');
  });

  it('has a line per kind of number with a cell per direction, each with its unit', () => {
    expect(text.numbers.heading).toEqual(['', 'warp', 'weft', 'bias']);
    const lines = Object.fromEntries(
      text.numbers.lines.map(([title, ...cells]) => [plainSpaces(title!), cells]),
    );
    for (const title of [
      'Bending length',
      'Bending rigidity',
      'Tension, pulled out, at 40 %',
      'Power loss by energy',
    ]) {
      expect(lines[title]?.every((cell) => /\d.*(mm|µN·m|N\/m|%)\*?$/.test(cell))).toBe(true);
    }
    // The bias of this sheet was pulled to 60 % only.
    expect(lines['Tension, pulled out, at 80 %']![2]).toMatch(/\*$/);
    expect(lines['Tension, pulled out, at 80 %']![0]).not.toMatch(/\*$/);
    expect(text.star).toContain('beyond the last reading');
  });

  it('gives residuals, the coupling’s band with its reason, and the caution', () => {
    expect(text.residuals.lines.map(([direction]) => direction)).toEqual(['warp', 'weft', 'bias']);
    expect(text.residuals.lines[0]![1]).toMatch(/^\d\.\d\d.%, .?\d\.\d\d.% at \d+.%$/);
    expect(plainSpaces(text.coupling[0]!)).toMatch(
      /taken as [\d.]+ N\/m and lies somewhere from [\d.]+ to [\d.]+ N\/m; it rests on/,
    );
    expect(text.caution).toBe(CAUTION_SHORT);
  });

  it('says who stretches most beside what the sheet says', () => {
    expect(saidOf('weft')).toContain('as the sheet says (weft)');
    expect(saidOf('bias')).toContain('as the sheet says (bias)');
    expect(saidOf('warp')).toContain('; the sheet says warp.');
  });
});

it('the next reading is told with the band now and after', () => {
  const said = nextReadingText({
    reading: 'held-width weft',
    extension: 0.2,
    now: { low: -0.41, high: 0.42 },
    after: { low: -0.1, high: 0.08 },
  });
  expect(plainSpaces(said)).toMatch(/weft strip whose width is held.*20 %.*−41 % to \+42 %.*−10 % to \+8 %/);
  expect(nextReadingText(null)).toContain('No further reading');
});

describe('one page', () => {
  it('words too long for their place end in an ellipsis', () => {
    const text = textOf({ ...tern(), name: 'x'.repeat(300), lot: 'y'.repeat(300), note: 'z '.repeat(900) });
    expect(text.name).toHaveLength(60);
    expect(text.lot.length).toBeLessThan(90);
    expect(text.note!.length).toBeLessThanOrEqual(220);
    for (const cut of [text.name, text.note!]) expect(cut).toMatch(/…$/);
  });

  it('remarks that do not fit are counted, never dropped in silence', () => {
    const remarks = Array.from({ length: 12 }, (_, index) => `Remark ${index}.`);
    const shown = remarksOnPage(remarks);
    expect(shown.slice(0, -1)).toEqual(remarks.slice(0, shown.length - 1));
    expect(shown.at(-1)).toBe(`${12 - (shown.length - 1)} more remarks stand on the bench.`);
    expect(remarksOnPage(remarks.slice(0, 3))).toEqual(remarks.slice(0, 3));
    expect(remarksOnPage([])).toEqual(['None.']);
    expect(remarksOnPage(['long '.repeat(400)])).toEqual(['One more remark stands on the bench.']);
  });
});
