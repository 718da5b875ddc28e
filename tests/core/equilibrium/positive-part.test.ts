import { describe, expect, it } from 'vitest';
import { addPositivePart, positivePartRoom } from '../../../core/equilibrium/positive-part.ts';
import { createTensionResponse, evaluateTension } from '../../../core/fabric/evaluate-tension.ts';
import { seededRandom } from '../../help/shapes.ts';
import { torsoFabric } from '../../help/torso-case.ts';

const law = torsoFabric();

function stiffnessAt(f: Float64Array): Float64Array {
  const response = createTensionResponse();
  evaluateTension(law, f, true, response);
  return Float64Array.from(response.stiffness);
}

const resistance = (c: Float64Array, x: readonly number[]) =>
  x.reduce((sum, xi, i) => sum + xi * x.reduce((row, xj, j) => row + c[6 * i + j]! * xj, 0), 0);

describe('positive part', () => {
  it('leaves a taut fabric alone', () => {
    const f = Float64Array.of(1.3, 0.1, 0, 0, 1.2, 0.2);
    const c = stiffnessAt(f);
    const before = Float64Array.from(c);
    expect(addPositivePart(f, positivePartRoom(), c)).toBe(false);
    expect(c).toEqual(before);
  });

  it('takes the negative eigenvalues from a pushed and sheared fabric and touches no direction it resisted', () => {
    const random = seededRandom(21);
    const room = positivePartRoom();
    let corrected = 0;
    for (let i = 0; i < 200; i++) {
      const f = Float64Array.from([0.9, 0, 0, 0, 0.9, 0], (x) => x + 0.8 * (random() - 0.5));
      const c = stiffnessAt(f);
      const before = Float64Array.from(c);
      if (addPositivePart(f, room, c)) corrected++;
      for (let k = 0; k < 20; k++) {
        const x = Array.from({ length: 6 }, () => random() - 0.5);
        const now = resistance(c, x);
        expect(now).toBeGreaterThan(-1e-7);
        expect(now).toBeGreaterThanOrEqual(resistance(before, x) - 1e-7);
      }
      // Applied again there is nothing left to take.
      const again = Float64Array.from(c);
      addPositivePart(f, room, again);
      again.forEach((value, e) => expect(value).toBeCloseTo(c[e]!, 5));
    }
    expect(corrected).toBeGreaterThan(50);
  });

  it('survives a triangle without area', () => {
    const f = Float64Array.of(1, 0, 0, 2, 0, 0);
    const c = new Float64Array(36);
    for (let i = 0; i < 6; i++) c[7 * i] = i - 2;
    addPositivePart(f, positivePartRoom(), c);
    for (const value of c) expect(value).not.toBeNaN();
  });
});
