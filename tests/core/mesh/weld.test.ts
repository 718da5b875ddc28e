import { describe, expect, it } from 'vitest';
import { requireClosed } from '../../../core/mesh/soundness.ts';
import { enclosedVolume } from '../../../core/mesh/triangle-areas.ts';
import type { TriangleMesh } from '../../../core/mesh/triangle-mesh.ts';
import { seamTolerance, weld } from '../../../core/mesh/weld.ts';
import { cylinder, seededRandom } from '../../help/shapes.ts';

/** Every triangle with three vertices of its own, shaken by `shake`. */
const loose = ({ positions, triangles }: TriangleMesh, shake: number): TriangleMesh => {
  const random = seededRandom(2);
  const corners = [...triangles].flatMap((v) => Array.from(positions.subarray(3 * v, 3 * v + 3)));
  return {
    positions: Float64Array.from(corners, (value) => value + shake * (2 * random() - 1)),
    triangles: Uint32Array.from(triangles, (_, i) => i),
  };
};

describe('weld', () => {
  const whole = cylinder(0.07, 0.2, 0.015, { jitter: 0.3, seed: 4 });

  it('puts a surface cut into single triangles together again, exactly equal', () => {
    const { mesh, joinedCount } = weld(loose(whole, 0), 0);
    expect(mesh.positions.length).toBe(whole.positions.length);
    expect(joinedCount).toBe(whole.triangles.length - whole.positions.length / 3);
    expect(() => requireClosed(mesh)).not.toThrow();
    expect(enclosedVolume(mesh)).toBeCloseTo(enclosedVolume(whole), 15);
  });

  it('joins across any cell border what single precision cannot tell apart', () => {
    const tolerance = seamTolerance(whole.positions);
    expect(tolerance).toBeCloseTo(0.2e-6, 12);
    // Shaken by a quarter of the tolerance along each axis, two copies are at most 0.87 tolerances apart.
    const { mesh } = weld(loose(whole, tolerance / 4), tolerance);
    expect(mesh.positions.length).toBe(whole.positions.length);
    expect(() => requireClosed(mesh)).not.toThrow();
  });

  it('leaves a sound mesh as it is and drops what collapses or is not used', () => {
    const same = weld(whole, seamTolerance(whole.positions));
    expect(same.joinedCount).toBe(0);
    expect(same.mesh.positions).toEqual(whole.positions);
    expect(same.mesh.triangles).toEqual(whole.triangles);
    const positions = Float64Array.from([9, 9, 9, 0, 0, 0, 1, 0, 0, 0, 1, 0, 1, 0, 0]);
    const { mesh } = weld({ positions, triangles: Uint32Array.from([1, 2, 3, 2, 4, 3]) }, 0);
    expect([...mesh.positions]).toEqual([0, 0, 0, 1, 0, 0, 0, 1, 0]);
    expect([...mesh.triangles]).toEqual([0, 1, 2]);
  });

  it('takes 0 and -0 for the same', () => {
    const positions = Float64Array.from([0, 0, 0, 1, 0, 0, 0, 1, 0, -0, -0, 0, 1, -0, 0, 0, -1, 0]);
    const { mesh } = weld({ positions, triangles: Uint32Array.from([0, 1, 2, 3, 5, 4]) }, 0);
    expect(mesh.positions.length / 3).toBe(4);
  });
});
