import { describe, expect, it } from 'vitest';
import { discLevels } from '../../../core/swatch/disc-mesh.ts';
import { evenColumns, stripMesh } from '../../../core/swatch/strip-mesh.ts';
import { meshEdges } from '../../../core/mesh/mesh-edges.ts';
import { roundTable } from '../../../core/swatch/round-table.ts';
import { countFolds, polarArea, shadowOf } from '../../../core/swatch/shadow.ts';

const flatArea = (flat: Float64Array, triangles: Uint32Array): number => {
  let sum = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => 2 * triangles[t + k]!) as [number, number, number];
    const area =
      ((flat[b]! - flat[a]!) * (flat[c + 1]! - flat[a + 1]!) -
        (flat[c]! - flat[a]!) * (flat[b + 1]! - flat[a + 1]!)) /
      2;
    expect(area).toBeGreaterThan(0);
    sum += area;
  }
  return sum;
};

describe('round swatch mesh', () => {
  const levels = discLevels({ radius: 0.15, rim: 0.09 }, 3000, 150);

  it('has about as many vertices as asked, each level four times the triangles', () => {
    expect(levels.length).toBe(3);
    const finest = levels.at(-1)!.flat.length / 2;
    expect(Math.abs(finest / 3000 - 1)).toBeLessThan(0.1);
    for (let l = 1; l < 3; l++) expect(levels[l]!.triangles.length).toBe(4 * levels[l - 1]!.triangles.length);
  });

  it.each([0, 1, 2])(
    'level %i is a disc: one outline on the circle, Euler number 1, all triangles turned alike',
    (l) => {
      const { flat, triangles, outline } = levels[l]!;
      const vertexCount = flat.length / 2;
      const edges = meshEdges({ positions: new Float64Array(3 * vertexCount), triangles });
      const free = edges.triangleCount.reduce((count, one) => count + (one === 1 ? 1 : 0), 0);
      expect(free).toBe(outline.length);
      expect(edges.triangleCount.every((one) => one <= 2)).toBe(true);
      expect(vertexCount - edges.triangleCount.length + triangles.length / 3).toBe(1);
      for (const v of outline) expect(Math.hypot(flat[2 * v]!, flat[2 * v + 1]!)).toBeCloseTo(0.15, 12);
      // A polygon of n sides in the circle: area n/2 R^2 sin(2 pi / n), here to within its unequal sides.
      expect(flatArea(flat, triangles) / (Math.PI * 0.0225)).toBeGreaterThan(1 - 8 / outline.length ** 2);
    },
  );

  it('prefers no direction: moments of the mesh are those of a disc', () => {
    // Sum over vertices of (u + i v)^k vanishes for a body without direction; k = 2, 4, 6 would show squares and hexagons.
    const { flat } = levels[0]!;
    for (const k of [2, 4, 6]) {
      let re = 0;
      let im = 0;
      let size = 0;
      for (let i = 0; i < flat.length; i += 2) {
        const r = Math.hypot(flat[i]!, flat[i + 1]!) ** k;
        const angle = k * Math.atan2(flat[i + 1]!, flat[i]!);
        re += r * Math.cos(angle);
        im += r * Math.sin(angle);
        size += r;
      }
      expect(Math.hypot(re, im) / size).toBeLessThan(0.02);
    }
  });

  it('has the rim as a ring on every level', () => {
    for (const { flat } of levels) {
      const onRim = Array.from({ length: flat.length / 2 }, (_, v) =>
        Math.hypot(flat[2 * v]!, flat[2 * v + 1]!),
      ).filter((r) => Math.abs(r - 0.09) < 1e-12);
      expect(onRim.length).toBeGreaterThan(20);
    }
  });
});

describe('strip mesh', () => {
  it('covers overhang and lying part once, whichever way it is cut', () => {
    for (const angle of [0, Math.PI / 4, Math.PI / 2]) {
      const columns = evenColumns(0.026, 0.025, 12);
      const { flat, triangles } = stripMesh({
        overhang: 0.026,
        width: 0.025,
        angle,
        hangingRows: 12,
        lyingRows: 5,
        columns,
      });
      // Rows -5 .. 12 of spacing 26/12 mm.
      const oriented = flatArea(flat, triangles);
      expect(oriented).toBeCloseTo((0.026 / 12) * 17 * 0.025, 9);
    }
  });
});

describe('round table', () => {
  it('has derivatives that agree with difference quotients, and unit slope', () => {
    const table = roundTable(0.09, 0.002);
    const points = [
      [0.03, 0.001, 0.02],
      [0.0885, 0.0009, 0.001],
      [0.07, -0.0005, 0.06],
      [0.05, -0.006, -0.08],
    ] as const;
    const at = (p: readonly number[]) => {
      const into = new Float64Array(10);
      table.sample(p[0]!, p[1]!, p[2]!, into);
      return into;
    };
    const places = [
      [4, 5, 6],
      [5, 7, 8],
      [6, 8, 9],
    ];
    for (const point of points) {
      const middle = at(point);
      expect(Math.hypot(middle[1]!, middle[2]!, middle[3]!)).toBeCloseTo(1, 12);
      for (let i = 0; i < 3; i++) {
        const step = 1e-7;
        const up = at(point.map((x, k) => (k === i ? x + step : x)));
        const down = at(point.map((x, k) => (k === i ? x - step : x)));
        expect((up[0]! - down[0]!) / (2 * step)).toBeCloseTo(middle[1 + i]!, 6);
        for (let j = 0; j < 3; j++) {
          expect(Math.abs((up[1 + j]! - down[1 + j]!) / (2 * step) - middle[places[i]![j]!]!)).toBeLessThan(
            1e-3,
          );
        }
      }
    }
  });
});

const wavy = (count: number, waves: number, depth: number): Float64Array => {
  const outline = new Float64Array(2 * count);
  for (let i = 0; i < count; i++) {
    const angle = (2 * Math.PI * i) / count;
    const r = 0.12 + depth * Math.cos(waves * angle + 1);
    outline[2 * i] = r * Math.cos(angle);
    outline[2 * i + 1] = r * Math.sin(angle);
  }
  return outline;
};

describe('shadow', () => {
  it('counts the waves of an outline, and none that are too small to be folds', () => {
    for (const waves of [2, 5, 8, 13]) expect(countFolds(wavy(720, waves, 0.01), 0.003)).toBe(waves);
    expect(countFolds(wavy(720, 8, 0.001), 0.003)).toBe(0);
  });

  it('of a flat disc is the disc; of a small one the table', () => {
    const { flat, triangles } = discLevels({ radius: 0.15, rim: 0.09 }, 700, 600)[0]!;
    const positions = new Float64Array((3 * flat.length) / 2);
    for (let v = 0; 2 * v < flat.length; v++) positions.set([flat[2 * v]!, 0, -flat[2 * v + 1]!], 3 * v);
    const area = flatArea(flat, triangles);
    expect(polarArea(shadowOf(positions, triangles, 0.09)) / area).toBeCloseTo(1, 3);
    const small = positions.map((x) => x / 2);
    expect(polarArea(shadowOf(small, triangles, 0.09)) / (Math.PI * 0.0081)).toBeCloseTo(1, 4);
  });
});
