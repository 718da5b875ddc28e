import { describe, expect, it } from 'vitest';
import { rollingRigidity } from '../../../core/equilibrium/bending-force.ts';
import { patternOf } from '../../../core/equilibrium/block-matrix.ts';
import { hingeBending } from '../../../core/equilibrium/hinge-bending.ts';
import { hingePatches, NO_VERTEX, patchRows } from '../../../core/equilibrium/hinge-patches.ts';
import { patternOfPatches } from '../../../core/equilibrium/patch-pattern.ts';
import type { ClothLevel } from '../../../core/garment/garment.ts';
import { turnedGrain } from '../../../core/garment/turned-grain.ts';
import { flatCloth } from '../../../core/proof/flat-cloth.ts';
import { onRing, proofTube } from '../../../core/proof/proof-tube.ts';
import {
  expectPositive,
  expectRigidMotionFree,
  expectSlopeOfEnergy,
  missOfStiffness,
} from '../../help/check-force.ts';
import { seededRandom } from '../../help/shapes.ts';

const RADIUS = 0.1;
const HEIGHT = 0.2;
const tensor = { warp: 2e-5, weft: 0.6e-5, twist: 0.4e-5 };

/** A tube whose cloth is a flat piece rolled up and closed. */
const rolled = (halvings: number, jitter: number): ClothLevel =>
  proofTube({
    rowCount: 3,
    columnCount: 8,
    halvings,
    place: (around, along) => onRing(RADIUS, HEIGHT * along, around),
    relaxed: { girth: 2 * Math.PI * RADIUS, length: HEIGHT },
    jitter,
  }).at(-1)!;

const patternOfHinges = (level: ClothLevel) =>
  patternOfPatches(patchRows(hingePatches(level)), level.mesh.positions.length / 3);

const energyOf = (level: ClothLevel, positions = level.mesh.positions) =>
  hingeBending(level, tensor).addGradient(positions, new Float64Array(positions.length));

/** Ruffled so that no hinge lies flat. */
function ruffled() {
  const level = rolled(1, 0.2);
  const random = seededRandom(9);
  const positions = level.mesh.positions.map((x) => x + 0.003 * (random() - 0.5));
  return { level, positions, force: hingeBending(level, tensor), pattern: patternOfHinges(level) };
}

describe('bending at hinges', () => {
  it('pulls as its energy falls', () => {
    const { force, positions } = ruffled();
    expectSlopeOfEnergy(force, positions);
  });

  it('cares for no carrying and turning', () => {
    const { force, positions } = ruffled();
    expectRigidMotionFree(force, positions);
  });

  it('resists every way, ruffled as it is', () => {
    const { force, positions, pattern } = ruffled();
    expectPositive(force, positions, pattern);
  });

  it('has the second derivatives of its energy where it lies flat, and nearly so where it is hardly bent', () => {
    // What Gauss and Newton leave out grows with the angles: by a tenth of their size the miss falls by ten, too.
    const flat = flatSheet(8);
    const pattern = patternOfHinges(flat);
    const random = seededRandom(10);
    const bump = flat.mesh.positions.map((_, i) => (i % 3 === 1 ? random() - 0.5 : 0));
    const missAt = (height: number) => {
      const positions = flat.mesh.positions.map((x, i) => x + height * bump[i]!);
      return missOfStiffness(hingeBending(flat, tensor), positions, { pattern });
    };
    expect(missAt(0)).toBeLessThan(1e-5);
    expect(missAt(1e-4)).toBeLessThan(0.15);
    expect(missAt(1e-3) / missAt(1e-4)).toBeGreaterThan(5);
  });

  it('in a matrix without room for it stays positive and is never smaller', () => {
    const { level, force, positions } = ruffled();
    const narrow = patternOf(level.mesh.triangles, positions.length / 3);
    expectPositive(force, positions, narrow);
  });
});

describe('cloth rolled to a tube', () => {
  it.each([0, 0.3])('has the energy B / (2 R^2) per area, mesh jittered by %f', (jitter) => {
    for (const halvings of [1, 2, 3]) {
      const area = 2 * Math.PI * RADIUS * HEIGHT;
      const energy = energyOf(rolled(halvings, jitter)) / (area * (tensor.warp / (2 * RADIUS ** 2)));
      // A polygon bends as the circle does; only the moved vertices lie off its facets.
      expect(Math.abs(energy - 1)).toBeLessThan(jitter === 0 ? 0.002 : 0.02);
    }
  });

  it.each([30, 45, 60, 90])('resists by its rigidity at %d degrees to the warp', (degrees) => {
    const angle = (degrees * Math.PI) / 180;
    const level = rolled(3, 0);
    const turned = { ...level, ...turnedGrain(level, -angle) };
    const area = 2 * Math.PI * RADIUS * HEIGHT;
    const expected = (area * rollingRigidity(tensor, angle)) / (2 * RADIUS ** 2);
    // Along the hems the curvature across the edge is left out: half a row of 24 at either end.
    expect(Math.abs(energyOf(turned) / expected - 1)).toBeLessThan(0.03);
  });

  it('keeps its energy when it is pushed together along the roll or stretched', () => {
    const level = rolled(2, 0);
    const pushed = level.mesh.positions.map((x, i) => (i % 3 === 1 ? x : 0.7 * x));
    expect(energyOf(level, pushed) / energyOf(level)).toBeCloseTo(1, 9);
  });
});

describe('the patches', () => {
  it('hold the corners of the neighbours, none beyond a hem', () => {
    const level = flatSheet(2);
    const { vertices } = hingePatches(level);
    const missing = vertices.reduce((count, vertex) => count + (vertex === NO_VERTEX ? 1 : 0), 0);
    // A square of 2 x 2 cells has 8 free sides.
    expect(missing).toBe(8);
  });

  it('do not mind a seam with another grain beyond it', () => {
    const level = rolled(1, 0.2);
    const restInverse = Float64Array.from(level.restInverse);
    const { restInverse: turned } = turnedGrain(level, 1);
    for (let t = 0; t < level.restArea.length; t += 3) {
      restInverse.set(turned.subarray(4 * t, 4 * t + 4), 4 * t);
    }
    const even = { warp: 1e-5, weft: 1e-5, twist: 0.5e-5 };
    const energy = (one: ClothLevel) =>
      hingeBending(one, even).addGradient(one.mesh.positions, new Float64Array(one.mesh.positions.length));
    expect(energy({ ...level, restInverse }) / energy(level)).toBeCloseTo(1, 9);
  });
});

/** A flat square of right-angled cells in the plane y = 0, warp along x. */
function flatSheet(cells: number): ClothLevel {
  const flat: number[] = [];
  const triangles: number[] = [];
  for (let v = 0; v < (cells + 1) ** 2; v++) {
    const column = v % (cells + 1);
    const row = (v - column) / (cells + 1);
    flat.push((0.1 * column) / cells, (0.1 * row) / cells);
    if (column === cells || row === cells) continue;
    const up = v + cells + 1;
    triangles.push(v, v + 1, up, v + 1, up + 1, up);
  }
  const sheet = { flat: Float64Array.from(flat), triangles: Uint32Array.from(triangles) };
  return flatCloth(sheet, (u, v) => [u, 0, v]);
}
