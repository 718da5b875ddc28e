/**
 * Sources: plane-strain ring bonded to its core with T = p r (closed form; Timoshenko & Goodier, Theory of Elasticity, 1970,
 * art. 28); bands B01 and B02, computed with CalculiX ccx 2.20 (CAX8R, neo-Hooke, large displacements).
 */
import { describe, expect, it } from 'vitest';
import type { EquilibriumProblem } from '../../../core/equilibrium/equilibrium.ts';
import { fleshFindings } from '../../../core/equilibrium/flesh-findings.ts';
import { forceOnSkin, linkFlesh } from '../../../core/equilibrium/flesh-link.ts';
import { settle } from '../../../core/equilibrium/settle.ts';
import { prepareFlesh, type Flesh } from '../../../core/equilibrium/prepare-flesh.ts';
import { settleOnFlesh, type FleshEquilibrium } from '../../../core/equilibrium/settle-on-flesh.ts';
import { triangleAreas } from '../../../core/mesh/triangle-areas.ts';
import { bandOnLimb, limbSkin, type BandOnLimb } from '../../help/pressed-flesh.ts';

const B01: BandOnLimb = {
  R: 0.07,
  H: 0.02,
  E: 15e3,
  poisson: 0.49,
  width: 0.04,
  stiffness: 300,
  relaxedRadius: 0.056,
  clothEdge: 0.005,
  skinEdge: 0.005,
};

function run<T>(search: Generator<unknown, T>): T {
  let step = search.next();
  while (!step.done) step = search.next();
  return step.value;
}

const worn = (problem: EquilibriumProblem, flesh: Flesh): FleshEquilibrium =>
  run(settleOnFlesh(problem, flesh));
const largest = (values: Float64Array) => values.reduce((most, one) => Math.max(most, one), -Infinity);
const bulgeOf = (values: Float64Array) => -values.reduce((least, one) => Math.min(least, one), Infinity);

describe('a band on a soft limb', () => {
  const { problem, flesh } = bandOnLimb(B01);
  const result = worn(problem, flesh);

  it('indents and bulges as another program found (0.437 and 0.190 mm), and comes to rest', () => {
    expect(result.atRest).toBe(true);
    expect(result.rounds).toBeLessThan(10);
    expect(Math.abs(1e3 * largest(result.movementUnderCloth) - 0.437)).toBeLessThan(0.04 * 0.437);
    expect(Math.abs(1e3 * bulgeOf(result.skinMovement) - 0.19)).toBeLessThan(0.06 * 0.19);
  });

  it('stands in the skin as it has moved: where cloth presses, give is what the flesh moved', () => {
    result.movementUnderCloth.forEach((w, v) => {
      const give = -result.distance[v]!;
      expect(Math.abs(give - w)).toBeLessThan(0.004 * 0.437e-3);
    });
  });

  it('leaves the girth far away alone (0.05 %)', () => {
    const { positions } = flesh.body.skin;
    let far = 0;
    result.skinMovement.forEach((w, v) => {
      if (Math.abs(positions[3 * v + 1]!) > 0.02 + 3 * B01.H) far = Math.max(far, Math.abs(w));
    });
    expect(far / B01.R).toBeLessThan(5e-4);
  });

  it('gives the same on finer cloth, on finer skin and on skin whose edges are longer than those of the cloth', () => {
    for (const other of [
      { clothEdge: 0.0025 },
      { skinEdge: 0.0035 },
      { clothEdge: 0.0025, skinEdge: 0.006 },
    ]) {
      const again = bandOnLimb({ ...B01, ...other });
      const found = worn(again.problem, again.flesh);
      expect(found.atRest).toBe(true);
      expect(
        Math.abs(largest(found.movementUnderCloth) / largest(result.movementUnderCloth) - 1),
      ).toBeLessThan(0.02);
      expect(Math.abs(bulgeOf(found.skinMovement) / bulgeOf(result.skinMovement) - 1)).toBeLessThan(0.04);
    }
  });

  it('has hardly any noise round the limb, though the two meshes do not match', () => {
    const again = bandOnLimb({ ...B01, clothEdge: 0.004, skinEdge: 0.0067 });
    const found = worn(again.problem, again.flesh);
    const rows = found.movementUnderCloth.length / again.columns;
    const middle = Math.floor(rows / 2) * again.columns;
    const ring = found.movementUnderCloth.subarray(middle, middle + again.columns);
    const mean = ring.reduce((sum, w) => sum + w, 0) / ring.length;
    const scatter = Math.sqrt(ring.reduce((sum, w) => sum + (w - mean) ** 2, 0) / ring.length);
    expect(scatter / mean).toBeLessThan(0.01);
  });

  it('takes up where it left off: a warm restart needs no more than one round', () => {
    const { positions, normalForce, offset } = result;
    const again = worn({ ...problem, start: positions, startNormalForce: normalForce, offset }, flesh);
    expect(again.rounds).toBeLessThanOrEqual(1);
    expect(Math.abs(largest(again.skinMovement) / largest(result.skinMovement) - 1)).toBeLessThan(2e-3);
  });

  it('comes to the same place with friction, whose anchors it keeps', () => {
    const again = bandOnLimb({ ...B01, friction: 0.3 });
    const found = worn(again.problem, again.flesh);
    expect(found.atRest).toBe(true);
    expect(Math.abs(largest(found.movementUnderCloth) / largest(result.movementUnderCloth) - 1)).toBeLessThan(
      0.02,
    );
  });

  it('is within its range', () => {
    expect(fleshFindings(result)).toEqual([]);
  });

  it('gives less and bulges less where the skin is held', () => {
    const again = bandOnLimb({ ...B01, skin: 'held' });
    const held = worn(again.problem, again.flesh);
    // The same program found of the case P04 (same ring, even pressure, large displacements): indent -20 %, bulge -19 %.
    const indent = largest(held.movementUnderCloth) / largest(result.movementUnderCloth) - 1;
    const bulge = bulgeOf(held.skinMovement) / bulgeOf(result.skinMovement) - 1;
    expect(indent).toBeGreaterThan(-0.25);
    expect(indent).toBeLessThan(-0.1);
    expect(bulge).toBeGreaterThan(-0.25);
    expect(bulge).toBeLessThan(-0.08);
  });
});

