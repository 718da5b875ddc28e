import { describe, expect, it } from 'vitest';
import { makeFitBody } from '../../../core/body/fit-body.ts';
import { draftTrousers } from '../../../core/block/trouser-block.ts';
import type { TrouserSheet } from '../../../core/block/block-sheet.ts';
import { layPattern } from '../../../core/garment/place-pattern.ts';
import { panelCloth } from '../../../core/garment/panel-cloth.ts';
import { curveLength } from '../../../core/pattern/arc-length.ts';
import type { FlatPoint, Panel } from '../../../core/pattern/pattern.ts';
import { sewPattern } from '../../../core/pattern/sew-pattern.ts';

/** Invented sheets, m: girths a sixth to a fifth under the body's. */
const SIZES: readonly { readonly name: string; readonly scale: number }[] = [
  { name: 'small', scale: 0.92 },
  { name: 'middle', scale: 1 },
  { name: 'large', scale: 1.1 },
];
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

const lengthOf = ({ edges }: Panel, name: string): number =>
  curveLength(edges.find((edge) => edge.name === name)!.points);

/** Angle at the corner where one edge ends and the next begins, degrees. */
function cornerAngle({ edges }: Panel, first: string): number {
  const e = edges.findIndex(({ name }) => name === first);
  const before = edges[e]!.points;
  const after = edges[(e + 1) % edges.length]!.points;
  const corner = after[0]!;
  const way = (to: FlatPoint): FlatPoint => [to[0] - corner[0], to[1] - corner[1]];
  const [ax, ay] = way(before.at(-2)!);
  const [bx, by] = way(after[1]!);
  return (180 / Math.PI) * Math.atan2(Math.abs(ax * by - ay * bx), ax * bx + ay * by);
}

describe.each(SIZES)('a short drafted from its sheet, $name', ({ scale }) => {
  const body = makeFitBody({
    stature: 1.7,
    bust: 0.92 * scale,
    underbust: 0.79 * scale,
    waist: 0.76 * scale,
    hip: 1.01 * scale,
  });
  const sheet = sheetOf(scale);
  const block = draftTrousers(body, sheet);
  const [front, back] = block.pattern.panels as [Panel, Panel];

  it('has the sheet’s lengths and girths', () => {
    const { side, frontRise, backRise, inseam } = sheet.lengths;
    for (const panel of [front, back]) {
      expect(Math.abs(lengthOf(panel, 'side') - side)).toBeLessThan(0.001);
      expect(Math.abs(lengthOf(panel, 'inseam') - inseam)).toBeLessThan(0.001);
    }
    expect(Math.abs(lengthOf(front, 'rise') - frontRise)).toBeLessThan(0.001);
    expect(Math.abs(lengthOf(back, 'rise') - backRise)).toBeLessThan(0.001);
    const waist = 2 * (lengthOf(front, 'waist') + lengthOf(back, 'waist'));
    const hem = lengthOf(front, 'hem') + lengthOf(back, 'hem');
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
    const { positions } = levels.at(-1)!.mesh;
    expect(positions.every(Number.isFinite)).toBe(true);
    // Euler's formula: a sphere with three openings, waist and two legs.
    const edges = new Set<string>();
    const { triangles } = levels.at(-1)!.mesh;
    for (let i = 0; i < triangles.length; i++) {
      const next = 3 * Math.floor(i / 3) + ((i + 1) % 3);
      edges.add([triangles[i]!, triangles[next]!].toSorted((a, b) => a - b).join(' '));
    }
    expect(positions.length / 3 - edges.size + triangles.length / 3).toBe(-1);
  });
});
