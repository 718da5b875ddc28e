import { Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { multiply } from '../../../core/equilibrium/block-matrix.ts';
import { assemble, clothSystem, evaluate } from '../../../core/equilibrium/cloth-system.ts';
import type { Equilibrium, EquilibriumProblem } from '../../../core/equilibrium/equilibrium.ts';
import { prepareCloth } from '../../../core/equilibrium/prepare-cloth.ts';
import { prolong, restrict } from '../../../core/equilibrium/prolongation.ts';
import { settle } from '../../../core/equilibrium/settle.ts';
import { decimatedLevels } from '../../../core/garment/decimated-levels.ts';
import type { ClothLevel } from '../../../core/garment/garment.ts';
import { setRestShape } from '../../../core/garment/rest-shape.ts';
import { linearLaw } from '../../../core/proof/settled-tube.ts';
import { ellipseBody } from '../../../core/proof/smooth-bodies.ts';
import { seededRandom, tube } from '../../help/shapes.ts';
import { torsoCase, TORSO_SIZES } from '../../help/torso-case.ts';

function rest(problem: EquilibriumProblem): Equilibrium {
  const search = settle(problem);
  let step = search.next();
  while (!step.done) step = search.next();
  return step.value;
}

/** The same problem on levels made by decimation of its finest mesh. */
function onDecimated(problem: EquilibriumProblem): EquilibriumProblem {
  const { held: _, ...free } = problem;
  const levels = decimatedLevels(problem.levels.at(-1)!);
  return {
    ...free,
    levels,
    foundation: levels.map(({ edgeVertex }) =>
      new Float64Array(edgeVertex.length).fill(problem.foundation[0]![0]!),
    ),
    ...(problem.held && {
      held: levels.map(({ edgeVertex }) =>
        Uint8Array.from({ length: 3 * edgeVertex.length }, (_unused, i) =>
          i % 3 === 1 ? edgeVertex[(i - 1) / 3]! : 0,
        ),
      ),
    }),
  };
}

/** Share of the whole normal force by which two rests differ at their vertices, root-mean-square. */
function difference(one: Equilibrium, other: Equilibrium): number {
  let squared = 0;
  let whole = 0;
  one.normalForce.forEach((force, v) => {
    squared += (force - other.normalForce[v]!) ** 2;
    whole += force ** 2;
  });
  return Math.sqrt(squared / whole);
}

/** Cloth on an irregular mesh that belongs to no grid, its warp upwards: unstretched, the laid triangles are smaller. */
function mouldedCloth(edge: number, share: number): ClothLevel {
  const mesh = tube({ radii: () => [0.13, 0.1], height: 0.2, edge, closed: false, jitter: 0.25, seed: 9 });
  const { positions, triangles } = mesh;
  const count = triangles.length / 3;
  const shape = { restInverse: new Float64Array(4 * count), restArea: new Float64Array(count) };
  for (let t = 0; t < count; t++) {
    const corner = (k: number) => new Vector3().fromArray(positions, 3 * triangles[3 * t + k]!);
    const first = corner(1).sub(corner(0));
    const second = corner(2).sub(corner(0));
    const normal = new Vector3().crossVectors(first, second).normalize();
    const warp = new Vector3(0, 1, 0).projectOnPlane(normal).normalize();
    const weft = new Vector3().crossVectors(normal, warp);
    const flat = {
      ax: share * first.dot(warp),
      ay: share * first.dot(weft),
      bx: share * second.dot(warp),
      by: share * second.dot(weft),
    };
    setRestShape(flat, t, shape);
  }
  const edgeVertex = Uint8Array.from({ length: positions.length / 3 }, (_, v) =>
    Math.abs(positions[3 * v + 1]! - 0.1) > 0.0999 ? 1 : 0,
  );
  return { mesh, ...shape, parents: new Uint32Array(0), edgeVertex };
}

const allSteps = ({ newtonSteps }: Equilibrium): number => newtonSteps.reduce((sum, count) => sum + count);

const wholeArea = ({ restArea }: ClothLevel): number => restArea.reduce((sum, area) => sum + area, 0);

/** Unstretched area of the second fabric. */
const panelArea = ({ restArea, panel }: ClothLevel): number =>
  restArea.reduce((sum, area, t) => sum + area * panel![t]!, 0);

const onEllipse = (levels: readonly ClothLevel[]): EquilibriumProblem => ({
  levels,
  laws: [linearLaw(250)],
  body: ellipseBody(0.13, 0.1),
  foundation: levels.map(({ edgeVertex }) => new Float64Array(edgeVertex.length).fill(1e6)),
  friction: 0.3,
});

describe('levels made by decimation', () => {
  const nested = torsoCase({ ...TORSO_SIZES[2624], friction: 0.3 });
  const decimated = onDecimated(nested);

  it('leads to the same rest as levels that nest, in no more than twice the steps', () => {
    const one = rest(nested);
    const other = rest(decimated);
    expect(one.atRest && other.atRest).toBe(true);
    expect(difference(one, other)).toBeLessThan(2e-3);
    expect(allSteps(other)).toBeLessThanOrEqual(2 * allSteps(one));
    expect(other.newtonSteps.at(-1)!).toBeLessThanOrEqual(2 * one.newtonSteps.at(-1)!);
  });

  it('carries the matrix down as P transposed A P', () => {
    const prepared = prepareCloth(decimated.levels);
    const top = decimated.levels.length - 1;
    const system = clothSystem(decimated, prepared, top, decimated.levels[top]!.mesh.positions.slice());
    evaluate(system, system.positions);
    expect(assemble(system, false)).toBe(true);
    const random = seededRandom(3);
    for (let l = top; l > 0; l--) {
      const { matrix } = prepared.multigrid.levels[l]!;
      const coarse = prepared.multigrid.levels[l - 1]!.matrix;
      const x = Float64Array.from({ length: 3 * coarse.pattern.diagonal.length }, () => random() - 0.5);
      const direct = new Float64Array(x.length);
      multiply(coarse, x, direct);
      const fine = new Float64Array(3 * matrix.pattern.diagonal.length);
      prolong(decimated.levels[l]!, x, fine);
      const pulled = new Float64Array(fine.length);
      multiply(matrix, fine, pulled);
      const back = new Float64Array(x.length);
      restrict(decimated.levels[l]!, pulled, back);
      const largest = back.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
      direct.forEach((value, i) => expect(Math.abs(value - back[i]!) / largest).toBeLessThan(1e-12));
    }
  });

  it('settles cloth on an irregular mesh as a single level would, in fewer steps', () => {
    const finest = mouldedCloth(0.008, 0.85);
    const levels = decimatedLevels(finest);
    expect(levels.length).toBeGreaterThan(2);
    const alone = rest(onEllipse([finest]));
    const led = rest(onEllipse(levels));
    expect(alone.atRest && led.atRest).toBe(true);
    expect(difference(alone, led)).toBeLessThan(2e-3);
    expect(led.linearIterations.at(-1)!).toBeLessThan(alone.linearIterations[0]! / 2);
  });

  it('unstretched, a coarse triangle is the cloth that it stands for', () => {
    const levels = decimatedLevels(mouldedCloth(0.008, 0.85));
    for (const level of levels.filter(({ edgeVertex }) => edgeVertex.length >= 100)) {
      // A coarse polygon lies inside the ellipse: a few per cent less cloth, never more.
      expect(wholeArea(level) / wholeArea(levels.at(-1)!)).toBeGreaterThan(0.9);
      expect(wholeArea(level) / wholeArea(levels.at(-1)!)).toBeLessThan(1.001);
    }
  });

  it('keeps the seam between two fabrics on every level that the search starts from', () => {
    const finest = nested.levels.at(-1)!;
    const { positions, triangles } = finest.mesh;
    const columnCount = 64;
    const isLeft = (v: number) => v % columnCount <= columnCount / 2;
    const panel = Uint8Array.from({ length: triangles.length / 3 }, (_, t) =>
      [0, 1, 2].every((k) => isLeft(triangles[3 * t + k]!)) ? 1 : 0,
    );
    const levels = decimatedLevels({ ...finest, panel });
    expect(positions.length / 3).toBe(2624);
    const led = levels.filter(({ edgeVertex }) => edgeVertex.length >= 100);
    expect(led.length).toBeGreaterThan(1);
    for (const level of led) {
      expect(panelArea(level) / panelArea(levels.at(-1)!)).toBeGreaterThan(0.85);
      expect(panelArea(level) / panelArea(levels.at(-1)!)).toBeLessThan(1.15);
    }
  });
});