it('squeezes a limb under a long belt as the closed form says (0.621 mm)', () => {
  const { problem, flesh, columns } = bandOnLimb({
    R: 0.05,
    H: 0.035,
    E: 15e3,
    poisson: 0.45,
    width: 0.4,
    stiffness: 300,
    relaxedRadius: 0.04,
    clothEdge: 0.01,
    skinEdge: 0.01,
  });
  const result = worn(problem, flesh);
  const rows = result.movementUnderCloth.length / columns;
  const middle = Math.floor(rows / 2) * columns;
  const ring = result.movementUnderCloth.subarray(middle, middle + columns);
  expect(Math.abs((1e3 * ring.reduce((sum, w) => sum + w, 0)) / columns - 0.621)).toBeLessThan(0.01 * 0.621);
  // 32 columns of cloth on 31 of skin, edges R/5: round the limb it is no more even than this.
  ring.forEach((w) => expect(Math.abs(1e3 * w - 0.621)).toBeLessThan(0.05 * 0.621));
});

it('says so where flesh is pressed beyond its range', () => {
  const { problem, flesh } = bandOnLimb({ ...B01, E: 3e3 });
  const result = worn(problem, flesh);
  expect(result.hardest).toBeGreaterThan(0.2);
  const deep = { ...result, deepest: 0.2, hardest: 0.3 };
  expect(fleshFindings(deep).map(({ code }) => code)).toEqual(['worn/flesh-out-of-range']);
  expect(fleshFindings({ ...deep, deepest: 0.4 }).map(({ code }) => code)).toEqual(['worn/flesh-too-deep']);
});

it('leaves a rigid body as it is', () => {
  const { problem, flesh } = bandOnLimb(B01);
  const rigid = {
    ...flesh,
    body: {
      ...flesh.body,
      tissueDepth: flesh.body.tissueDepth.map(() => 0),
      foundation: flesh.body.foundation.map(() => 50e6),
    },
  };
  const hard = { ...problem, foundation: problem.foundation.map((level) => level.map(() => 50e6)) };
  const result = worn(hard, rigid);
  const plain = run(settle(hard));
  expect(result.atRest).toBe(true);
  expect(largest(result.skinMovement)).toBeLessThan(1e-4);
  expect(bulgeOf(result.skinMovement)).toBeLessThan(1e-9);
  const apart = result.positions.reduce((most, x, i) => Math.max(most, Math.abs(x - plain.positions[i]!)), 0);
  expect(apart).toBeLessThan(2e-5);
});

describe('the link of cloth and skin', () => {
  const { levels } = bandOnLimb({ ...B01, clothEdge: 0.004, skinEdge: 0.007 });
  const cloth = levels.at(-1)!.mesh;
  const skin = limbSkin(B01.R, 0.4, 0.007);
  const count = skin.positions.length / 3;
  const flesh: Flesh = {
    body: {
      skin,
      tissueDepth: new Float64Array(count).fill(B01.H),
      foundation: new Float64Array(count).fill((4 * B01.E) / B01.H),
    },
    poisson: 0.49,
    skin: 'slides',
  };
  const { patch, nearest } = prepareFlesh(flesh, levels);
  const link = linkFlesh(patch, nearest, cloth);

  it('lays all of the force on the skin, and an even pressure evenly', () => {
    const pressure = new Float64Array(cloth.positions.length / 3).fill(1000);
    const force = new Float64Array(link.patch.bodyVertex.length);
    forceOnSkin(link, pressure, force);
    const area = link.covered.reduce((sum, one) => sum + one, 0);
    const all = force.reduce((sum, one) => sum + one, 0);
    expect(all).toBeCloseTo(1000 * area, 6);
    // Cloth and skin are meshed apart: the chords of the one are not those of the other.
    expect(area / triangleAreas(cloth).reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 2);
    const thirds = new Float64Array(force.length);
    triangleAreas(link.patch.mesh).forEach((one, t) => {
      for (let k = 0; k < 3; k++) thirds[link.patch.mesh.triangles[3 * t + k]!]! += one / 3;
    });
    force.forEach((one, v) => {
      const y = link.patch.mesh.positions[3 * v + 1]!;
      if (Math.abs(y) < 0.012) expect(Math.abs(one / thirds[v]! / 1000 - 1)).toBeLessThan(0.06);
    });
  });

  it('keeps the skin within reach, and no more', () => {
    const { bodyVertex } = link.patch;
    const heights = Array.from(bodyVertex, (v) => Math.abs(skin.positions[3 * v + 1]!));
    expect(Math.max(...heights)).toBeGreaterThan(0.02 + 0.07);
    expect(Math.max(...heights)).toBeLessThan(0.02 + 0.08 + 0.03);
  });
});
