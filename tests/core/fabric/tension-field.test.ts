/**
 * Source: the relaxed energy of a membrane is the least over all ways of hiding length, W(C) = min over D >= 0 of
 * W0(C + D) (Pipkin, IMA J. Appl. Math. 36 (1986) 85, from memory); asked here by trying many D.
 */
import { describe, expect, it } from 'vitest';

import {
  createTensionResponse,
  evaluateTension,
  evaluateUnrelaxed,
} from '../../../core/fabric/evaluate-tension.ts';
import { lawFromStrips } from '../../../core/fabric/law-from-strips.ts';
import { seededRandom } from '../../help/shapes.ts';
import { torsoFabric } from '../../help/torso-case.ts';

const shearless = lawFromStrips({
  warp: { load: [[2, 250]] },
  weft: { load: [[2, 150]] },
  shear: { modulus: 1e-3 },
});

const laws = [
  ['an unbalanced narrowing fabric', torsoFabric()],
  ['yarns that hardly resist shear', shearless],
  ['a fabric that has grown', { ...torsoFabric(), set: { warp: 0.08, weft: 0.03 } }],
] as const;

/** A deformation of the given metric; 6. */
const ofMetric = (a: number, b: number, m: number): Float64Array => {
  const along = m / Math.sqrt(a);
  return Float64Array.of(Math.sqrt(a), 0, 0, along, Math.sqrt(b - along * along), 0);
};

describe.each(laws)('wrinkles in %s', (_name, law) => {
  const response = createTensionResponse();
  const random = seededRandom(7);
  const states = Array.from({ length: 300 }, () =>
    Float64Array.from([1, 0, 0, 0, 1, 0], (x) => x + 1.2 * (random() - 0.5)),
  );

  it('hide the length that leaves the least energy', () => {
    let wrinkled = 0;
    for (const f of states) {
      evaluateTension(law, f, false, response);
      // Folds lying on each other resist by themselves.
      if (Math.min(Math.hypot(f[0]!, f[1]!, f[2]!), Math.hypot(f[3]!, f[4]!, f[5]!)) < 0.45) continue;
      const { energy } = response;
      if (response.wrinkled) wrinkled++;
      const a = f[0]! ** 2 + f[1]! ** 2 + f[2]! ** 2;
      const b = f[3]! ** 2 + f[4]! ** 2 + f[5]! ** 2;
      const m = f[0]! * f[3]! + f[1]! * f[4]! + f[2]! * f[5]!;
      for (let i = 0; i < 60; i++) {
        // D = sum of two outer products: any that hides length.
        const [p, q, r, s] = [random(), random() - 0.5, i % 2 ? random() - 0.5 : 0, i % 2 ? random() : 0];
        const size = (2 * random()) ** 2;
        const da = size * (p * p + r * r);
        const db = size * (q * q + s * s);
        const dm = size * (p * q + r * s);
        evaluateUnrelaxed(law, ofMetric(a + da, b + db, m + dm), response);
        const hidden = (law.slackStiffness / 8) * (da * da + db * db + 2 * dm * dm);
        expect(energy).toBeLessThanOrEqual(response.energy + hidden + 1e-9 * law.typicalStiffness);
      }
    }
    expect(wrinkled).toBeGreaterThan(100);
  });

  it('carry no push but what keeps them regular', () => {
    for (const f of states) {
      if (Math.min(Math.hypot(f[0]!, f[1]!, f[2]!), Math.hypot(f[3]!, f[4]!, f[5]!)) < 0.45) continue;
      evaluateTension(law, f, false, response);
      const p = response.stress;
      const product = (i: 0 | 3, j: 0 | 3) => p[i]! * f[j]! + p[i + 1]! * f[j + 1]! + p[i + 2]! * f[j + 2]!;
      const trace = product(0, 0) + product(3, 3);
      const determinant = product(0, 0) * product(3, 3) - product(0, 3) * product(3, 0);
      const least = trace / 2 - Math.sqrt(Math.max(0, (trace * trace) / 4 - determinant));
      expect(least).toBeGreaterThan(-law.slackStiffness);
    }
  });

  it('leave taut cloth to the law as it is written, to the bit', () => {
    const plain = createTensionResponse();
    let taut = 0;
    for (const f of states) {
      const wide = f.map((x) => 1.3 * x);
      evaluateTension(law, wide, false, response);
      if (response.wrinkled) continue;
      taut++;
      evaluateUnrelaxed(law, wide, plain);
      expect(response.energy).toBe(plain.energy);
      expect(response.stress).toEqual(plain.stress);
    }
    expect(taut).toBeGreaterThan(20);
  });
});

it('a yarn across which the cloth is wrinkled is slack, and neither is where it is sheared into wrinkles', () => {
  const response = createTensionResponse();
  const slackAt = (...f: number[]): boolean[] => {
    evaluateTension(torsoFabric(), Float64Array.from(f), false, response);
    return [response.wrinkled, response.slackWarp, response.slackWeft];
  };
  expect(slackAt(1.2, 0, 0, 0, 1.1, 0)).toEqual([false, false, false]);
  expect(slackAt(1.2, 0, 0, 0, 0.8, 0)).toEqual([true, false, true]);
  expect(slackAt(0.8, 0, 0, 0, 1.2, 0)).toEqual([true, true, false]);
  expect(slackAt(1, 0, 0, 0.3, 1, 0)).toEqual([true, false, false]);
  expect(slackAt(0.9, 0, 0, 0.02, 0.9, 0)).toEqual([true, true, true]);
});

it.each([
  [[0, 0, 0, 0, 0, 0]],
  [[1.2, 0, 0, 0, 0, 0]],
  [[2, 0, 0, 2, 0, 0]],
  [[2, 0, 0, -0.1, 0, 0]],
  [[1, 1, 1, -1, -1, -1]],
  [[1e-9, 0, 0, 0, 3, 0]],
])('a collapsed triangle still gets numbers: %j', (f) => {
  const response = createTensionResponse();
  for (const law of [torsoFabric(), shearless]) {
    evaluateTension(law, Float64Array.from(f), true, response);
    for (const value of [response.energy, ...response.stress, ...response.stiffness]) {
      expect(value).toSatisfy(Number.isFinite);
    }
  }
});
