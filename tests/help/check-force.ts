import { expect } from 'vitest';
import { multiply, zeroMatrix, type BlockPattern } from '../../core/equilibrium/block-matrix.ts';
import type { Force } from '../../core/equilibrium/force.ts';
import { seededRandom } from './shapes.ts';

const along = (a: Float64Array, b: Float64Array) => a.reduce((sum, value, i) => sum + value * b[i]!, 0);
const length = (a: Float64Array) => Math.sqrt(along(a, a));

function gradientAt(force: Force, positions: Float64Array): { energy: number; gradient: Float64Array } {
  const gradient = new Float64Array(positions.length);
  return { energy: force.addGradient(positions, gradient), gradient };
}

const wayFor = (positions: Float64Array, seed: number): Float64Array => {
  const random = seededRandom(seed);
  return positions.map(() => random() - 0.5);
};

const moved = (x: Float64Array, way: Float64Array, by: number) => x.map((value, i) => value + by * way[i]!);

/** The gradient is the slope of the energy: central differences along a random way, to a millionth. */
export function expectSlopeOfEnergy(force: Force, positions: Float64Array, step = 1e-6): void {
  const way = wayFor(positions, 21);
  const { gradient } = gradientAt(force, positions);
  const above = gradientAt(force, moved(positions, way, step)).energy;
  const below = gradientAt(force, moved(positions, way, -step)).energy;
  const slope = along(gradient, way);
  expect(Math.abs(slope)).toBeGreaterThan(0);
  expect((above - below) / (2 * step) / slope).toBeCloseTo(1, 5);
}

/** How far the stiffness is from the change of the gradient along a random way, over the stiffness. */
export function missOfStiffness(
  force: Force,
  positions: Float64Array,
  { pattern, exact = true, step = 1e-7 }: { pattern: BlockPattern; exact?: boolean; step?: number },
): number {
  const way = wayFor(positions, 22);
  const above = gradientAt(force, moved(positions, way, step)).gradient;
  const below = gradientAt(force, moved(positions, way, -step)).gradient;
  const matrix = zeroMatrix(pattern);
  force.addStiffness(positions, exact, matrix);
  const image = new Float64Array(positions.length);
  multiply(matrix, way, image);
  return length(image.map((value, i) => value - (above[i]! - below[i]!) / (2 * step))) / length(image);
}

/** Without negative second derivatives: x' K x >= 0 for random ways. */
export function expectPositive(force: Force, positions: Float64Array, pattern: BlockPattern): void {
  const matrix = zeroMatrix(pattern);
  force.addStiffness(positions, false, matrix);
  const image = new Float64Array(positions.length);
  for (let seed = 30; seed < 60; seed++) {
    const way = wayFor(positions, seed);
    multiply(matrix, way, image);
    expect(along(way, image)).toBeGreaterThanOrEqual(0);
  }
}

/** Carried and turned as a whole, a cloth has the same energy; its forces sum to nothing and turn nothing. */
export function expectRigidMotionFree(force: Force, positions: Float64Array): void {
  const { energy, gradient } = gradientAt(force, positions);
  const cos = Math.cos(0.7);
  const sin = Math.sin(0.7);
  const turned = positions.map((_, i) => {
    const [x, y, z] = [0, 1, 2].map((k) => positions[i - (i % 3) + k]!) as [number, number, number];
    return [cos * x - sin * z + 0.3, y - 1.1, sin * x + cos * z + 2][i % 3]!;
  });
  expect(gradientAt(force, turned).energy / energy).toBeCloseTo(1, 9);
  const largest = gradient.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const sum = [0, 0, 0];
  const turn = [0, 0, 0];
  for (let i = 0; i < gradient.length; i += 3) {
    for (let k = 0; k < 3; k++) {
      const [next, last] = [(k + 1) % 3, (k + 2) % 3];
      sum[k]! += gradient[i + k]!;
      turn[k]! += positions[i + next]! * gradient[i + last]! - positions[i + last]! * gradient[i + next]!;
    }
  }
  for (const value of [...sum, ...turn]) expect(Math.abs(value) / largest).toBeLessThan(1e-9);
}
