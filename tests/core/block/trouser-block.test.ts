import { describe, expect, it } from 'vitest';
import { draftTrousers } from '../../../core/block/trouser-block.ts';
import type { TrouserSheet } from '../../../core/block/block-sheet.ts';
import { layPattern } from '../../../core/garment/place-pattern.ts';
import { panelCloth } from '../../../core/garment/panel-cloth.ts';
import type { Panel } from '../../../core/pattern/pattern.ts';
import { sewPattern } from '../../../core/pattern/sew-pattern.ts';
import { bodyOf, cornerAngle, edgeLength, SIZES, topology } from '../../help/drafted.ts';

/** Invented, m: girths a sixth to a fifth under the body's. */
const sheetOf = (scale: number): TrouserSheet => ({
  girths: {
    waist: 0.612 * scale,
    topHip: 0.735 * scale,
    hip: 0.812 * scale,
    thigh: 0.48 * scale,
    hem: 0.424 * scale,
  },
  lengths: { side: 0.392, frontRise: 0.273, backRise: 0.292, inseam: 0.13 },
});

describe.each(SIZES)('a short drafted from its sheet, $name', ({ scale }) => {
  const body = bodyOf(scale);
  const sheet = sheetOf(scale);
  const block = draftTrousers(body, sheet);
  const [front, back] = block.pattern.panels as [Panel, Panel];

  it('has the sheet’s lengths and girths', () => {
    const { side, frontRise, backRise, inseam } = sheet.lengths;
    for (const panel of [front, back]) {
      expect(Math.abs(edgeLength(panel, 'side') - side)).toBeLessThan(0.001);
      expect(Math.abs(edgeLength(panel, 'inseam') - inseam)).toBeLessThan(0.001);
    }
    expect(Math.abs(edgeLength(front, 'rise') - frontRise)).toBeLessThan(0.001);
    expect(Math.abs(edgeLength(back, 'rise') - backRise)).toBeLessThan(0.001);
    const waist = 2 * (edgeLength(front, 'waist') + edgeLength(back, 'waist'));
    const hem = edgeLength(front, 'hem') + edgeLength(back, 'hem');
    expect(Math.abs(waist - sheet.girths.waist!)).toBeLessThan(0.0005);
    expect(Math.abs(hem - sheet.girths.hem!)).toBeLessThan(0.0005);
  });

  it('meets its seams square within 5 degrees', () => {
    for (const panel of [front, back]) {
      for (const corner of ['hem', 'side', 'waist', 'inseam']) {
        expect(Math.abs(cornerAngle(panel, corner) - 90)).toBeLessThan(5);
      }
    }
  });

  it('lets 380 to 440 degrees meet in the crotch (common practice)', () => {
    const sum = 2 * (cornerAngle(front, 'rise') + cornerAngle(back, 'rise'));
    expect(sum).toBeGreaterThan(380);
    expect(sum).toBeLessThan(440);
  });

  it('lies on the body with no triangle inside out', () => {
    const sewn = sewPattern(block.pattern, { edge: 0.036, halvings: 1 });
    const { held } = block.placing;
    const field = body.contactField({
      low: [-0.3, held[1]!.offset, -0.25],
      high: [0.3, held[0]!.offset, 0.25],
    });
    const search = layPattern(block.pattern, sewn, field, block.placing);
    let step = search.next();
    while (!step.done) step = search.next();
    expect(step.value.inward).toBe(0);
    const { levels } = panelCloth(block.pattern, sewn, step.value, field);
    const { mesh } = levels.at(-1)!;
    expect(mesh.positions.every(Number.isFinite)).toBe(true);
    // Euler's formula: a sphere with three openings, waist and two legs.
    expect(topology(mesh).euler).toBe(-1);
  });
});
