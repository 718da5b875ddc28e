import { describe, expect, it } from 'vitest';
import { closestOnTriangle } from '../../../core/mesh/closest-on-triangle.ts';
import { nearestPointOf } from '../../../core/mesh/nearest-point.ts';
import type { TriangleMesh } from '../../../core/mesh/triangle-mesh.ts';
import { triple } from '../../../core/mesh/triple.ts';
import { cylinder, hourglass, seededRandom, sphere } from '../../help/shapes.ts';

type Point = [number, number, number];
const dot = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const minus = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];

/** Another way to the same distance: the plane's foot if inside by three signs, else the nearest of three sides. */
function plainDistance(p: Point, corners: [Point, Point, Point]): number {
  const [a, b, c] = corners;
  const u = minus(b, a);
  const v = minus(c, a);
  const n: Point = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
  const toSide = (from: Point, to: Point): number => {
    const along = minus(to, from);
    const t = Math.min(1, Math.max(0, dot(minus(p, from), along) / (dot(along, along) || 1)));
    return Math.hypot(...minus(p, [from[0] + t * along[0], from[1] + t * along[1], from[2] + t * along[2]]));
  };
  const inside = corners.every((from, k) => {
    const along = minus(corners[(k + 1) % 3]!, from);
    const across: Point = [
      n[1] * along[2] - n[2] * along[1],
      n[2] * along[0] - n[0] * along[2],
      n[0] * along[1] - n[1] * along[0],
    ];
    return dot(minus(p, from), across) >= 0;
  });
  if (inside && dot(n, n) > 0) return Math.abs(dot(minus(p, a), n)) / Math.sqrt(dot(n, n));
  return Math.min(toSide(a, b), toSide(b, c), toSide(c, a));
}

function bruteForce(mesh: TriangleMesh, p: Point): number {
  let best = Infinity;
  const corner = (i: number): Point => {
    const v = 3 * mesh.triangles[i]!;
    return [mesh.positions[v]!, mesh.positions[v + 1]!, mesh.positions[v + 2]!];
  };
  for (let i = 0; i < mesh.triangles.length; i += 3) {
    best = Math.min(best, plainDistance(p, [corner(i), corner(i + 1), corner(i + 2)]));
  }
  return best;
}

const footOf = (mesh: TriangleMesh, t: number, weights: Float64Array): Point =>
  triple((k) =>
    [0, 1, 2].reduce((sum, i) => sum + weights[i]! * mesh.positions[3 * mesh.triangles[3 * t + i]! + k]!, 0),
  );

describe('nearestPointOf', () => {
  const shapes: [string, TriangleMesh][] = [
    ['sphere', sphere(0.1, 0.02)],
    ['jittered hourglass', hourglass([0.13, 0.105], 0.3, 0.03, { jitter: 0.3, seed: 7 })],
    ['open cylinder', cylinder(0.05, 0.4, 0.02, { closed: false })],
    [
      'one triangle',
      {
        positions: Float64Array.from([0, 0, 0, 0.1, 0, 0, 0, 0, 0.1]),
        triangles: Uint32Array.from([0, 1, 2]),
      },
    ],
    [
      'a flat sliver',
      {
        positions: Float64Array.from([0, 0, 0, 0.1, 0, 0, 0.2, 0, 0]),
        triangles: Uint32Array.from([0, 1, 2]),
      },
    ],
  ];
  it.each(shapes)('equals the search of every triangle: %s (300 points, seed 11)', (_, mesh) => {
    const nearest = nearestPointOf(mesh);
    const random = seededRandom(11);
    const into = new Float64Array(4);
    for (let i = 0; i < 300; i++) {
      // Half of them close by, half up to a metre off.
      const reach = i % 2 === 0 ? 0.3 : 2;
      const p: Point = [(random() - 0.5) * reach, (random() - 0.3) * reach, (random() - 0.5) * reach];
      const t = nearest(...p, into);
      expect(into[3]).toBeCloseTo(bruteForce(mesh, p), 12);
      expect(Math.hypot(...minus(p, footOf(mesh, t, into)))).toBeCloseTo(into[3]!, 12);
      expect(into[0]! + into[1]! + into[2]!).toBeCloseTo(1, 12);
      expect(Math.min(into[0]!, into[1]!, into[2]!)).toBeGreaterThanOrEqual(-1e-12);
    }
  });

  it('finds a vertex at distance 0', () => {
    const mesh = sphere(0.1, 0.02);
    const nearest = nearestPointOf(mesh);
    const into = new Float64Array(4);
    for (let v = 0; v < mesh.positions.length; v += 30) {
      nearest(mesh.positions[v]!, mesh.positions[v + 1]!, mesh.positions[v + 2]!, into);
      expect(into[3]).toBeLessThan(1e-15);
    }
  });
});

describe('closestOnTriangle', () => {
  it('takes a triangle shrunk to a point', () => {
    const into = new Float64Array(3);
    const squared = closestOnTriangle(new Float64Array(9), 0, 3, 6, 3, 4, 0, into);
    expect(squared).toBe(25);
    expect(into.every(Number.isFinite)).toBe(true);
  });
});
