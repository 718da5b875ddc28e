import { describe, expect, it } from 'vitest';
import { foundationAt } from '../../../core/body/foundation-at.ts';
import { cylinder, seededRandom } from '../../help/shapes.ts';

describe('foundationAt', () => {
  const skin = cylinder(0.07, 0.3, 0.01, { jitter: 0.3, seed: 5 });

  it('gives a stiffness that is linear on the skin back at the foot of every point (seed 6)', () => {
    // k = 1e6 (1 + 2 y): linear interpolation is exact, and the foot of a point beside the wall has its height.
    const foundation = Float64Array.from(
      { length: skin.positions.length / 3 },
      (_, v) => 1e6 * (1 + 2 * skin.positions[3 * v + 1]!),
    );
    const random = seededRandom(6);
    const points = new Float64Array(300);
    for (let p = 0; p < 100; p++) {
      const angle = 6.28 * random();
      const radius = 0.069 + 0.01 * random();
      points.set([radius * Math.cos(angle), 0.05 + 0.2 * random(), radius * Math.sin(angle)], 3 * p);
    }
    // Facets lean by up to e/2R = 4 degrees, so a point 9 mm off has its foot up to 0.6 mm higher or lower: 0.1 %.
    foundationAt({ skin, foundation }, points).forEach((value, p) => {
      expect(Math.abs(value / (1e6 * (1 + 2 * points[3 * p + 1]!)) - 1)).toBeLessThan(0.002);
    });
  });

  it('gives the stiffness of a vertex at the vertex', () => {
    const foundation = Float64Array.from({ length: skin.positions.length / 3 }, (_, v) => v + 1);
    foundationAt({ skin, foundation }, skin.positions).forEach((value, v) =>
      expect(value).toBeCloseTo(v + 1, 6),
    );
  });

  it('is even on an even body', () => {
    const foundation = new Float64Array(skin.positions.length / 3).fill(4e5);
    expect([...foundationAt({ skin, foundation }, Float64Array.from([5, 5, 5, 0, 0, 0]))]).toEqual([
      4e5, 4e5,
    ]);
  });
});
