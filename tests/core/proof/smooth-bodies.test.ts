import { describe, expect, it } from 'vitest';
import type { DistanceField } from '../../../core/body/distance-field.ts';
import {
  bodyOfRevolution,
  coneBody,
  cylinderBody,
  ellipseBody,
  waistProfile,
} from '../../../core/proof/smooth-bodies.ts';

const bodies: [string, DistanceField][] = [
  ['cylinder', cylinderBody(0.1)],
  ['cone', coneBody(0.08, 0.14)],
  ['waist', bodyOfRevolution(waistProfile(0.13, 0.025, 0.06))],
  ['ellipse', ellipseBody(0.15, 0.1)],
];

const sampled = (body: DistanceField, x: number, y: number, z: number): Float64Array => {
  const into = new Float64Array(10);
  body.sample(x, y, z, into);
  return into;
};

/** Places near the skin of all of them, inside and outside. */
const places: [number, number, number][] = [
  [0.09, 0.01, 0.05],
  [-0.11, 0.05, 0.02],
  [0.02, -0.04, -0.11],
  [-0.07, 0.09, 0.08],
];
const place = (p: readonly number[], k: number, by: number): [number, number, number] => [
  p[0]! + (k === 0 ? by : 0),
  p[1]! + (k === 1 ? by : 0),
  p[2]! + (k === 2 ? by : 0),
];

describe.each(bodies)('%s', (_, body) => {
  it.each(places)('has the slope and bend of its distance at %d, %d, %d', (...p) => {
    const at = sampled(body, ...p);
    expect(Math.hypot(at[1]!, at[2]!, at[3]!)).toBeCloseTo(1, 12);
    const hessian = [
      [4, 5, 6],
      [5, 7, 8],
      [6, 8, 9],
    ];
    const step = 1e-6;
    for (let k = 0; k < 3; k++) {
      const above = sampled(body, ...place(p, k, step));
      const below = sampled(body, ...place(p, k, -step));
      expect((above[0]! - below[0]!) / (2 * step)).toBeCloseTo(at[1 + k]!, 8);
      for (let j = 0; j < 3; j++) {
        expect((above[1 + j]! - below[1 + j]!) / (2 * step)).toBeCloseTo(at[hessian[k]![j]!]!, 5);
      }
    }
  });

  it('is zero where a step back along the slope ends', () => {
    for (const p of places) {
      const at = sampled(body, ...p);
      const foot = p.map((x, k) => x - at[0]! * at[1 + k]!) as [number, number, number];
      expect(Math.abs(sampled(body, ...foot)[0]!)).toBeLessThan(1e-12);
    }
  });
});

it('a cylinder is as far as its radius says', () => {
  expect(sampled(cylinderBody(0.1), 0.3, 5, 0.4)[0]).toBeCloseTo(0.4, 12);
});

it('an ellipse is met at the ends of its axes', () => {
  const body = ellipseBody(0.15, 0.1);
  expect(sampled(body, 0.16, 0, 0)[0]).toBeCloseTo(0.01, 12);
  expect(sampled(body, 0, 0, -0.09)[0]).toBeCloseTo(-0.01, 12);
  // Radius of curvature a^2 / b at the end of the short axis (any book on conics): Hessian 1 / (a^2/b + d).
  expect(sampled(body, 0, 0, 0.1)[4]).toBeCloseTo(0.1 / 0.15 ** 2, 10);
});
