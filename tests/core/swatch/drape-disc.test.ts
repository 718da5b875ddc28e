import { describe, expect, it } from 'vitest';
import { readBenchSheet } from '../../../core/io/read-bench-sheet.ts';
import { drapeDisc, type DrapeWish } from '../../../core/swatch/drape-disc.ts';
import type { DrapeRest, SwatchFabric } from '../../../core/swatch/swatch.ts';
import { demoSheetText } from '../../help/demo-sheet.ts';

const { laws, bendingRigidity, arealDensity } = readBenchSheet(demoSheetText('plover-185'));

const fabric = (rigidity: number, weight = 1): SwatchFabric => ({
  law: laws.load,
  arealDensity: weight * arealDensity,
  bendingRigidity: {
    warp: rigidity * bendingRigidity.warp,
    weft: rigidity * bendingRigidity.weft,
    bias: rigidity * bendingRigidity.bias,
  },
});

function drape(swatch: SwatchFabric, wish: DrapeWish = { vertexCount: 800 }): DrapeRest {
  const search = drapeDisc(swatch, wish);
  let step = search.next();
  while (!step.done) step = search.next();
  return step.value;
}

describe('a disc over a round table', () => {
  const soft = drape(fabric(1));
  const firm = drape(fabric(5));
  const board = drape(fabric(1000));

  it('comes to rest with a residual below a hundredth of the weight', () => {
    for (const rest of [soft, firm, board]) {
      expect(rest.atRest).toBe(true);
      expect(rest.residual).toBeLessThanOrEqual(1e-2);
    }
  });

  it('falls less the stiffer it is; a board casts the whole shadow and has no folds', () => {
    expect(firm.drapeCoefficient).toBeGreaterThan(soft.drapeCoefficient + 0.2);
    expect(board.drapeCoefficient).toBeGreaterThan(0.995);
    expect(board.drapeCoefficient).toBeLessThanOrEqual(1);
    expect(board.foldCount).toBe(0);
  });

  it('falls more the heavier it is: only rigidity over weight counts while cloth hardly stretches', () => {
    const heavy = drape(fabric(5, 3));
    expect(heavy.drapeCoefficient).toBeLessThan(firm.drapeCoefficient);
  });

  it('lies in the range of knits: drape coefficients of 15 to 60 %, 5 to 13 folds (common practice)', () => {
    expect(soft.drapeCoefficient).toBeGreaterThan(0.15);
    expect(soft.drapeCoefficient).toBeLessThan(0.6);
    expect(soft.foldCount).toBeGreaterThanOrEqual(5);
    expect(soft.foldCount).toBeLessThanOrEqual(13);
  });

  it('keeps its lengths: no part of it is farther from the middle than it was flat', () => {
    const { positions, flat } = soft;
    for (let v = 0; 2 * v < flat.length; v++) {
      const reach = Math.hypot(positions[3 * v]!, positions[3 * v + 1]!, positions[3 * v + 2]!);
      expect(reach).toBeLessThan(1.01 * Math.hypot(flat[2 * v]!, flat[2 * v + 1]!) + 1e-6);
    }
  });

  it('does not go through the table', () => {
    const { positions } = soft;
    for (let i = 0; i < positions.length; i += 3) {
      const inside = Math.hypot(positions[i]!, positions[i + 2]!) < 0.087;
      if (inside && positions[i + 1]! > -0.0035) expect(positions[i + 1]!).toBeGreaterThan(-1e-3);
    }
  });

  it('is the same every time, to the bit', () => {
    expect(drape(fabric(5)).positions).toEqual(firm.positions);
  });

  it('agrees with the finer mesh within a few points', () => {
    const fine = drape(fabric(5), { vertexCount: 1500 });
    expect(Math.abs(fine.drapeCoefficient - firm.drapeCoefficient)).toBeLessThan(0.05);
  });

  it('can be stopped', () => {
    const search = drapeDisc(fabric(1), { vertexCount: 3000 });
    const first = search.next();
    if (first.done) throw new Error('done at once');
    expect(first.value).toMatchObject({ level: 0, levelCount: 2, iteration: 0 });
    expect(first.value.residual).toBeGreaterThan(0.1);
  });
});
