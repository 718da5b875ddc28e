import { describe, expect, it } from 'vitest';
import type { BlockSheet } from '../../../core/block/blocks.ts';
import { draftBlock } from '../../../core/block/draft-block.ts';
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
  block: 'waistShaper',
  construction: 'cut',
  girths: { top: 0.66 * scale, waist: 0.6 * scale, topHip: 0.735 * scale, hem: 0.79 * scale },
  lengths: { side: 0.23 },
});

describe.each(SIZES)('a waist shaper drafted from its sheet, $name', ({ scale }) => {
  const body = bodyOf(scale);
  const sheet = sheetOf(scale);
  const block = draftBlock(body, sheet);
  const [front, back] = block.pattern.panels as [Panel, Panel];
  const worn = laid(block, body, 0.017);

  it('has the sheet’s girths and length', () => {
    for (const level of ['hem', 'top']) {
      const girth = 2 * (edgeLength(front, level) + edgeLength(back, level));
      expect(Math.abs(girth - sheet.girths[level]!)).toBeLessThan(0.0005);
    }
    for (const panel of [front, back]) expect(Math.abs(edgeLength(panel, 'side') - 0.23)).toBeLessThan(0.001);
  });

  it('meets its seams and the centre square within 5 degrees', () => {
    for (const panel of [front, back]) {
      for (const { name } of panel.edges) expect(Math.abs(cornerAngle(panel, name) - 90)).toBeLessThan(5);
    }
  });

  it('is a tube, nowhere inside out, that comes to rest', () => {
    const { mesh, restInverse } = worn.garment.levels.at(-1)!;
    expect(worn.inward).toBe(0);
    expect(topology(mesh)).toEqual({ euler: 0, mostAtEdge: 2 });
    expect(leastAngle(restInverse)).toBeGreaterThan(20);
    if (scale === 1) expect(settled(worn, body).atRest).toBe(true);
  });
});
