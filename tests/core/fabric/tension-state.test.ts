/** Source: force balance; worked tube of a linear cloth, K = 250 N/m at 25 % (Laplace: P = T/r). */
import { expect, it } from 'vitest';

import { lawFromStrips } from '../../../core/fabric/law-from-strips.ts';
import { createTensionState, tensionState } from '../../../core/fabric/tension-state.ts';

const linear = (contraction: number) => ({
  load: [1.05, 1.1, 1.15, 1.2, 1.25, 1.3].map((l) => [l, 250 * (l - 1)] as const),
  width: [1.05, 1.1, 1.15, 1.2, 1.25, 1.3].map((l) => [l, l ** -contraction] as const),
});

it('gives the bench force per original width where the width is kept: 62.5 N/m, 654.5 Pa on the tube', () => {
  const law = lawFromStrips({ warp: linear(0), weft: linear(0), shear: { modulus: 60 } });
  const state = createTensionState();
  tensionState(law, Float64Array.of(1.25, 0, 0, 0, 1, 0), state);
  expect(state.warpStretch).toBeCloseTo(1.25, 12);
  expect(state.warpTension).toBeCloseTo(62.5, 6);
  // Circumference 600 mm.
  expect((state.warpTension * 2 * Math.PI) / 0.6).toBeCloseTo(654.5, 1);
});

it('gives more per current width where the strip has narrowed: 66.827 N/m at l^-0.3', () => {
  const law = lawFromStrips({ warp: linear(0.3), weft: linear(0.3), shear: { modulus: 60 } });
  const state = createTensionState();
  tensionState(law, Float64Array.of(1.25, 0, 0, 0, 1.25 ** -0.3, 0), state);
  expect(state.warpTension).toBeCloseTo(66.827, 2);
  expect(Math.abs(state.weftTension)).toBeLessThan(0.01);
});

it('does not change when the cloth is turned in space', () => {
  const law = lawFromStrips({ warp: linear(0.3), weft: linear(0.2), shear: { modulus: 60 } });
  const flat = createTensionState();
  const turned = createTensionState();
  tensionState(law, Float64Array.of(1.2, 0.1, 0, -0.05, 1.1, 0), flat);
  const cos = Math.cos(0.7);
  const sin = Math.sin(0.7);
  // About y: (x, y, 0) -> (cos x, y, -sin x).
  tensionState(law, Float64Array.of(1.2 * cos, 0.1, -1.2 * sin, -0.05 * cos, 1.1, 0.05 * sin), turned);
  expect(turned.warpTension).toBeCloseTo(flat.warpTension, 9);
  expect(turned.weftTension).toBeCloseTo(flat.weftTension, 9);
});
