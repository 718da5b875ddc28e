import { describe, expect, it } from 'vitest';
import type { BlockSheet } from '../../../core/block/blocks.ts';
import { checkSheet, sheetRows } from '../../../core/block/check-sheet.ts';
import { draftBlock } from '../../../core/block/draft-block.ts';
import { sayFinding } from '../../../core/words/say.ts';
import { bodyOf } from '../../help/drafted.ts';

const body = bodyOf(1);
const short = (lengths: Record<string, number> = {}, girths: Record<string, number> = {}): BlockSheet => ({
  block: 'short',
  construction: 'cut',
  girths: { waist: 0.612, topHip: 0.735, hip: 0.812, thigh: 0.48, hem: 0.424, ...girths },
  lengths: { side: 0.392, frontRise: 0.273, backRise: 0.27, inseam: 0.13, ...lengths },
});
const findingsOf = (sheet: BlockSheet) => checkSheet(body, sheet, draftBlock(body, sheet));

describe('a sheet beside a body', () => {
  it('is left alone where all goes together', () => expect(findingsOf(short())).toEqual([]));

  it('shows reduction and worn stretch side by side: S of the pattern is 1 / (1 - S) - 1 stretch (common practice)', () => {
    const rows = sheetRows(draftBlock(body, short()));
    const waist = rows.find(({ name }) => name === 'waist')!;
    // The tape's girth of this size is 760 mm; along the hollow of the back the skin is a little longer.
    expect(waist.body).toBeGreaterThan(0.759);
    expect(waist.body).toBeLessThan(0.78);
    expect(waist.stretch).toBeCloseTo(waist.body / 0.612 - 1, 12);
    expect(waist.reduction).toBeCloseTo((waist.body - 0.612) / waist.body, 12);
  });

  it('says which rise would fit, and it does', () => {
    const [finding] = findingsOf(short({ frontRise: 0.3 }));
    expect(finding?.code).toBe('block/rise-long');
    const fits = (finding!.facts as { fitsMm: number }).fitsMm;
    expect(fits).toBeLessThan(300);
    expect(findingsOf(short({ frontRise: fits / 1000 - 0.001 }))).toEqual([]);
    expect(sayFinding(finding!)).toContain(`${fits.toFixed(0)} mm would fit`);
    expect(findingsOf(short({ frontRise: 0.22 })).map(({ code }) => code)).toContain('block/rise-short');
  });

  it('says where a girth does not hold', () => {
    const [finding] = findingsOf(short({}, { thigh: 0.62 }));
    expect(finding).toMatchObject({ code: 'block/girth-loose', facts: { level: 'thigh', relaxedMm: 620 } });
  });

  it('says where the inseam does not go with the side seam', () => {
    const codes = findingsOf(short({ side: 0.3 })).map(({ code }) => code);
    expect(codes).toContain('block/crotch-high');
  });

  it('says where a short ends below the knee', () => {
    const found = findingsOf(short({ side: 0.6, inseam: 0.34 })).find(
      ({ code }) => code === 'block/hem-below-knee',
    );
    // Crotch 783 mm, knee 474 mm on this body.
    expect((found!.facts as { fitsMm: number }).fitsMm).toBeCloseTo(309, -1);
  });
});
