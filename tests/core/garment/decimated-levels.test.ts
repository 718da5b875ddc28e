import { describe, expect, it } from 'vitest';
import { deformationOf } from '../../../core/garment/deformation.ts';
import { decimatedLevels } from '../../../core/garment/decimated-levels.ts';
import type { ClothLevel } from '../../../core/garment/garment.ts';
import { flatFromLengths, setRestShape } from '../../../core/garment/rest-shape.ts';
import { scatter } from '../../../core/proof/proof-tube.ts';
import { tube } from '../../help/shapes.ts';

/** Unstretched length over laid length, around and along. */
const RATIO = { around: 0.8, along: 0.95 };

/**
 * An uneven tube, laid stretched from a straight one; each triangle's flat shape turned by an angle of its own, which
 * says nothing but how its grain lies.
 */
function cloth(turn: (t: number) => number): ClothLevel {
  const radius = 0.1;
  const mesh = tube({ radii: () => [radius, radius], height: 0.2, edge: 0.007, closed: false, jitter: 0.2 });
  const { positions, triangles } = mesh;
  const count = triangles.length / 3;
  const shape = { restInverse: new Float64Array(4 * count), restArea: new Float64Array(count) };
  const flatEdge = (t: number, k: number): [number, number] => {
    const from = 3 * triangles[3 * t]!;
    const to = 3 * triangles[3 * t + k]!;
    const angle = (v: number) => Math.atan2(positions[v]!, positions[v + 2]!);
    const way = angle(to) - angle(from);
    const shorter = way - 2 * Math.PI * Math.round(way / (2 * Math.PI));
    const x = RATIO.around * radius * shorter;
    const y = RATIO.along * (positions[to + 1]! - positions[from + 1]!);
    const [c, s] = [Math.cos(turn(t)), Math.sin(turn(t))];
    return [c * x - s * y, s * x + c * y];
  };
  for (let t = 0; t < count; t++) {
    const [[ax, ay], [bx, by]] = [flatEdge(t, 1), flatEdge(t, 2)];
    setRestShape({ ax, ay, bx, by }, t, shape);
  }
  const edgeVertex = Uint8Array.from({ length: positions.length / 3 }, (_, v) =>
    Math.abs(positions[3 * v + 1]! - 0.1) > 0.0999 ? 1 : 0,
  );
  return { mesh, ...shape, parents: new Uint32Array(0), edgeVertex };
}

const coarser = (level: ClothLevel): ClothLevel => decimatedLevels(level).at(-2)!;

/** Stretch as laid along warp and weft of every triangle, and the cosine between both yarns. */
function stretches(level: ClothLevel): { warp: number; weft: number; shear: number }[] {
  const f = new Float64Array(6);
  return Array.from(level.restArea, (_, t) => {
    deformationOf(level, level.mesh.positions, t, f);
    const [warp, weft] = [Math.hypot(f[0]!, f[1]!, f[2]!), Math.hypot(f[3]!, f[4]!, f[5]!)];
    return { warp, weft, shear: (f[0]! * f[3]! + f[1]! * f[4]! + f[2]! * f[5]!) / (warp * weft) };
  });
}

const rms = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0) / values.length);

describe('coarse levels of a cloth that has none', () => {
  const plain = cloth(() => 0);

  it('are stretched as the cloth is: geometry of a straight tube on a round bar', () => {
    const found = stretches(coarser(plain));
    // Facets of 14 mm on a radius of 100 mm tilt against the fine ones by up to 8 degrees: cos 8 = 0.99.
    expect(rms(found.map(({ warp }) => warp * RATIO.around - 1))).toBeLessThan(0.02);
    expect(rms(found.map(({ weft }) => weft * RATIO.along - 1))).toBeLessThan(0.02);
    expect(rms(found.map(({ shear }) => shear))).toBeLessThan(0.02);
  });

  it('lie with the grain of the cloth, whatever way it is turned', () => {
    const straight = stretches(coarser(plain));
    const quarter = stretches(coarser(cloth(() => Math.PI / 2)));
    straight.forEach(({ warp, weft }, t) => {
      expect(quarter[t]!.warp).toBeCloseTo(weft, 9);
      expect(quarter[t]!.weft).toBeCloseTo(warp, 9);
    });
  });

  it('take grain up and grain down for one: cloth does not know them apart', () => {
    const straight = stretches(coarser(plain));
    const upAndDown = stretches(coarser(cloth((t) => (scatter(t) < 0 ? 0 : Math.PI))));
    straight.forEach(({ warp, weft, shear }, t) => {
      expect(upAndDown[t]!.warp).toBeCloseTo(warp, 9);
      expect(upAndDown[t]!.weft).toBeCloseTo(weft, 9);
      expect(upAndDown[t]!.shear).toBeCloseTo(shear, 9);
    });
  });

  it('keep the size of the cloth where its pieces are turned at random', () => {
    const straight = coarser(plain).restArea;
    const turned = coarser(cloth((t) => Math.PI * scatter(t))).restArea;
    straight.forEach((area, t) => expect(turned[t]! / area).toBeCloseTo(1, 9));
  });

  it('have about a quarter of the vertices each, down to what is solved at once', () => {
    const counts = decimatedLevels(plain).map(({ edgeVertex }) => edgeVertex.length);
    expect(counts[0]).toBeLessThanOrEqual(90);
    for (let l = 1; l < counts.length; l++) {
      expect(counts[l]! / counts[l - 1]!).toBeGreaterThan(3);
      expect(counts[l]! / counts[l - 1]!).toBeLessThan(4.1);
    }
  });

  it('survive triangles laid collapsed to a point', () => {
    const { mesh } = plain;
    const positions = mesh.positions.slice();
    const [a, b, c] = mesh.triangles.subarray(300, 303);
    for (let k = 0; k < 3; k++) positions[3 * b! + k] = positions[3 * c! + k] = positions[3 * a! + k]!;
    for (const level of decimatedLevels({ ...plain, mesh: { ...mesh, positions } })) {
      expect(level.restArea.every((area) => area > 0 && area < 1e-2)).toBe(true);
      expect(level.restInverse.every(Number.isFinite)).toBe(true);
    }
  });

  it('give an uncut triangle back where nothing can go', () => {
    const positions = Float64Array.of(0, 0, 0, 0.01, 0, 0, 0, 0.01, 0);
    const shape = { restInverse: new Float64Array(4), restArea: new Float64Array(1) };
    setRestShape(flatFromLengths(0.01, 0.01, 0.01 * Math.SQRT2), 0, shape);
    const one = { mesh: { positions, triangles: Uint32Array.of(0, 1, 2) }, ...shape };
    const levels = decimatedLevels({
      ...one,
      parents: new Uint32Array(0),
      edgeVertex: Uint8Array.of(1, 1, 1),
    });
    expect(levels).toHaveLength(1);
  });
});
