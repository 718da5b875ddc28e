/** Source: Kawabata et al., Macromolecules 14 (1981) 154 (biaxial rubber); Lekhnitskii 1968 (reciprocity). */
import { describe, expect, it } from 'vitest';

import { COUPLING_FADE } from '../../../core/fabric/assemble-law.ts';
import { couplingFromHeldWidth, reciprocalCoupling } from '../../../core/fabric/coupling.ts';
import { createTensionResponse, evaluateTension } from '../../../core/fabric/evaluate-tension.ts';
import { idealCurve, lawFromStrips } from '../../../core/fabric/law-from-strips.ts';
import { kawabata1981 } from '../../../core/proof/data/kawabata-1981.ts';

const simple = kawabata1981.filter(({ stressAcross }) => stressAcross === 0);
const rubber = {
  load: simple.map(({ along, stressAlong }) => [along, 1000 * stressAlong] as const),
  width: simple.map(({ along, across }) => [along, across] as const),
};

describe('reciprocity', () => {
  it('gives c = nu E / (1 - nu^2) for a sheet alike both ways', () => {
    const stretches = [1.02, 1.05, 1.1, 1.2, 1.4];
    const strip = {
      load: stretches.map((l) => [l, (200 * Math.log(l)) / l] as const),
      width: stretches.map((l) => [l, l ** -0.4] as const),
    };
    const curve = idealCurve(strip);
    const found = reciprocalCoupling(curve, curve, 0.1);
    expect(found.coupling).toBeCloseTo((0.4 * 200) / (1 - 0.16), 0);
    expect(found.disagreement).toBeCloseTo(1, 12);
  });

  it('takes the smaller answer where the widths contradict each other', () => {
    const stiff = { load: [[1.2, 100] as const], width: [[1.2, 0.8] as const] };
    const found = reciprocalCoupling(idealCurve(stiff), idealCurve({ ...stiff, width: [[1.2, 0.98]] }), 0.1);
    expect(found.disagreement).toBeGreaterThan(3);
    expect(found.coupling).toBe(Math.min(found.fromWarpWidth, found.fromWeftWidth));
  });
});

it('finds the coupling of rubber from one reading with its width held, and foretells the biaxial rows with it', () => {
  const free = idealCurve(rubber);
  const expected = reciprocalCoupling(free, free, 0.1).coupling;
  const held = kawabata1981.find(({ along, across }) => along === 1.2 && across === 1)!;
  const coupling = couplingFromHeldWidth({
    free,
    readings: [[Math.log(1.2), 1000 * held.stressAlong * 1.2]],
    expected,
    fade: COUPLING_FADE,
  });
  const law = lawFromStrips({ warp: rubber, weft: rubber, shear: { modulus: expected / 3 }, coupling });
  const response = createTensionResponse();
  const misses = kawabata1981
    .filter(({ along, stressAcross }) => along <= 1.3 && stressAcross > 0)
    .map((row) => {
      evaluateTension(law, Float64Array.of(row.along, 0, 0, 0, row.across, 0), false, response);
      return [
        response.stress[0]! / (1000 * row.stressAlong) - 1,
        response.stress[4]! / (1000 * row.stressAcross) - 1,
      ];
    });
  const rms = (part: number): number =>
    Math.sqrt(misses.reduce((sum, miss) => sum + miss[part]! ** 2, 0) / misses.length);
  // One number was fitted to one of these readings; the first study of the law found 2.0 % along and 3.2 % across.
  expect(rms(0)).toBeLessThan(0.025);
  expect(rms(1)).toBeLessThan(0.04);
});
