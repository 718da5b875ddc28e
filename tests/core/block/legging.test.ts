import { describe, expect, it } from 'vitest';
import { draftBlock } from '../../../core/block/draft-block.ts';
import type { BlockSheet } from '../../../core/block/blocks.ts';
import type { Panel } from '../../../core/pattern/pattern.ts';
import {
  bodyOf,
  cornerAngle,
  edgeLength,
  laid,
  leastAngle,
  settled,
  SIZES,
  topology,
} from '../../help/drafted.ts';

/** Invented, m. */
const sheetOf = (scale: number): BlockSheet => ({
  block: 'legging',
  construction: 'cut',
  girths: {
    waist: 0.64 * scale,
    topHip: 0.76 * scale,
    hip: 0.85 * scale,
    thigh: 0.495 * scale,
    knee: 0.315 * scale,
    calf: 0.3 * scale,
    hem: 0.195 * scale,
  },
  lengths: { side: 0.905, frontRise: 0.273, backRise: 0.292, inseam: 0.63 },
});

describe.each(SIZES)('a legging drafted from its sheet, $name', ({ scale }) => {
  const body = bodyOf(scale);
  const sheet = sheetOf(scale);
  const block = draftBlock(body, sheet);
  const [front, back] = block.pattern.panels as [Panel, Panel];
  const worn = laid(block, body, 0.017);

  it('has the sheet’s lengths and girths', () => {
    for (const panel of [front, back]) {
      expect(Math.abs(edgeLength(panel, 'side') - 0.905)).toBeLessThan(0.001);
      expect(Math.abs(edgeLength(panel, 'inseam') - 0.63)).toBeLessThan(0.001);
    }
    expect(Math.abs(edgeLength(front, 'rise') - 0.273)).toBeLessThan(0.001);
    expect(Math.abs(edgeLength(back, 'rise') - 0.292)).toBeLessThan(0.001);
    const waist = 2 * (edgeLength(front, 'waist') + edgeLength(back, 'waist'));
    const hem = edgeLength(front, 'hem') + edgeLength(back, 'hem');
    expect(Math.abs(waist - sheet.girths['waist']!)).toBeLessThan(0.0005);
    expect(Math.abs(hem - sheet.girths['hem']!)).toBeLessThan(0.0005);
  });

  it('meets its seams square within 5 degrees', () => {
    for (const panel of [front, back]) {
      for (const corner of ['hem', 'side', 'waist', 'inseam']) {
        expect(Math.abs(cornerAngle(panel, corner) - 90)).toBeLessThan(5);
      }
    }
  });

  it('lies down to the ankle, nowhere inside out, and comes to rest there', () => {
    const { positions } = worn.garment.levels.at(-1)!.mesh;
    const heights = positions.filter((_, i) => i % 3 === 1);
    expect(Math.min(...heights)).toBeCloseTo(body.landmarks.ankleLeft!.point[1], 6);
    expect(worn.inward).toBe(0);
    // Euler's formula: a sphere with three openings.
    expect(topology(worn.garment.levels.at(-1)!.mesh)).toEqual({ euler: -1, mostAtEdge: 2 });
    expect(leastAngle(worn.garment.levels.at(-1)!.restInverse)).toBeGreaterThan(20);
    if (scale === 1) expect(settled(worn, body).atRest).toBe(true);
  });
});
