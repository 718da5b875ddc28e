import { describe, expect, it } from 'vitest';
import type { BlockSheet } from '../../../core/block/blocks.ts';
import { draftBlock } from '../../../core/block/draft-block.ts';
import { thighGap } from '../../../core/block/trunk-midline.ts';
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
  turnedOver,
} from '../../help/drafted.ts';
import { faultOf } from '../../help/fault-of.ts';

/** Invented, m. */
const sheetOf = (scale: number): BlockSheet => ({
  block: 'brief',
  construction: 'cut',
  girths: { waist: 0.65 * scale, topHip: 0.78 * scale, hip: 0.87 * scale, legOpening: 0.21 + 0.39 * scale },
  lengths: { side: 0.14, frontLength: 0.215, gussetLength: 0.12, backLength: 0.265 },
});

describe.each(SIZES)('a brief drafted from its sheet, $name', ({ scale }) => {
  const body = bodyOf(scale);
  const sheet = sheetOf(scale);
  const block = draftBlock(body, sheet);
  const [front, back, gusset] = block.pattern.panels as [Panel, Panel, Panel];
  const worn = laid(block, body, 0.017);

  it('has the sheet’s lengths and girths', () => {
    const { side, frontLength, gussetLength, backLength } = sheet.lengths;
    for (const panel of [front, back])
      expect(Math.abs(edgeLength(panel, 'side') - side!)).toBeLessThan(0.001);
    expect(edgeLength(front, 'centre')).toBeCloseTo(frontLength!, 6);
    expect(edgeLength(gusset, 'centre')).toBeCloseTo(gussetLength!, 6);
    expect(edgeLength(back, 'centre')).toBeCloseTo(backLength!, 6);
    const waist = 2 * (edgeLength(front, 'waist') + edgeLength(back, 'waist'));
    const opening = [front, gusset, back].reduce((sum, panel) => sum + edgeLength(panel, 'leg'), 0);
    expect(Math.abs(waist - sheet.girths['waist']!)).toBeLessThan(0.0005);
    expect(Math.abs(opening - sheet.girths['legOpening']!)).toBeLessThan(0.0005);
  });

  it('meets its seams and the centre square within 5 degrees', () => {
    for (const panel of [front, back, gusset]) {
      for (const { name } of panel.edges) expect(Math.abs(cornerAngle(panel, name) - 90)).toBeLessThan(5);
    }
  });

  it('is between the thighs as wide as the body has room there', () => {
    const leg = gusset.edges.find(({ name }) => name === 'leg')!.points;
    const narrowest = Math.min(...leg.map(([x]) => x));
    expect(2 * narrowest).toBeCloseTo(thighGap(body.skin, body.landmarks.crotch!.point[1]), 6);
  });

  it('lies nowhere inside out and comes to rest without turning over', () => {
    const { mesh, restInverse } = worn.garment.levels.at(-1)!;
    expect(worn.inward).toBe(0);
    // Euler's formula: a sphere with three openings.
    expect(topology(mesh)).toEqual({ euler: -1, mostAtEdge: 2 });
    expect(leastAngle(restInverse)).toBeGreaterThan(18);
    if (scale !== 1) return;
    const rest = settled(worn, body);
    expect(rest.atRest).toBe(true);
    expect(turnedOver({ ...mesh, positions: rest.positions }, worn.skin)).toBe(0);
  });
});

it('says which leg openings there are where the sheet’s cannot be drawn', () => {
  const sheet = sheetOf(1);
  const fault = faultOf(() =>
    draftBlock(bodyOf(1), { ...sheet, girths: { ...sheet.girths, legOpening: 0.4 } }),
  );
  expect(fault.code).toBe('block/opening-off');
  const { leastMm, mostMm } = fault.facts as { leastMm: number; mostMm: number };
  expect(leastMm).toBeLessThan(600);
  expect(mostMm).toBeGreaterThan(600);
});
