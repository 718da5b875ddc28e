import { describe, expect, it } from 'vitest';
import { multiply } from '../../../core/equilibrium/block-matrix.ts';
import { assemble, clothSystem, evaluate, type ClothSystem } from '../../../core/equilibrium/cloth-system.ts';
import { SAMPLE_SIZE } from '../../../core/equilibrium/contact-force.ts';
import { addFrictionGradient, lagFriction } from '../../../core/equilibrium/friction-force.ts';
import { addMembraneGradient } from '../../../core/equilibrium/membrane-force.ts';
import { prepareCloth } from '../../../core/equilibrium/prepare-cloth.ts';
import { seededRandom } from '../../help/shapes.ts';
import { torsoCase } from '../../help/torso-case.ts';

/** A small torso tube pressed a millimetre into the body and ruffled, so that every force acts. */
function ruffled(friction: number): ClothSystem {
  const problem = torsoCase({ rowCount: 3, columnCount: 8, halvings: 1, friction, hemsHeld: false });
  const top = 1;
  const random = seededRandom(11);
  const laid = problem.levels[top]!.mesh.positions;
  const positions = Float64Array.from(laid, (x, i) =>
    i % 3 === 1 ? x + 0.002 * (random() - 0.5) : 0.99 * x + 0.002 * (random() - 0.5),
  );
  const system = clothSystem(problem, prepareCloth(problem.levels), top, positions);
  evaluate(system, positions);
  if (system.friction) lagFriction(system.friction, system.contact);
  evaluate(system, positions);
  return system;
}

const direction = (size: number): Float64Array => {
  const random = seededRandom(12);
  return Float64Array.from({ length: size }, () => random() - 0.5);
};

const moved = (x: Float64Array, way: Float64Array, by: number) => x.map((value, i) => value + by * way[i]!);

const along = (a: Float64Array, b: Float64Array) => a.reduce((sum, value, i) => sum + value * b[i]!, 0);

describe('forces', () => {
  it.each([0, 0.3])('are the slope of the energy (friction %d)', (friction) => {
    const system = ruffled(friction);
    const way = direction(system.positions.length);
    const slope = along(system.gradient, way);
    const step = 1e-6;
    evaluate(system, moved(system.positions, way, step));
    const above = system.sum.energy;
    evaluate(system, moved(system.positions, way, -step));
    const below = system.sum.energy;
    expect((above - below) / (2 * step) / slope).toBeCloseTo(1, 6);
  });

  it.each([0, 0.3])('change as the second derivatives say (friction %d)', (friction) => {
    const system = ruffled(friction);
    const size = system.positions.length;
    const way = direction(size);
    const step = 1e-8;
    evaluate(system, moved(system.positions, way, step));
    const above = Float64Array.from(system.gradient);
    evaluate(system, moved(system.positions, way, -step));
    const below = Float64Array.from(system.gradient);
    evaluate(system, system.positions);
    system.proximal.now = 0;
    assemble(system, true);
    const image = new Float64Array(size);
    multiply(system.multigrid.levels[system.top]!.matrix, way, image);
    const difference = image.map((value, i) => value - (above[i]! - below[i]!) / (2 * step));
    expect(Math.sqrt(along(difference, difference) / along(image, image))).toBeLessThan(1e-5);
  });

  it('without negative eigenvalues resist every direction', () => {
    const system = ruffled(0);
    expect(assemble(system, false)).toBe(true);
    const size = system.positions.length;
    const image = new Float64Array(size);
    const random = seededRandom(13);
    for (let i = 0; i < 50; i++) {
      const way = Float64Array.from({ length: size }, () => random() - 0.5);
      multiply(system.multigrid.levels[system.top]!.matrix, way, image);
      expect(along(way, image)).toBeGreaterThan(0);
    }
  });

  it('of the cloth alone sum to nothing and turn nothing', () => {
    const { membrane, positions } = ruffled(0);
    const gradient = new Float64Array(positions.length);
    addMembraneGradient(membrane, positions, {
      gradient,
      pull: { energy: 0, cornerForceSquared: 0 },
    });
    const largest = Math.max(...gradient.map(Math.abs));
    const sum = [0, 0, 0];
    const turn = [0, 0, 0];
    for (let i = 0; i < gradient.length; i += 3) {
      for (let k = 0; k < 3; k++) {
        const next = (k + 1) % 3;
        const last = (k + 2) % 3;
        sum[k]! += gradient[i + k]!;
        turn[k]! += positions[i + next]! * gradient[i + last]! - positions[i + last]! * gradient[i + next]!;
      }
    }
    for (const value of [...sum, ...turn]) expect(Math.abs(value) / largest).toBeLessThan(1e-12);
  });

  it('of friction stay within mu N and along the skin', () => {
    const { friction, contact, positions } = ruffled(0.3);
    const gradient = new Float64Array(positions.length);
    addFrictionGradient(friction!, positions, { gradient });
    let slipping = 0;
    for (let v = 0; v < contact.area.length; v++) {
      const force = gradient.subarray(3 * v, 3 * v + 3);
      const normal = friction!.normal.subarray(3 * v, 3 * v + 3);
      const size = Math.hypot(...force);
      const limit = 0.3 * friction!.normalForce[v]!;
      expect(size).toBeLessThanOrEqual(limit * (1 + 1e-12));
      expect(Math.abs(along(force, normal))).toBeLessThanOrEqual(1e-9 * (1 + size));
      if (contact.samples[SAMPLE_SIZE * v]! >= 0) expect(size).toBe(0);
      if (size > 0.999 * limit && limit > 0) slipping++;
    }
    expect(slipping).toBeGreaterThan(10);
  });
});
