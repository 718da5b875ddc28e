import { describe, expect, it } from 'vitest';
import { multiply } from '../../../core/equilibrium/block-matrix.ts';
import { assemble, clothSystem, evaluate } from '../../../core/equilibrium/cloth-system.ts';
import {
  conjugateGradient,
  conjugateGradientRoom,
  dot,
} from '../../../core/equilibrium/conjugate-gradient.ts';
import { vCycle } from '../../../core/equilibrium/multigrid.ts';
import { prepareCloth } from '../../../core/equilibrium/prepare-cloth.ts';
import { prolong, restrict } from '../../../core/equilibrium/prolongation.ts';
import { seededRandom } from '../../help/shapes.ts';
import { onRing, proofTube } from '../../../core/proof/proof-tube.ts';
import { cylinderBody } from '../../../core/proof/smooth-bodies.ts';
import { torsoFabric } from '../../help/torso-case.ts';

/** The linear system of a taut tube pressed into a round bar, on its finest level. */
function pressedTube(halvings: number) {
  const radius = 0.1;
  const levels = proofTube({
    rowCount: 3,
    columnCount: 8,
    halvings,
    place: (around, along) => onRing(0.99 * radius, 0.25 * along, around),
    relaxed: { girth: 0.5, length: 0.22 },
    jitter: 0.2,
  });
  const foundation = levels.map(({ mesh }) => new Float64Array(mesh.positions.length / 3).fill(1e6));
  const problem = { levels, laws: [torsoFabric()], body: cylinderBody(radius), foundation, friction: 0 };
  const prepared = prepareCloth(problem.levels);
  const { multigrid } = prepared;
  const top = problem.levels.length - 1;
  const positions = Float64Array.from(problem.levels[top]!.mesh.positions);
  const system = clothSystem(problem, prepared, top, positions);
  evaluate(system, positions);
  expect(assemble(system, false)).toBe(true);
  const matrix = multigrid.levels[top]!.matrix;
  return {
    problem,
    multigrid,
    top,
    matrix,
    size: positions.length,
    linear: {
      multiply: (x: Float64Array, into: Float64Array) => multiply(matrix, x, into),
      precondition: (b: Float64Array, into: Float64Array) => vCycle(multigrid, top, b, into),
    },
  };
}

const noise = (size: number, seed: number): Float64Array => {
  const random = seededRandom(seed);
  return Float64Array.from({ length: size }, () => random() - 0.5);
};

describe('multigrid', () => {
  it('needs no more iterations on finer meshes', () => {
    const iterations = [2, 3, 4].map((halvings) => {
      const { linear, size } = pressedTube(halvings);
      const goal = { tolerance: 1e-8, most: 200, room: conjugateGradientRoom(size) };
      return conjugateGradient(linear, noise(size, 3), goal, new Float64Array(size)).iterations;
    });
    expect(Math.max(...iterations), String(iterations)).toBeLessThan(40);
    expect(iterations[2]! / iterations[0]!).toBeLessThan(1.35);
  });

  it('solves the system it is given', () => {
    const { linear, size } = pressedTube(2);
    const x = noise(size, 4);
    const b = new Float64Array(size);
    linear.multiply(x, b);
    const found = new Float64Array(size);
    const goal = { tolerance: 1e-12, most: 300, room: conjugateGradientRoom(size) };
    expect(conjugateGradient(linear, b, goal, found).indefinite).toBe(false);
    found.forEach((value, i) => expect(value).toBeCloseTo(x[i]!, 6));
  });

  it('is a symmetric approximation of the inverse', () => {
    const { linear, size } = pressedTube(2);
    const a = noise(size, 5);
    const b = noise(size, 6);
    const ma = new Float64Array(size);
    const mb = new Float64Array(size);
    linear.precondition(a, ma);
    linear.precondition(b, mb);
    expect(dot(b, ma)).toBeCloseTo(dot(a, mb), 10);
    expect(dot(a, ma)).toBeGreaterThan(0);
  });

  it('carries the matrix down as P transposed A P', () => {
    const { multigrid, top, matrix, problem } = pressedTube(2);
    const coarse = multigrid.levels[top - 1]!.matrix;
    const follow = problem.levels[top]!;
    const size = 3 * coarse.pattern.diagonal.length;
    const x = noise(size, 7);
    const direct = new Float64Array(size);
    multiply(coarse, x, direct);
    const fine = new Float64Array(3 * matrix.pattern.diagonal.length);
    prolong(follow, x, fine);
    const pulled = new Float64Array(fine.length);
    multiply(matrix, fine, pulled);
    const back = new Float64Array(size);
    restrict(follow, pulled, back);
    const largest = Math.max(...back.map(Math.abs));
    direct.forEach((value, i) => expect(Math.abs(value - back[i]!) / largest).toBeLessThan(1e-12));
  });
});
