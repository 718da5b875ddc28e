import { describe, expect, it } from 'vitest';
import type { DistanceField } from '../../../core/body/distance-field.ts';
import { vertexAreas } from '../../../core/mesh/vertex-areas.ts';
import type { Equilibrium, EquilibriumProblem } from '../../../core/equilibrium/equilibrium.ts';
import { settle } from '../../../core/equilibrium/settle.ts';
import { onRing, proofTube } from '../../../core/proof/proof-tube.ts';
import { innerRows, linearLaw, mean, settleTube } from '../../../core/proof/settled-tube.ts';
import { coneBody, cylinderBody, ellipseBody } from '../../../core/proof/smooth-bodies.ts';
import { torsoCase } from '../../help/torso-case.ts';

function run(problem: EquilibriumProblem): { result: Equilibrium; stepCount: number } {
  const search = settle(problem);
  let stepCount = 0;
  let step = search.next();
  while (!step.done) {
    stepCount++;
    step = search.next();
  }
  return { result: step.value, stepCount };
}

const SIZE = { rowCount: 3, columnCount: 8, halvings: 3 };

/** A tube on a round bar; girth and radius in m. */
function barCase(girth: number, radius: number, { stiffness = 250, jitter = 0.15 } = {}) {
  return {
    levels: proofTube({
      rowCount: 2,
      columnCount: 8,
      halvings: 3,
      place: (around, along) => onRing(radius, radius * along, around),
      relaxed: { girth, length: radius },
      jitter,
    }),
    laws: [linearLaw(stiffness)],
    body: cylinderBody(radius),
    foundation: 50e6,
    friction: 0,
  };
}

/** Turns a vector about the y axis. */
const turn = (x: readonly number[] | Float64Array, by: number): [number, number, number] => [
  x[0]! * Math.cos(by) + x[2]! * Math.sin(by),
  x[1]!,
  x[2]! * Math.cos(by) - x[0]! * Math.sin(by),
];

/** An elliptic tube turned about the y axis. */
const problemAt = (by: number, body: DistanceField): EquilibriumProblem => {
  const levels = proofTube({
    ...SIZE,
    place: (around, along) => {
      const t = 2 * Math.PI * around;
      return turn([0.13 * Math.sin(t), 0.12 * along, 0.1 * Math.cos(t)], by);
    },
    relaxed: { around: 0.8, along: 0.95 },
  });
  const foundation = levels.map(({ mesh }) => new Float64Array(mesh.positions.length / 3).fill(1e6));
  return { levels, laws: [linearLaw(200)], body, foundation, friction: 0.3, tolerance: 1e-8 };
};

