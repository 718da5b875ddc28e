import { describe, expect, it } from 'vitest';
import {
  diagonalRisesLeft,
  tubeGrids,
  tubeParents,
  tubeTriangles,
  vertexCountOf,
} from '../../../core/garment/tube-grid.ts';

const grids = tubeGrids(0.6, 0.2, 0.008);

describe('tube grid', () => {
  it('halves cleanly from a coarse grid of at most 100 vertices to the wanted edge', () => {
    expect(vertexCountOf(grids[0]!)).toBeLessThanOrEqual(100);
    grids.slice(1).forEach((grid, i) => {
      expect(grid.columnCount).toBe(2 * grids[i]!.columnCount);
      expect(grid.rowCount).toBe(2 * grids[i]!.rowCount);
    });
    const finest = grids.at(-1)!;
    expect(0.6 / finest.columnCount).toBeGreaterThan(0.006);
    expect(0.6 / finest.columnCount).toBeLessThan(0.0107);
    expect(0.2 / finest.rowCount).toBeGreaterThan(0.006);
    expect(0.2 / finest.rowCount).toBeLessThan(0.0107);
  });

  it('gives every edge two triangles, one at the hems', () => {
    for (const grid of grids) {
      const counts = new Map<string, number>();
      const triangles = tubeTriangles(grid);
      for (let t = 0; t < triangles.length; t += 3) {
        for (const [a, b] of [
          [0, 1],
          [1, 2],
          [2, 0],
        ] as const) {
          const ends = [triangles[t + a]!, triangles[t + b]!].sort((x, y) => x - y).join('-');
          counts.set(ends, (counts.get(ends) ?? 0) + 1);
        }
      }
      const single = [...counts.values()].filter((count) => count === 1).length;
      expect(single).toBe(2 * grid.columnCount);
      expect(Math.max(...counts.values())).toBe(2);
    }
  });

  it('puts each fine vertex in the middle of a coarse edge or on a coarse vertex', () => {
    for (const [level, grid] of grids.entries()) {
      if (level === 0) continue;
      const coarse = grids[level - 1]!;
      const triangles = tubeTriangles(coarse);
      const edges = new Set<string>();
      for (let t = 0; t < triangles.length; t += 3) {
        for (const [a, b] of [
          [0, 1],
          [1, 2],
          [2, 0],
        ] as const) {
          edges.add(`${triangles[t + a]}-${triangles[t + b]}`).add(`${triangles[t + b]}-${triangles[t + a]}`);
        }
      }
      const parents = tubeParents(grid);
      for (let v = 0; v < vertexCountOf(grid); v++) {
        const [first, second] = [parents[2 * v]!, parents[2 * v + 1]!];
        if (first !== second) expect(edges.has(`${first}-${second}`)).toBe(true);
      }
    }
  });

  it('mirrors its diagonals about the centre front', () => {
    for (const grid of grids) {
      for (let row = 0; row < grid.rowCount; row++) {
        for (let column = 0; column < grid.columnCount; column++) {
          const mirrored = grid.columnCount - 1 - column;
          expect(diagonalRisesLeft(grid, row, mirrored)).toBe(!diagonalRisesLeft(grid, row, column));
        }
      }
    }
  });
});
