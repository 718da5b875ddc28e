import { describe, expect, it } from 'vitest';
import { multiply, type BlockMatrix } from '../../../core/equilibrium/block-matrix.ts';
import { factoriseFronts, frontFactorOf, solveFronts } from '../../../core/equilibrium/front-cholesky.ts';
import { planeStiffness } from '../../../core/equilibrium/plane-force.ts';
import {
  assembleSheet,
  evaluateSheet,
  sheetSystem,
  type SheetSystem,
} from '../../../core/equilibrium/sheet-system.ts';
import { linearLaw } from '../../../core/proof/settled-tube.ts';
import { discLevels } from '../../../core/swatch/disc-mesh.ts';
import { roundTable } from '../../../core/swatch/round-table.ts';
import { STANDARD_GRAVITY } from '../../../core/units/units.ts';

const AREAL_DENSITY = 0.2;
const [disc] = discLevels({ radius: 0.15, rim: 0.09 }, 150, 150);

/** A disc pressed into a table, waved and sheared, held nowhere or within the rim. */
function crumpled(isHeld: (v: number) => boolean): SheetSystem {
  const { flat } = disc!;
  const positions = new Float64Array((3 * flat.length) / 2);
  for (let v = 0; 2 * v < flat.length; v++) {
    const [u, w] = [flat[2 * v]!, flat[2 * v + 1]!];
    positions.set([u * 1.002 + 0.01 * w, 0.01 * Math.sin(60 * u) * Math.cos(40 * w) - 0.0005, -w], 3 * v);
  }
  return sheetSystem(
    {
      sheet: disc!,
      plane: planeStiffness(linearLaw(200)),
      bending: { warp: 3e-6, weft: 1e-6, twist: 0.8e-6 },
      arealDensity: AREAL_DENSITY,
      support: { body: roundTable(0.09, 0.02), foundation: 1e5 },
      held: Uint8Array.from(positions, (_, i) => (isHeld(Math.floor(i / 3)) ? 1 : 0)),
    },
    positions,
  );
}

describe('a sheet that stretches, bends, weighs and touches', () => {
  it('weighs M g A, and nothing inside it pushes it anywhere', () => {
    const system = crumpled(() => false);
    const raised = { ...system, contact: null };
    evaluateSheet(raised, system.positions);
    const sum = [0, 1, 2].map((k) => raised.gradient.reduce((s, g, i) => s + (i % 3 === k ? g : 0), 0));
    const area = system.plane.restArea.reduce((s, a) => s + a, 0);
    expect(sum[1]! / (AREAL_DENSITY * STANDARD_GRAVITY * area)).toBeCloseTo(1, 9);
    expect(Math.abs(sum[0]!)).toBeLessThan(1e-10);
    expect(Math.abs(sum[2]!)).toBeLessThan(1e-10);
  });

  it('has a force that is minus the difference quotient of its energy, and a stiffness likewise', () => {
    const system = crumpled(() => false);
    const { positions } = system;
    const direction = positions.map((_, i) => Math.cos(5 * i + 2));
    const step = 1e-8;
    const at = (share: number) => {
      evaluateSheet(
        system,
        positions.map((x, i) => x + share * direction[i]!),
      );
      return { energy: system.sum.energy, gradient: system.gradient.slice() };
    };
    const [up, down, middle] = [at(step), at(-step), at(0)];
    const slope = middle.gradient.reduce((sum, g, i) => sum + g * direction[i]!, 0);
    expect((up.energy - down.energy) / (2 * step) / slope).toBeCloseTo(1, 5);
    assembleSheet(system, true, 0);
    const image = new Float64Array(positions.length);
    multiply(system.matrix, direction, image);
    const largest = Math.max(...image.map(Math.abs));
    for (let i = 0; i < image.length; i++) {
      expect(Math.abs((up.gradient[i]! - down.gradient[i]!) / (2 * step) - image[i]!)).toBeLessThan(
        1e-5 * largest,
      );
    }
  });

  it('tamed, its stiffness never falls: a factor exists where the exact one has none', () => {
    const { flat } = disc!;
    const inside = (v: number) => Math.hypot(flat[2 * v]!, flat[2 * v + 1]!) < 0.05;
    const system = crumpled(inside);
    const { factor } = solverOf(system);
    // Pushed together by 3 % in the plane: it would buckle.
    for (let v = 0; 2 * v < flat.length; v++) {
      system.positions.set([0.97 * flat[2 * v]!, 0.01, -0.97 * flat[2 * v + 1]!], 3 * v);
    }
    evaluateSheet(system, system.positions);
    assembleSheet(system, true, 0);
    expect(factoriseFronts(factor, system.matrix)).toBe(false);
    assembleSheet(system, false, 1);
    expect(factoriseFronts(factor, system.matrix)).toBe(true);
  });

  it('is solved by fronts to round-off, held vertices left out', () => {
    const { flat } = disc!;
    const inside = (v: number) => Math.hypot(flat[2 * v]!, flat[2 * v + 1]!) < 0.05;
    for (const isHeld of [inside, (v: number) => v === 0]) {
      const system = crumpled(isHeld);
      const { factor, leftOut } = solverOf(system);
      evaluateSheet(system, system.positions);
      assembleSheet(system, false, 1);
      expect(factoriseFronts(factor, system.matrix)).toBe(true);
      const b = system.positions.map((_, i) => (leftOut[Math.floor(i / 3)] ? 0 : Math.sin(i)));
      const x = new Float64Array(b.length);
      solveFronts(factor, b, x);
      expect(worst(system.matrix, x, b)).toBeLessThan(1e-8);
    }
  });
});

function solverOf({ bending, held }: SheetSystem) {
  const leftOut = Uint8Array.from({ length: held.length / 3 }, (_, v) => held[3 * v]!);
  return { factor: frontFactorOf(bending.pattern, disc!.flat, leftOut), leftOut };
}

function worst(matrix: BlockMatrix, x: Float64Array, b: Float64Array): number {
  const image = new Float64Array(b.length);
  multiply(matrix, x, image);
  return Math.max(...image.map((one, i) => Math.abs(one - b[i]!)));
}