describe('settle', () => {
  it.each([0, 0.3])('brings a torso tube to rest on all levels (friction %d)', (friction) => {
    const { result, stepCount } = run(torsoCase({ ...SIZE, friction }));
    expect(result.atRest).toBe(true);
    expect(result.residual).toBeLessThanOrEqual(1e-4);
    expect(result.newtonSteps).toHaveLength(4);
    expect(result.newtonSteps[3]).toBeLessThanOrEqual(12);
    expect(stepCount).toBeGreaterThanOrEqual(result.newtonSteps.reduce((sum, steps) => sum + steps));
  });

  it('gives the same bits for the same problem', () => {
    const problem = torsoCase({ ...SIZE, friction: 0.3 });
    const first = run(problem).result;
    const second = run(problem).result;
    expect(second.positions).toEqual(first.positions);
    expect(second.contactForce).toEqual(first.contactForce);
  });

  it('turns with its problem', () => {
    const ellipse = ellipseBody(0.13, 0.1);
    const angle = 0.7;
    const turned: DistanceField = {
      sample: (x, y, z, into) => {
        ellipse.sample(...turn([x, y, z], -angle), into);
        const [, gx, gy, gz, xx, , xz, , , zz] = into;
        into.set(turn([gx!, gy!, gz!], angle), 1);
        const c = Math.cos(angle);
        const s = Math.sin(angle);
        into[4] = c * c * xx! + 2 * c * s * xz! + s * s * zz!;
        into[6] = (c * c - s * s) * xz! + c * s * (zz! - xx!);
        into[9] = s * s * xx! - 2 * c * s * xz! + c * c * zz!;
      },
    };
    const straight = run(problemAt(0, ellipse)).result;
    const askew = run(problemAt(angle, turned)).result;
    expect(askew.atRest && straight.atRest).toBe(true);
    for (let i = 0; i < straight.positions.length; i += 3) {
      const expected = turn(straight.positions.subarray(i, i + 3), angle);
      for (let k = 0; k < 3; k++) expect(askew.positions[i + k]).toBeCloseTo(expected[k]!, 7);
    }
  });

  it('keeps held coordinates to the bit', () => {
    const problem = torsoCase({ ...SIZE, friction: 0.3 });
    const { result } = run(problem);
    const laid = problem.levels.at(-1)!.mesh.positions;
    problem.held!.at(-1)!.forEach((held, i) => {
      if (held) expect(result.positions[i]).toBe(laid[i]);
    });
  });

  it('presses nowhere when the tube is wider than the bar', () => {
    const { pressure, equilibrium } = settleTube(barCase(0.64, 0.1), 64);
    expect(equilibrium.atRest).toBe(true);
    expect(Math.max(...pressure)).toBeLessThan(1);
  });

  it('rests free and frictionless on a round bar', () => {
    const { equilibrium } = settleTube(barCase(0.52, 0.1), 64);
    expect(equilibrium.atRest).toBe(true);
  });

  it('does not call a tube at rest that slides off a cone without friction, and gives up in bounded steps', () => {
    const halfAngle = 0.2;
    const levels = proofTube({
      ...SIZE,
      place: (around, along) => onRing(0.08 + Math.tan(halfAngle) * 0.1 * along, 0.1 * along, around),
      relaxed: { girth: 0.45, length: 0.1 },
    });
    const foundation = levels.map(({ mesh }) => new Float64Array(mesh.positions.length / 3).fill(5e6));
    const problem = { levels, laws: [linearLaw(250)], body: coneBody(0.08, halfAngle), foundation };
    const sliding = run({ ...problem, friction: 0 });
    expect(sliding.result.atRest).toBe(false);
    expect(sliding.result.residual).toBeGreaterThan(1e-4);
    expect(sliding.stepCount).toBeLessThan(200);
    // Stays up only with mu >= tan(a) (balance on an inclined plane).
    expect(run({ ...problem, friction: 1.5 * Math.tan(halfAngle) }).result.atRest).toBe(true);
  });

  it('doubles the pressure on a hard bar with twice the stiffness', () => {
    const once = settleTube(barCase(0.52, 0.1), 64);
    const twice = settleTube(barCase(0.52, 0.1, { stiffness: 500 }), 64);
    expect(mean(innerRows(twice, twice.pressure)) / mean(innerRows(once, once.pressure))).toBeCloseTo(2, 2);
  });

  it('halves the pressure on a bar twice as large at the same stretch', () => {
    const small = settleTube(barCase(0.52, 0.1), 64);
    const large = settleTube(barCase(1.04, 0.2), 64);
    expect(mean(innerRows(large, large.pressure)) / mean(innerRows(small, small.pressure))).toBeCloseTo(
      0.5,
      3,
    );
  });

  it('finds from a warm start what it finds cold', () => {
    const problem = torsoCase({ ...SIZE, friction: 0.3, foundation: 2e6 });
    const cold = run(problem).result;
    const loosened = torsoCase({ ...SIZE, friction: 0.3, foundation: 2e6, girth: 0.66 });
    const warm = run({ ...problem, start: run(loosened).result.positions }).result;
    expect(warm.atRest).toBe(true);
    expect(warm.newtonSteps.slice(0, -1).every((steps) => steps === 0)).toBe(true);
    const pressureOf = ({ positions, contactForce }: Equilibrium) => {
      const areas = vertexAreas({ positions, triangles: problem.levels.at(-1)!.mesh.triangles });
      return areas.map((area, v) => Math.hypot(...contactForce.subarray(3 * v, 3 * v + 3)) / area);
    };
    const a = pressureOf(cold);
    const b = pressureOf(warm);
    const rms =
      Math.sqrt(mean(a.map((value, v) => (value - b[v]!) ** 2))) / Math.sqrt(mean(a.map((p) => p * p)));
    expect(rms).toBeLessThan(5e-3);
  });

  it('rubs no vertex harder than mu times its pressure', () => {
    const tube = settleTube({ ...torsoCase({ ...SIZE, friction: 0.2 }), foundation: 2e6 }, 64);
    tube.shear.forEach((shear, v) => {
      expect(shear).toBeLessThanOrEqual(0.2 * Math.max(0, tube.pressure[v]!) * (1 + 1e-6) + 1e-6);
    });
  });

  it('lets the body push and the friction pull, but never lets the body hold cloth back', () => {
    const problem = torsoCase({ ...SIZE });
    const { result } = run(problem);
    const sample = new Float64Array(10);
    for (let v = 0; v < result.distance.length; v++) {
      const force = result.contactForce.subarray(3 * v, 3 * v + 3);
      problem.body.sample(
        ...(result.positions.slice(3 * v, 3 * v + 3) as unknown as [number, number, number]),
        sample,
      );
      const push = force[0]! * sample[1]! + force[1]! * sample[2]! + force[2]! * sample[3]!;
      expect(push).toBeGreaterThanOrEqual(0);
      if (result.distance[v]! >= 0) expect(Math.hypot(...force)).toBe(0);
    }
  });
});
