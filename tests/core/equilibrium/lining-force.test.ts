import { describe, expect, it } from 'vitest';
import { patternOf } from '../../../core/equilibrium/block-matrix.ts';
import { liningForce } from '../../../core/equilibrium/lining-force.ts';
import { addMembraneGradient, membraneRoom } from '../../../core/equilibrium/membrane-force.ts';
import { weightForce } from '../../../core/equilibrium/weight-force.ts';
import { deformationOf } from '../../../core/garment/deformation.ts';
import type { Lining } from '../../../core/garment/garment.ts';
import { turnedGrain } from '../../../core/garment/turned-grain.ts';
import { onRing, proofTube } from '../../../core/proof/proof-tube.ts';
import { linearLaw } from '../../../core/proof/settled-tube.ts';
import { STANDARD_GRAVITY } from '../../../core/units/units.ts';
import {
  expectPositive,
  expectRigidMotionFree,
  expectSlopeOfEnergy,
  missOfStiffness,
} from '../../help/check-force.ts';
import { seededRandom } from '../../help/shapes.ts';
import { torsoFabric } from '../../help/torso-case.ts';

const level = proofTube({
  rowCount: 3,
  columnCount: 8,
  halvings: 0,
  place: (around, along) => onRing(0.1, 0.1 * along, around),
  relaxed: { girth: 0.5, length: 0.1 },
})[0]!;
const random = seededRandom(8);
const positions = level.mesh.positions.map((x) => x + 0.004 * (random() - 0.5));
const pattern = patternOf(level.mesh.triangles, positions.length / 3);
const laws = [linearLaw(100), torsoFabric()];

/** Every other triangle, askew. */
function patches(angle: number): Lining {
  const triangles = level.restArea.reduce((chosen: number[], _, t) => (t % 2 ? chosen : [...chosen, t]), []);
  const shape = {
    restInverse: Float64Array.from(
      triangles.flatMap((t) => [...level.restInverse.subarray(4 * t, 4 * t + 4)]),
    ),
    restArea: Float64Array.from(triangles, (t) => level.restArea[t]!),
  };
  return { fabric: 1, triangles: Uint32Array.from(triangles), ...turnedGrain(shape, angle) };
}

describe('a bonded lining', () => {
  const force = liningForce(level, patches(0.6), laws);

  it('pulls as its energy falls', () => {
    expectSlopeOfEnergy(force, positions);
  });

  it('has the second derivatives of its energy', () => {
    expect(missOfStiffness(force, positions, { pattern })).toBeLessThan(1e-5);
  });

  it('resists every way where nothing negative is wanted', () => {
    expectPositive(force, positions, pattern);
  });

  it('cares for no carrying and turning', () => {
    expectRigidMotionFree(force, positions);
  });

  it('over the whole cloth, of its fabric and grain, pulls what the cloth pulls', () => {
    const all = {
      fabric: 1,
      triangles: Uint32Array.from(level.restArea, (_, t) => t),
      restInverse: level.restInverse,
      restArea: level.restArea,
    };
    const gradient = new Float64Array(positions.length);
    const energy = liningForce(level, all, laws).addGradient(positions, gradient);
    const expected = new Float64Array(positions.length);
    const pull = { energy: 0, cornerForceSquared: 0 };
    const membrane = { level: { ...level, panel: new Uint8Array(level.restArea.length).fill(1) }, laws };
    addMembraneGradient({ ...membrane, room: membraneRoom() }, positions, { gradient: expected, pull });
    expect(energy).toBe(pull.energy);
    expect(gradient).toEqual(expected);
  });
});

describe('turned grain', () => {
  it('shows what a quarter turn shows: warp for weft, weft for warp backwards', () => {
    const turned = turnedGrain(level, Math.PI / 2);
    const before = new Float64Array(6);
    const after = new Float64Array(6);
    for (let t = 0; t < level.restArea.length; t++) {
      deformationOf(level, positions, t, before);
      deformationOf({ mesh: level.mesh, restInverse: turned.restInverse }, positions, t, after);
      for (let k = 0; k < 3; k++) {
        expect(after[k]).toBeCloseTo(before[3 + k]!, 12);
        expect(after[3 + k]).toBeCloseTo(-before[k]!, 12);
      }
    }
  });

  it('comes back', () => {
    const there = turnedGrain(level, 0.8);
    const back = turnedGrain(there, -0.8);
    back.restInverse.forEach((value, i) => expect(value).toBeCloseTo(level.restInverse[i]!, 9));
  });
});

it('weight is M g per unstretched area, linings included, and pulls down only', () => {
  const lining = patches(0);
  const gradient = new Float64Array(positions.length);
  weightForce({ ...level, linings: [lining] }, 0.2).addGradient(positions, gradient);
  const area = [...level.restArea, ...lining.restArea].reduce((a, b) => a + b, 0);
  const sums = [0, 1, 2].map((k) => gradient.reduce((sum, value, i) => (i % 3 === k ? sum + value : sum), 0));
  expect(sums[0]).toBe(0);
  expect(sums[2]).toBe(0);
  expect(sums[1]).toBeCloseTo(0.2 * STANDARD_GRAVITY * area, 12);
  expectSlopeOfEnergy(weightForce(level, 0.2), positions);
});
