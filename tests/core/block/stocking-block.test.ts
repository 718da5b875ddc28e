import { describe, expect, it } from 'vitest';
import { NEAR_RIGID } from '../../../core/body/body.ts';
import type { BlockSheet } from '../../../core/block/blocks.ts';
import { draftBlock } from '../../../core/block/draft-block.ts';
import { legRow } from '../../../core/block/leg-row.ts';
import { STOCKING_POINTS, stockingHeights } from '../../../core/block/stocking-levels.ts';
import type { Panel } from '../../../core/pattern/pattern.ts';
import { linearLaw, settleTube } from '../../../core/proof/settled-tube.ts';
import { bodyOf, cornerAngle, edgeLength, laid, leastAngle, SIZES, topology } from '../../help/drafted.ts';

/** Invented, m. */
const sheetOf = (scale: number): BlockSheet => ({
  block: 'stocking',
  construction: 'cut',
  girths: { B: 0.175 * scale, B1: 0.23 * scale, C: 0.3 * scale, D: 0.295 * scale },
  lengths: { length: 0.315 },
});

describe.each(SIZES)('a knee stocking drafted from its sheet, $name', ({ scale }) => {
  const body = bodyOf(scale);
  const sheet = sheetOf(scale);
  const block = draftBlock(body, sheet);
  const leg = block.pattern.panels[0] as Panel;
  const worn = laid(block, body, 0.009);

  it('has the sheet’s length and end girths, and meets its seam square', () => {
    expect(Math.abs(edgeLength(leg, 'ankle') - sheet.girths['B']!)).toBeLessThan(0.0005);
    expect(Math.abs(edgeLength(leg, 'top') - sheet.girths['D']!)).toBeLessThan(0.0005);
    for (const seam of ['outerBack', 'innerBack']) {
      expect(Math.abs(edgeLength(leg, seam) - 0.315)).toBeLessThan(0.001);
    }
    for (const { name } of leg.edges) expect(Math.abs(cornerAngle(leg, name) - 90)).toBeLessThan(5);
  });

  it('is a tube that lies nowhere inside out', () => {
    const { mesh, restInverse } = worn.garment.levels.at(-1)!;
    expect(worn.inward).toBe(0);
    expect(topology(mesh)).toEqual({ euler: 0, mostAtEdge: 2 });
    expect(leastAngle(restInverse)).toBeGreaterThan(20);
  });
});

describe('a knee stocking knit to shape, on a hard leg', () => {
  const body = bodyOf(1);
  const sheet: BlockSheet = { ...sheetOf(1), construction: 'moulded' };
  const block = draftBlock(body, sheet);
  const { garment, skin } = laid(block, body, 0.009);
  const STIFFNESS = 400;
  const { equilibrium, pressure } = settleTube(
    {
      levels: garment.levels,
      laws: [linearLaw(STIFFNESS)],
      body: skin,
      foundation: NEAR_RIGID,
      friction: 0.3,
    },
    1,
  );
  const heights = stockingHeights(body.landmarks);

  it('is at rest', () => expect(equilibrium.atRest).toBe(true));

  it.each(STOCKING_POINTS)('presses at %s as by hand, p = T / R', (point) => {
    // Laplace, all round: R is that of the circle with the leg's girth. Ends are read 12 mm inside, where the sheet's
    // ratio has hardly changed.
    const inside = Math.min(heights.D - 0.012, Math.max(heights.B + 0.012, heights[point]));
    const girth = legRow(body.skin, inside).length;
    const ratio = block.scaling.around(inside);
    expect(block.scaling.around(heights[point])).toBeCloseTo(
      sheet.girths[point]! / legRow(body.skin, heights[point]).length,
      3,
    );
    const byHand = (2 * Math.PI * STIFFNESS * (1 / ratio - 1)) / girth;
    const near = [...pressure].filter((_, v) => Math.abs(equilibrium.positions[3 * v + 1]! - inside) < 0.012);
    const mean = near.reduce((sum, value) => sum + value, 0) / near.length;
    expect(Math.abs(mean / byHand - 1)).toBeLessThan(0.05);
  });
});
