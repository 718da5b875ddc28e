import { describe, expect, it } from 'vitest';
import { mergeMeshes } from '../../../core/mesh/merge-meshes.ts';
import { selfIntersections, type SelfIntersections } from '../../../core/mesh/self-intersections.ts';
import type { TriangleMesh } from '../../../core/mesh/triangle-mesh.ts';
import { cylinder, sphere } from '../../help/shapes.ts';

function counted(mesh: TriangleMesh): SelfIntersections {
  const work = selfIntersections(mesh);
  let next = work.next();
  while (!next.done) next = work.next();
  return next.value;
}

const moved = ({ positions, triangles }: TriangleMesh, shift: readonly number[]): TriangleMesh => ({
  positions: positions.map((value, i) => value + shift[i % 3]!),
  triangles,
});

type Point = readonly number[];

/** Six times the signed volume of a tetrahedron. */
function orientation(a: Point, b: Point, c: Point, d: Point): number {
  const from = (p: Point): Point => p.map((value, k) => value - d[k]!);
  const [u, v, w] = [from(a), from(b), from(c)];
  return (
    u[0]! * (v[1]! * w[2]! - v[2]! * w[1]!) -
    u[1]! * (v[0]! * w[2]! - v[2]! * w[0]!) +
    u[2]! * (v[0]! * w[1]! - v[1]! * w[0]!)
  );
}

/** Every triangle against every other, by signs of tetrahedra alone. */
function bruteForce({ positions, triangles }: TriangleMesh): number {
  const corner = (t: number, k: number): Point => {
    const v = 3 * triangles[3 * t + (k % 3)]!;
    return [...positions.subarray(v, v + 3)];
  };
  const passes = (t: number, u: number): boolean =>
    [0, 1, 2].some((side) => {
      const [p, q] = [corner(t, side), corner(t, side + 1)];
      const [a, b, c] = [corner(u, 0), corner(u, 1), corner(u, 2)];
      if (orientation(a, b, c, p) * orientation(a, b, c, q) >= 0) return false;
      const signs = [orientation(p, q, a, b), orientation(p, q, b, c), orientation(p, q, c, a)];
      return signs.every((sign) => sign > 0) || signs.every((sign) => sign < 0);
    });
  let count = 0;
  const own = (t: number): number[] => [...triangles.subarray(3 * t, 3 * t + 3)];
  for (let t = 0; t < triangles.length / 3; t++)
    for (let u = t + 1; u < triangles.length / 3; u++) {
      if (own(t).some((v) => own(u).includes(v))) continue;
      if (passes(t, u) || passes(u, t)) count++;
    }
  return count;
}

describe('selfIntersections', () => {
  it.each<[string, TriangleMesh]>([
    ['two balls', mergeMeshes([sphere(0.1, 0.06), moved(sphere(0.1, 0.05), [0.07, 0.031, 0.013])]).mesh],
    [
      'a fine rod through a coarse ball',
      mergeMeshes([sphere(0.1, 0.06), moved(cylinder(0.013, 0.4, 0.03), [0.021, -0.2, 0.017])]).mesh,
    ],
  ])('finds as many pairs as every triangle against every other: %s', (_, mesh) => {
    const { pairCount, at, complete } = counted(mesh);
    expect(pairCount).toBe(bruteForce(mesh));
    expect(pairCount).toBeGreaterThan(10);
    expect(at).not.toBeNull();
    expect(complete).toBe(true);
  });

  it('finds none where surfaces only touch or are apart', () => {
    expect(counted(sphere(0.1, 0.02)).pairCount).toBe(0);
    expect(
      counted(mergeMeshes([sphere(0.1, 0.03), moved(sphere(0.1, 0.03), [0.3, 0, 0])]).mesh).pairCount,
    ).toBe(0);
  });

  it('gives up, and says so, where all triangles lie in one place', () => {
    // Long needles through one point: every box overlaps every other.
    const needles = Array.from({ length: 2000 }, (_, i) => {
      const angle = (Math.PI * i) / 2000;
      const [x, y] = [Math.cos(angle), Math.sin(angle)];
      return [-x, -y, i * 1e-7, x, y, i * 1e-7, x, y + 1e-3, i * 1e-7];
    }).flat();
    const mesh = {
      positions: Float64Array.from(needles),
      triangles: Uint32Array.from({ length: 6000 }, (_, corner) => corner),
    };
    expect(counted(mesh).complete).toBe(false);
  });
});
