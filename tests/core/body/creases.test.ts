import { describe, expect, it } from 'vitest';
import type { Box } from '../../../core/body/body.ts';
import { fieldOfGrid } from '../../../core/body/distance-grid.ts';
import { splineOfMesh } from '../../../core/body/grid-from-mesh.ts';
import { liftedSurface } from '../../../core/body/lifted-surface.ts';
import { makeMeshBody } from '../../../core/body/mesh-body.ts';
import { sharpEdges } from '../../../core/body/sharp-edges.ts';
import { smoothedAt, subdivided } from '../../../core/body/spline-block.ts';
import { capsuleMesh, grooveMesh } from '../../../core/proof/crease-bodies.ts';
import type { TriangleMesh } from '../../../core/mesh/triangle-mesh.ts';
import { triple } from '../../../core/mesh/triple.ts';
import { cylinder, seededRandom } from '../../help/shapes.ts';

/** A fold of 5 mm between two bars: cells cut in two and in four, beside whole ones. */
const fold = { radius: 0.04, fillet: 0.005, apart: 0.036 };
const box: Box = { low: [-0.05, 0, -0.06], high: [0.05, 0.05, 0.06] };
const grid = splineOfMesh(liftedSurface(grooveMesh(fold, -0.03, 0.08, 0.003)), box, 0.008);
const { sample } = fieldOfGrid(grid);

/** Number of the cell that a point lies in, 0 where it is whole. */
function numberAt(point: readonly number[]): number {
  const { low, spacing, counts, cut } = grid;
  const [i, j, k] = triple((axis) => Math.floor((point[axis]! - low[axis]!) / spacing));
  const [by, bz] = [Math.ceil((counts[1] - 3) / 4), Math.ceil((counts[2] - 3) / 4)];
  const block = cut!.blockOf[((i >> 2) * by + (j >> 2)) * bz + (k >> 2)]!;
  return cut!.numberOf[64 * block + ((i & 3) << 4) + ((j & 3) << 2) + (k & 3)]!;
}

describe('cut cells', () => {
  it('has whole cells, cells cut in two and in four', () => {
    const kinds = new Set(grid.cut!.along.subarray(1));
    expect([...kinds].toSorted((a, b) => a - b)).toEqual([2, 4]);
    expect(numberAt([0.045, 0.02, 0.055])).toBe(0);
  });

  // A sum of cubic splines is continuous to the second derivative, whatever lies on the two sides of a face.
  it('gives value, gradient and Hessian without a step across every face of a cut cell (seed 11)', () => {
    const random = seededRandom(11);
    const one = new Float64Array(10);
    const other = new Float64Array(10);
    let crossings = 0;
    const { low, spacing } = grid;
    for (let n = 0; n < 200_000 && crossings < 400; n++) {
      const axis = Math.floor(3 * random());
      const at = triple((k) => box.low[k]! + random() * (box.high[k]! - box.low[k]!));
      at[axis] = low[axis]! + spacing * Math.round((at[axis]! - low[axis]!) / spacing);
      if (at[axis] <= box.low[axis]! || at[axis] >= box.high[axis]!) continue;
      const beside = (way: number) => triple((k) => at[k]! + (k === axis ? way : 0));
      const kindOf = (point: readonly number[]) => grid.cut!.along[numberAt(point)]!;
      if (kindOf(beside(-1e-9)) === kindOf(beside(1e-9))) continue;
      crossings++;
      sample(...beside(-1e-9), one);
      sample(...beside(1e-9), other);
      // Over 2e-9 m: the gradient, 1; Hessians up to 500 /m; third derivatives up to 1e5 /m2.
      expect(Math.abs(one[0]! - other[0]!)).toBeLessThan(5e-9);
      for (let k = 1; k < 4; k++) expect(Math.abs(one[k]! - other[k]!)).toBeLessThan(2e-6);
      for (let k = 4; k < 10; k++) expect(Math.abs(one[k]! - other[k]!)).toBeLessThan(1e-2);
    }
    expect(crossings).toBe(400);
  });

  it('has the gradient and Hessian of its own value (difference quotients), within cut cells (seed 12)', () => {
    const random = seededRandom(12);
    const into = new Float64Array(10);
    const ahead = new Float64Array(10);
    const back = new Float64Array(10);
    const row = [
      [4, 5, 6],
      [5, 7, 8],
      [6, 8, 9],
    ];
    let count = 0;
    while (count < 150) {
      const at = triple((k) => box.low[k]! + random() * (box.high[k]! - box.low[k]!));
      if (numberAt(at) === 0) continue;
      count++;
      sample(...at, into);
      for (const axis of [0, 1, 2]) {
        const beside = (way: number) => triple((k) => at[k]! + (k === axis ? way : 0));
        sample(...beside(1e-6), ahead);
        sample(...beside(-1e-6), back);
        expect((ahead[0]! - back[0]!) / 2e-6).toBeCloseTo(into[1 + axis]!, 5);
        for (const other of [0, 1, 2]) {
          const slope = (ahead[1 + other]! - back[1 + other]!) / 2e-6;
          // Third derivatives jump from cell to cell by up to some 1e5 /m2: 1e-6 m of a foreign cell is worth 0.1.
          expect(Math.abs(slope - into[row[axis]![other]!]!)).toBeLessThan(0.2);
        }
      }
    }
  });

  it('leaves what lies outside of cut cells as it was to the bit (seed 13)', () => {
    const whole = fieldOfGrid({ ...grid, cut: undefined });
    const random = seededRandom(13);
    const one = new Float64Array(10);
    const other = new Float64Array(10);
    for (let n = 0; n < 2000; n++) {
      const at = triple((k) => box.low[k]! + random() * (box.high[k]! - box.low[k]!));
      if (numberAt(at) !== 0) continue;
      sample(...at, one);
      whole.sample(...at, other);
      expect(one).toEqual(other);
    }
  });
});

