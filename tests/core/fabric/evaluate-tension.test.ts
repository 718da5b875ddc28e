import { describe, expect, it } from 'vitest';

import { createTensionResponse, evaluateTension } from '../../../core/fabric/evaluate-tension.ts';
import { lawFromStrips } from '../../../core/fabric/law-from-strips.ts';
import type { TensionLaw } from '../../../core/fabric/tension-law.ts';
import { pullStrip, STRIP_ANGLE } from '../../../core/fabric/virtual-strip.ts';

/** A curved, narrowing, unbalanced knit and a straight one without narrowing. */
const stretches = [1.05, 1.1, 1.2, 1.3, 1.4, 1.6, 1.8];
const knit = lawFromStrips({
  warp: {
    load: stretches.map((l) => [l, 180 * (l - 1) + 60 * (l - 1) ** 3] as const),
    width: stretches.map((l) => [l, l ** -0.35] as const),
  },
  weft: {
    load: stretches.map((l) => [l, 130 * (l - 1) + 90 * (l - 1) ** 2] as const),
    width: stretches.map((l) => [l, l ** -0.3] as const),
  },
  shear: { modulus: 35 },
});
const straight = lawFromStrips({
  warp: {
    load: [
      [1, 0],
      [2, 250],
    ],
  },
  weft: {
    load: [
      [1, 0],
      [2, 150],
    ],
  },
  shear: { modulus: 60 },
});

/** Deformations: taut, let go one way or all ways, sheared, turned in space, packed. */
const states: readonly { name: string; f: readonly number[] }[] = [
  { name: 'taut both ways', f: [1.2, 0, 0, 0, 1.15, 0] },
  { name: 'taut, sheared and turned', f: [1.1, 0.3, 0.2, -0.1, 1.1, 0.4] },
  { name: 'weft slack', f: [1.3, 0.02, 0, 0, 0.7, 0] },
  { name: 'warp slack, sheared', f: [0.72, 0.1, 0, 0.1, 1.25, 0.1] },
  { name: 'both slack', f: [0.9, 0.03, 0.01, 0.05, 0.85, 0] },
  { name: 'both slack, strongly sheared', f: [0.8, 0.2, 0, 0.3, 0.8, 0] },
  { name: 'sheared into wrinkles', f: [1.05, 0.3, 0, 0.2, 1, 0.1] },
  { name: 'packed along the warp', f: [0.3, 0.05, 0, 0, 1.1, 0.1] },
  { name: 'packed both ways', f: [0.3, 0.02, 0.1, 0, 0.25, 0.1] },
];

const laws: readonly [string, TensionLaw][] = [
  ['knit', knit],
  ['straight', straight],
];

describe.each(laws)('the derivatives of a %s law', (_name, law) => {
  it.each(states)('gradient = difference quotient of the energy: $name', ({ f }) => {
    const response = createTensionResponse();
    const at = Float64Array.from(f);
    evaluateTension(law, at, false, response);
    const stress = Float64Array.from(response.stress);
    for (let i = 0; i < 6; i++) {
      const energy = (shift: number): number => {
        const moved = Float64Array.from(f);
        moved[i] = moved[i]! + shift;
        evaluateTension(law, moved, false, response);
        return response.energy;
      };
      const h = 1e-4;
      const quotient = (8 * (energy(h) - energy(-h)) - (energy(2 * h) - energy(-2 * h))) / (12 * h);
      expect(Math.abs(stress[i]! - quotient) / law.typicalStiffness).toBeLessThan(1e-7);
    }
  });

  it.each(states)('stiffness = difference quotient of the gradient: $name', ({ f }) => {
    const response = createTensionResponse();
    evaluateTension(law, Float64Array.from(f), true, response);
    const stiffness = Float64Array.from(response.stiffness);
    for (let j = 0; j < 6; j++) {
      const stress = (shift: number): Float64Array => {
        const moved = Float64Array.from(f);
        moved[j] = moved[j]! + shift;
        evaluateTension(law, moved, false, response);
        return Float64Array.from(response.stress);
      };
      const h = 1e-5;
      const up = stress(h);
      const down = stress(-h);
      for (let i = 0; i < 6; i++) {
        const quotient = (up[i]! - down[i]!) / (2 * h);
        // 2e-5: the tabled slope is once differentiable; across a knot the quotient sees the kink of its curvature.
        expect(Math.abs(stiffness[6 * i + j]! - quotient) / law.typicalStiffness).toBeLessThan(2e-5);
      }
    }
  });
});

/** How the cloth lies. */
const liesAt = (law: TensionLaw, f: Float64Array): string => {
  const response = createTensionResponse();
  evaluateTension(law, f, false, response);
  if (!response.wrinkled) return 'taut';
  return response.slackWarp && response.slackWeft ? 'slack' : 'wrinkled';
};

describe('the border of wrinkles', () => {
  it.each(laws)('is crossed without a jump of force: %s', (_name, law) => {
    const response = createTensionResponse();
    const stressAt = (f: Float64Array): Float64Array => {
      evaluateTension(law, f, false, response);
      return Float64Array.from(response.stress);
    };
    const crossed = new Set<string>();
    for (const from of states) {
      for (const to of states) {
        const at = (share: number): Float64Array =>
          Float64Array.from(from.f, (value, i) => value + share * (to.f[i]! - value));
        const before = liesAt(law, at(0));
        const after = liesAt(law, at(1));
        if (before === after) continue;
        let low = 0;
        let high = 1;
        while (high - low > 1e-15 * 4) {
          const middle = (low + high) / 2;
          if (liesAt(law, at(middle)) === before) low = middle;
          else high = middle;
        }
        crossed.add(`${before} | ${liesAt(law, at(high))}`);
        const here = stressAt(at(low));
        const there = stressAt(at(high));
        for (let i = 0; i < 6; i++) {
          expect(Math.abs(here[i]! - there[i]!) / law.typicalStiffness).toBeLessThan(1e-11);
        }
      }
    }
    // Every border but the one from taut to slack, which is a single point; each from both sides.
    expect(crossed.size).toBe(4);
  });

  it('holds for a fabric that does not narrow: no push, no pull across', () => {
    const response = createTensionResponse();
    evaluateTension(straight, Float64Array.of(1.2, 0, 0, 0, 0.9, 0), false, response);
    expect(response.slackWeft).toBe(true);
    expect(response.slackWarp).toBe(false);
    expect(response.stress[0]!).toBeCloseTo(50, 6);
    expect(Math.abs(response.stress[4]!)).toBeLessThan(0.01);
  });
});

it('gives the strips back that it was made from', () => {
  for (const stretch of [1.02, 1.1, 1.25, 1.5, 1.75]) {
    const strip = pullStrip(knit, STRIP_ANGLE.warp, stretch);
    if (stretches.includes(stretch)) {
      expect(strip.tension).toBeCloseTo(180 * (stretch - 1) + 60 * (stretch - 1) ** 3, 3);
    }
    expect(strip.width).toBeCloseTo(stretch ** -0.35, 5);
    expect(strip.skew).toBeCloseTo(0, 9);
  }
});
