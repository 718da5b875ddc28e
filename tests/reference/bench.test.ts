/** Source: ISO 3801, ASTM D3776, Peirce 1930, ISO 9073-7 and the heavy elastica; stated at each check in core/proof. */
import { describe, expect, it } from 'vitest';

import { bendingRigidity, peirceFactor } from '../../core/fabric/bending.ts';
import { heartLoopBendingLength } from '../../core/fabric/heart-loop.ts';
import { elasticaAtChord } from '../../core/fabric/heavy-elastica.ts';
import { radiansFromDegrees } from '../../core/units/units.ts';
import { heartLoopHeight } from '../help/heart-elastica.ts';

it('gives the rigidity in the trade’s units: 5.651 uN.m = 57.6 mg.cm', () => {
  // 1 mg.cm = 0.0980665 uN.m by definition of the gram-force.
  const rigidity = bendingRigidity(0.21, 0.014);
  expect((rigidity * 1e6) / 0.0980665).toBeCloseTo(57.6, 1);
});

it('knows that the printed formula over-reads rigidity by 5.8 % at 41.5 degrees', () => {
  const angle = radiansFromDegrees(41.5);
  const exact = 1 / Math.cbrt(elasticaAtChord(angle).load);
  expect((peirceFactor(angle) / exact) ** 3).toBeCloseTo(1.058, 3);
});

describe('the heart loop', () => {
  it('hangs as the exact elastica: 0.13386 L without weight, 0.14506 L at w L^3 / B = 20', () => {
    expect(heartLoopHeight(0)).toBeCloseTo(0.13386, 5);
    expect(heartLoopHeight(20)).toBeCloseTo(0.14506, 5);
  });

  it.each([
    [5, 0.023],
    [10, 0.02],
    [15, 0.02],
    [20, 0.02],
    [50, 0.035],
  ])('gives the rigidity back from its height: w L^3 / B = %d within %f', (load, share) => {
    const length = heartLoopBendingLength(1, heartLoopHeight(load));
    expect(Math.abs(length ** 3 * load - 1)).toBeLessThan(share);
  });
});
