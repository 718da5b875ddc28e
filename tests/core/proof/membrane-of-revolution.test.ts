/** The proof's own solver is itself held against closed forms and its own finer self. */
import { describe, expect, it } from 'vitest';

import { restOfRevolution, type RevolvedMembrane } from '../../../core/proof/membrane-of-revolution.ts';
import { bodyOfRevolution, cylinderBody, waistProfile } from '../../../core/proof/smooth-bodies.ts';

const waist = waistProfile(0.13, 0.025, 0.06);
const HEIGHT = 0.24;
const at = (t: number) => HEIGHT * (t - 0.5);

const overWaist: RevolvedMembrane = {
  laid: (t) => [waist.radius(at(t)), at(t)],
  naturalRadius: (t) => 0.8 * waist.radius(at(t)),
  naturalLength: (t) => 0.8 * HEIGHT * Math.hypot(1, waist.slope(at(t))),
  stiffness: 400,
  body: bodyOfRevolution(waist),
  foundation: 0.5e6,
};

describe('a membrane of revolution', () => {
  it('sinks into a yielding bar as far as k d = K ((R - d)/r0 - 1)/(R - d) says', () => {
    const [radius, relaxed, stiffness, foundation] = [0.0955, 0.0764, 250, 2e5];
    const { radius: rest, pressure } = restOfRevolution(
      {
        laid: (t) => [radius, 0.1 * t],
        naturalRadius: () => relaxed,
        naturalLength: () => 0.1,
        stiffness,
        body: cylinderBody(radius),
        foundation,
      },
      40,
    );
    for (let i = 0; i < rest.length; i++) {
      const give = radius - rest[i]!;
      const pull = (stiffness * (rest[i]! / relaxed - 1)) / rest[i]!;
      expect(foundation * give).toBeCloseTo(pull, 6);
      expect(pressure[i]!).toBeCloseTo(pull, 6);
    }
  });

  it('is even about the waist, leaves the hollow and comes to the same rest on finer pieces, at second order', () => {
    const gapOf = (count: number) => restOfRevolution(overWaist, count).distance[count / 2]!;
    const [coarse, middle, fine, finest] = [96, 192, 384, 1536].map(gapOf) as [
      number,
      number,
      number,
      number,
    ];
    expect(fine).toBeGreaterThan(0);
    expect(Math.abs(fine / finest - 1)).toBeLessThan(1e-3);
    const order = Math.log2(Math.abs(coarse - finest) / Math.abs(middle - finest));
    expect(order).toBeGreaterThan(1.5);
    const { radius } = restOfRevolution(overWaist, 384);
    for (let i = 0; i < 192; i++) expect(radius[i]!).toBeCloseTo(radius[384 - i]!, 9);
  });

  it('pulls as much at any height as at the waist, the push of the body between them counted', () => {
    const count = 1536;
    const { radius, height, pressure } = restOfRevolution(overWaist, count);
    const lengthOf = (i: number) => Math.hypot(radius[i + 1]! - radius[i]!, height[i + 1]! - height[i]!);
    const pullAt = (i: number) => {
      const t = (i + 0.5) / count;
      const length = lengthOf(i);
      const stretch = length / (overWaist.naturalLength(t) / count);
      const tension = 2 * Math.PI * overWaist.naturalRadius(t) * overWaist.stiffness * (stretch - 1);
      return (tension * (height[i + 1]! - height[i]!)) / length;
    };
    // The body pushes along its own normal, p on the area of each ring; its part up the body is n_y of it.
    let push = 0;
    const [from, to] = [count / 2, (7 * count) / 8];
    const sample = new Float64Array(10);
    for (let i = from + 1; i <= to; i++) {
      overWaist.body.sample(radius[i]!, height[i]!, 0, sample);
      push -= pressure[i]! * sample[2]! * Math.PI * radius[i]! * (lengthOf(i - 1) + lengthOf(i));
    }
    expect(pullAt(to) - pullAt(from)).toBeCloseTo(push, 5);
    expect(Math.abs(push)).toBeGreaterThan(1);
  });
});
