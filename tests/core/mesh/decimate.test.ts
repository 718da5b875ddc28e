import { describe, expect, it } from 'vitest';
import { decimate } from '../../../core/mesh/decimate.ts';
import { meshEdges } from '../../../core/mesh/mesh-edges.ts';
import { triangleAreas } from '../../../core/mesh/triangle-areas.ts';
import type { TriangleMesh } from '../../../core/mesh/triangle-mesh.ts';
import { seededRandom, tube } from '../../help/shapes.ts';

/** A flat square of n x n cells whose inner vertices lie astray; vertex (column, row) at row * (n + 1) + column. */
function square(n: number): TriangleMesh {
  const random = seededRandom(5);
  const positions: number[] = [];
  const triangles: number[] = [];
  for (let row = 0; row <= n; row++) {
    for (let column = 0; column <= n; column++) {
      const inner = row > 0 && row < n && column > 0 && column < n && column !== n / 2;
      const astray = () => (inner ? 0.5 * (random() - 0.5) : 0);
      positions.push((column + astray()) / n, (row + astray()) / n, 0);
    }
  }
  for (let row = 0; row < n; row++) {
    for (let column = 0; column < n; column++) {
      const a = row * (n + 1) + column;
      triangles.push(a, a + 1, a + n + 2, a, a + n + 2, a + n + 1);
    }
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

/** Euler's number, free sides, and the most triangles at one edge. */
function joints(mesh: TriangleMesh) {
  const { triangleCount } = meshEdges(mesh);
  const used = new Set(mesh.triangles);
  return {
    euler: used.size - triangleCount.length + mesh.triangles.length / 3,
    free: triangleCount.reduce((sum, count) => sum + Number(count === 1), 0),
    most: triangleCount.reduce((most, count) => Math.max(most, count), 0),
    isolated: mesh.positions.length / 3 - used.size,
  };
}

/** On the middle column of a square of 20 x 20 cells. */
const isOn = (v: number): boolean => v % 21 === 10;

describe('decimate', () => {
  const fine = square(20);
  const coarse = decimate(fine, { vertexCount: 110 });

  it('leaves about as many vertices as were asked for, all of them the finer mesh’s own', () => {
    expect(coarse.kept.length).toBe(110);
    coarse.kept.forEach((v, i) => {
      for (let k = 0; k < 3; k++) {
        expect(coarse.mesh.positions[3 * i + k]).toBe(fine.positions[3 * v + k]);
      }
    });
  });

  it('keeps a flat square whole: area, outline, nothing turned over', () => {
    const areas = triangleAreas(coarse.mesh);
    expect(areas.reduce((sum, area) => sum + area)).toBeCloseTo(1, 12);
    const { positions, triangles } = coarse.mesh;
    for (let t = 0; t < triangles.length; t += 3) {
      const [a, b, c] = [2, 1, 0].map((k) => 3 * triangles[t + 2 - k]!) as [number, number, number];
      const turn =
        (positions[b]! - positions[a]!) * (positions[c + 1]! - positions[a + 1]!) -
        (positions[c]! - positions[a]!) * (positions[b + 1]! - positions[a + 1]!);
      expect(turn).toBeGreaterThan(0);
    }
    expect(joints(coarse.mesh)).toMatchObject({ euler: 1, most: 2, isolated: 0 });
  });

  it('lays every finer vertex where it was: weights give linear functions back', () => {
    const { parents, weights, mesh } = coarse;
    for (let v = 0; 3 * v < parents.length; v++) {
      const own = weights.subarray(3 * v, 3 * v + 3);
      expect(Math.min(...own)).toBeGreaterThanOrEqual(-1e-15);
      expect(own.reduce((sum, weight) => sum + weight)).toBeCloseTo(1, 12);
      for (let k = 0; k < 2; k++) {
        const there = own.reduce(
          (sum, weight, m) => sum + weight * mesh.positions[3 * parents[3 * v + m]! + k]!,
          0,
        );
        expect(there).toBeCloseTo(fine.positions[3 * v + k]!, 10);
      }
    }
  });

  it('keeps a line across the square a line', () => {
    const lines = new Uint8Array(fine.triangles.length);
    fine.triangles.forEach((v, side) => {
      const next = fine.triangles[side % 3 === 2 ? side - 2 : side + 1]!;
      if (isOn(v) && isOn(next)) lines[side] = 1;
    });
    const { mesh, kept } = decimate(fine, { vertexCount: 110, lines });
    const onLine = new Set(Array.from(kept.keys()).filter((i) => isOn(kept[i]!)));
    const ends: number[] = [];
    const { vertices } = meshEdges(mesh);
    for (let e = 0; e < vertices.length; e += 2) {
      if (onLine.has(vertices[e]!) && onLine.has(vertices[e + 1]!)) ends.push(vertices[e]!, vertices[e + 1]!);
    }
    // One unbroken chain: each inner vertex twice, both ends once.
    const uses = Array.from(onLine, (v) => ends.filter((end) => end === v).length).sort((a, b) => a - b);
    expect(uses).toEqual([1, 1, ...Array.from({ length: onLine.size - 2 }, () => 2)]);
    expect(onLine.size).toBeLessThan(21);
  });

  it.each([true, false])('keeps a tube a tube, lids on: %s', (closed) => {
    const skin = tube({ radii: () => [0.12, 0.09], height: 0.3, edge: 0.01, closed, jitter: 0.2 });
    const count = skin.positions.length / 3;
    const { mesh, kept } = decimate(skin, { vertexCount: count / 4 });
    expect(kept.length).toBeLessThanOrEqual(Math.ceil(count / 4));
    expect(joints(mesh)).toMatchObject({ euler: closed ? 2 : 0, most: 2, isolated: 0 });
    expect(joints(mesh).free > 0).toBe(!closed);
  });

  it('stops where nothing more can go', () => {
    const { kept, mesh } = decimate(square(2), { vertexCount: 1 });
    expect(kept.length).toBeGreaterThanOrEqual(4);
    expect(joints(mesh)).toMatchObject({ euler: 1, most: 2 });
  });
});