describe('where cells are cut', () => {
  it.each([
    [30, 4],
    [40, 8],
    [40, 12],
    [70, 12],
  ])('never on a smooth bar, R %i mm with edges of %i mm (jittered, seed 3)', (radiusMm, edgeMm) => {
    const radius = radiusMm / 1000;
    const mesh = cylinder(radius, 0.3, edgeMm / 1000, { jitter: 0.3, seed: 3 });
    const around: Box = { low: [-radius, 0.1, -radius], high: [radius, 0.2, radius] };
    expect(splineOfMesh(liftedSurface(mesh), around, edgeMm > 10 ? 0.012 : 0.008).cut).toBeUndefined();
  });

  it('not beside the sharp rim of a flat lid, which is an edge and no curve', () => {
    const surface = liftedSurface(cylinder(0.05, 0.2, 0.006));
    const around: Box = { low: [-0.07, 0.15, -0.07], high: [0.07, 0.24, 0.07] };
    // Two rims of about 52 edges.
    expect(sharpEdges(surface).length).toBe(104);
    expect(splineOfMesh(surface, around, 0.008).cut).toBeUndefined();
  });

  it('on a finger of 8 mm, whose mesh has no sharp edge', () => {
    const surface = liftedSurface(capsuleMesh(0.008, 0, 0.06, 0.003));
    expect(sharpEdges(surface)).toEqual([]);
    const around: Box = { low: [-0.02, -0.01, -0.02], high: [0.02, 0.07, 0.02] };
    expect(splineOfMesh(surface, around, 0.008).cut).toBeDefined();
  });
});

const findingOf = (skin: TriangleMesh) =>
  makeMeshBody({ skin, sourceUp: 'y', tissue: 'rigid' }).findings.find(
    ({ code }) => code === 'body/crease-rounded',
  );

describe('what is said of creases', () => {
  it('nothing of a fold that the mesh draws, nor of the rims of flat cuts', () => {
    expect(findingOf(grooveMesh(fold, 0, 0.08, 0.002))).toBeUndefined();
    expect(findingOf(cylinder(0.05, 0.2, 0.006))).toBeUndefined();
  });

  it('where two bars meet in a sharp edge: how often, and a place on it', () => {
    // A fillet of a hundredth of a millimetre; the edge lies where both bars are equally near, at z = sqrt(40^2 - 36^2).
    const finding = findingOf(grooveMesh({ ...fold, fillet: 1e-5 }, 0, 0.08, 0.004));
    const facts = finding?.code === 'body/crease-rounded' ? finding.facts : undefined;
    expect(facts!.edgeCount).toBeGreaterThan(20);
    expect(Math.abs(facts!.xMm)).toBeLessThan(2);
    expect(Math.abs(Math.abs(facts!.zMm) - 17.44)).toBeLessThan(2);
    expect(facts!.radiusMm).toBe(12);
  });
});

describe('a block of coefficients', () => {
  // The two-scale relation is exact: halving must change no value. Nodes of the coarse cell are every second finer one.
  it('gives the same spline on cells half as large', () => {
    const random = seededRandom(14);
    const block = Float64Array.from({ length: 125 }, random);
    const finer = subdivided(block);
    expect(finer.length).toBe(343);
    for (let i = 0; i < 3; i++)
      for (let j = 0; j < 3; j++)
        for (let k = 0; k < 3; k++) {
          const coarse = smoothedAt(block, ((i + 1) * 5 + j + 1) * 5 + k + 1, 5);
          const fine = smoothedAt(finer, ((2 * i + 1) * 7 + 2 * j + 1) * 7 + 2 * k + 1, 7);
          expect(fine).toBeCloseTo(coarse, 13);
        }
  });
});
