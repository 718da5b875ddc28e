import { describe, expect, it } from 'vitest';
import type { Box } from '../../../core/body/body.ts';
import { fieldOfGrid } from '../../../core/body/distance-grid.ts';
import { gridFromField } from '../../../core/body/grid-from-field.ts';
import { latticeOver, smoothGrid } from '../../../core/body/node-lattice.ts';
import { triple } from '../../../core/mesh/triple.ts';
import { seededRandom } from '../../help/shapes.ts';

const box: Box = { low: [-0.1, 0, -0.1], high: [0.1, 0.15, 0.12] };

/** The spline of f sampled at the nodes. */
const splineOf = (f: (x: number, y: number, z: number) => number, spacing: number) => {
  const lattice = latticeOver(box, spacing);
  const [nx, ny, nz] = lattice.counts;
  const nodes = new Float64Array(nx * ny * nz);
  for (let n = 0; n < nodes.length; n++) {
    const at = [Math.floor(n / (ny * nz)), Math.floor(n / nz) % ny, n % nz];
    const [x, y, z] = at.map((i, k) => lattice.low[k]! + (i - 2) * spacing);
    nodes[n] = f(x!, y!, z!);
  }
  return fieldOfGrid(smoothGrid(lattice, nodes));
};

const cubic = (x: number, y: number, z: number): number =>
  0.3 + x - 2 * y + 3 * z + 4 * x * y - 5 * z * z + 6 * x * x * z + 7 * y * y * y - 8 * x * y * z;

describe('the spline of a grid', () => {
  it('gives every cubic polynomial back exactly: value, gradient and Hessian', () => {
    const { sample } = splineOf(cubic, 0.02);
    const into = new Float64Array(10);
    const random = seededRandom(5);
    for (let i = 0; i < 200; i++) {
      const [x, y, z] = triple((k) => box.low[k]! + random() * (box.high[k]! - box.low[k]!));
      sample(x, y, z, into);
      const exact = [
        cubic(x, y, z),
        1 + 4 * y + 12 * x * z - 8 * y * z,
        -2 + 4 * x + 21 * y * y - 8 * x * z,
        3 - 10 * z + 6 * x * x - 8 * x * y,
        12 * z,
        4 - 8 * z,
        12 * x - 8 * y,
        42 * y,
        -8 * x,
        -10,
      ];
      exact.forEach((value, k) => expect(into[k]).toBeCloseTo(value, 9));
    }
  });

  it('has the gradient and Hessian of its own value (difference quotients), inside and across its border', () => {
    const { sample } = splineOf(
      (x, y, z) => Math.sin(20 * x) * Math.cos(15 * y) + z * Math.sin(25 * z),
      0.01,
    );
    const into = new Float64Array(10);
    const ahead = new Float64Array(10);
    const back = new Float64Array(10);
    const step = 1e-6;
    const row = [
      [4, 5, 6],
      [5, 7, 8],
      [6, 8, 9],
    ];
    const random = seededRandom(8);
    for (let i = 0; i < 100; i++) {
      // The box grown by 20 mm: about half of these lie outside it.
      const p = [0, 1, 2].map((k) => box.low[k]! - 0.02 + random() * (box.high[k]! - box.low[k]! + 0.04));
      const isOutside = p.some((value, k) => value < box.low[k]! || value > box.high[k]!);
      sample(p[0]!, p[1]!, p[2]!, into);
      for (const axis of [0, 1, 2]) {
        const at = (sign: number): [number, number, number] => [
          p[0]! + (axis === 0 ? sign * step : 0),
          p[1]! + (axis === 1 ? sign * step : 0),
          p[2]! + (axis === 2 ? sign * step : 0),
        ];
        sample(...at(1), ahead);
        sample(...at(-1), back);
        expect((ahead[0]! - back[0]!) / (2 * step)).toBeCloseTo(into[1 + axis]!, 6);
        if (isOutside) continue;
        for (const other of [0, 1, 2]) {
          const slope = (ahead[1 + other]! - back[1 + other]!) / (2 * step);
          // Third derivatives jump from cell to cell: 1e-6 m of a foreign cell is worth 1e-2.
          expect(Math.abs(slope - into[row[axis]![other]!]!)).toBeLessThan(0.02);
        }
      }
    }
  });

  it('stays finite and goes on straight a long way outside', () => {
    const { sample } = splineOf((x) => x, 0.01);
    const into = new Float64Array(10);
    sample(3, -2, 5, into);
    expect(into[0]).toBeCloseTo(3, 9);
    expect([into[1]!, into[2]!, into[3]!].map((g) => Math.round(1e9 * g) / 1e9 + 0)).toEqual([1, 0, 0]);
  });
});

describe('gridFromField', () => {
  it('makes a distance of a field that rises too steeply: |gradient| 1 within 0.2 % at the skin of a cylinder', () => {
    // F = (r^2 - R^2)/R has slope 2 at the skin, R = 70 mm.
    const radius = 0.07;
    const { sample } = gridFromField((x, _, z) => (x * x + z * z - radius * radius) / radius, box, 0.006);
    const into = new Float64Array(10);
    for (let angle = 0; angle < 6.28; angle += 0.1) {
      sample(radius * Math.cos(angle), 0.07, radius * Math.sin(angle), into);
      expect(Math.abs(into[0]!)).toBeLessThan(2e-5);
      expect(Math.abs(Math.hypot(into[1]!, into[2]!, into[3]!) - 1)).toBeLessThan(0.002);
    }
  });

  it('keeps the curvature of a distance: trace of the Hessian 1/R within 1 % in the mean, 3 % at a point', () => {
    // R 40 mm, spacing h 6 mm. The bending of a cubic spline is straight between nodes, so it is off by up to
    // h^2/8 of its own second derivative, 3/R^3: 0.8 % of 1/R along each of the two axes, and that again by the twicing.
    const { sample } = gridFromField((x, _, z) => Math.hypot(x, z) - 0.04, box, 0.006);
    const into = new Float64Array(10);
    const curvatures = Array.from({ length: 63 }, (_, i) => {
      sample(0.04 * Math.cos(i / 10), 0.07, 0.04 * Math.sin(i / 10), into);
      expect(Math.abs(into[0]!)).toBeLessThan(3e-6);
      return (into[4]! + into[7]! + into[9]!) * 0.04;
    });
    for (const curvature of curvatures) expect(Math.abs(curvature - 1)).toBeLessThan(0.03);
    const mean = curvatures.reduce((sum, curvature) => sum + curvature, 0) / curvatures.length;
    expect(Math.abs(mean - 1)).toBeLessThan(0.01);
  });

  it('is held to -60 and 80 mm far from the skin', () => {
    const { sample } = gridFromField((_, y) => y - 0.075, { low: [-1, -1, -1], high: [1, 1, 1] }, 0.05);
    const into = new Float64Array(10);
    sample(0, -0.9, 0, into);
    expect(into[0]).toBeCloseTo(-0.06, 12);
    sample(0, 0.9, 0, into);
    expect(into[0]).toBeCloseTo(0.08, 12);
  });
});
