import { describe, expect, it } from 'vitest';
import { sectionAt } from '../../../core/mesh/section.ts';
import type { TriangleMesh } from '../../../core/mesh/triangle-mesh.ts';
import { cylinder, hourglass, sphere } from '../../help/shapes.ts';

const twice = (mesh: TriangleMesh, shift: number): TriangleMesh => {
  const vertexCount = mesh.positions.length / 3;
  return {
    positions: Float64Array.from([
      ...mesh.positions,
      ...mesh.positions.map((p, i) => (i % 3 === 0 ? p + shift : 0.5 * p)),
    ]),
    triangles: Uint32Array.from([...mesh.triangles, ...mesh.triangles.map((v) => v + vertexCount)]),
  };
};

describe('sectionAt', () => {
  it('measures a square prism exactly (length 4s, area s^2, centroid in the middle)', () => {
    // Eight corners of a box 0.2 x 0.3 x 0.2 m about (0.1, 0.15, 0.1).
    const positions = Float64Array.from(
      [0, 1, 2, 3, 4, 5, 6, 7].flatMap((k) => [0.2 * (k & 1), 0.3 * ((k >> 1) & 1), 0.2 * ((k >> 2) & 1)]),
    );
    // prettier-ignore
    const triangles = Uint32Array.from([
      0, 2, 3, 0, 3, 1,  4, 5, 7, 4, 7, 6,  0, 1, 5, 0, 5, 4,  2, 6, 7, 2, 7, 3,  0, 4, 6, 0, 6, 2,  1, 3, 7, 1, 7, 5,
    ]);
    const [loop, ...others] = sectionAt({ positions, triangles }, 0.1);
    expect(others).toHaveLength(0);
    expect(loop!.length).toBeCloseTo(0.8, 12);
    expect(loop!.area).toBeCloseTo(0.04, 12);
    expect(loop!.centroid[0]).toBeCloseTo(0.1, 12);
    expect(loop!.centroid[1]).toBeCloseTo(0.1, 12);
  });

  it('runs counter-clockwise seen from above, x right and z down the page', () => {
    const { points } = sectionAt(sphere(0.1, 0.02), 0.01)[0]!;
    let turning = 0;
    for (let i = 0; i < points.length; i += 2) {
      const j = (i + 2) % points.length;
      turning += Math.sign(points[j]! * points[i + 1]! - points[i]! * points[j + 1]!);
    }
    expect(turning).toBe(points.length / 2);
  });

  it('gives one loop of the polygon length where the plane goes exactly through a row of vertices', () => {
    // Closed form: regular n-gon in a circle R has perimeter 2 n R sin(pi/n), area n R^2 sin(2 pi/n)/2.
    const radius = 0.07;
    const mesh = cylinder(radius, 0.09, 0.01);
    const n = Math.round((2 * Math.PI * radius) / 0.01);
    for (const row of [1, 5, 10]) {
      const height = mesh.positions[3 * n * row + 1]!;
      const loops = sectionAt(mesh, height);
      expect(loops).toHaveLength(1);
      expect(loops[0]!.length).toBeCloseTo(2 * n * radius * Math.sin(Math.PI / n), 10);
      expect(loops[0]!.area).toBeCloseTo((n * radius ** 2 * Math.sin((2 * Math.PI) / n)) / 2, 10);
    }
  });

  it('gives as many loops as there are bodies, the largest first, and none above or below', () => {
    const pair = twice(sphere(0.1, 0.02), 0.5);
    const loops = sectionAt(pair, 0);
    expect(loops[0]!.centroid[0]).toBeCloseTo(0, 10);
    expect(loops[1]!.centroid[0]).toBeCloseTo(0.5, 10);
    expect(loops[0]!.area).toBeGreaterThan(loops[1]!.area);
    expect(sectionAt(pair, 0.0999)).toHaveLength(1);
    expect(sectionAt(pair, 0.11)).toHaveLength(0);
    expect(sectionAt(pair, -0.11)).toHaveLength(0);
  });

  it('gives one loop at every height, vertices in the plane or not (jittered hourglass, seed 3)', () => {
    const mesh = hourglass([0.13, 0.105], 0.3, 0.02, { jitter: 0.3, seed: 3 });
    for (let v = 0; v < mesh.positions.length / 3; v += 7) {
      const height = mesh.positions[3 * v + 1]!;
      if (height > 0) expect(sectionAt(mesh, height)).toHaveLength(1);
    }
  });

  it('leaves out what does not close', () => {
    const { positions, triangles } = cylinder(0.07, 0.09, 0.01);
    const torn = { positions, triangles: triangles.slice(6 * 44) };
    expect(sectionAt(torn, 0.001)).toHaveLength(0);
    const slit = { positions, triangles: triangles.filter((_, i) => Math.floor(i / 3) % (2 * 44) !== 5) };
    expect(sectionAt(slit, 0.004)).toHaveLength(0);
  });
});
