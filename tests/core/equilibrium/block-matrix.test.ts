import { describe, expect, it } from 'vitest';
import {
  blockAt,
  cutHeld,
  multiply,
  patternOf,
  triangleBlocks,
  zeroMatrix,
} from '../../../core/equilibrium/block-matrix.ts';
import { envelopeOf, factorise, solveFactor } from '../../../core/equilibrium/envelope-cholesky.ts';
import { tubeTriangles } from '../../../core/garment/tube-grid.ts';
import { seededRandom } from '../../help/shapes.ts';

const grid = { rowCount: 3, columnCount: 8, halvings: 0 };
const vertexCount = 32;

/** A symmetric positive definite matrix on the tube's pattern and the same written out. */
function sample() {
  const random = seededRandom(5);
  const pattern = patternOf(tubeTriangles(grid), vertexCount);
  const matrix = zeroMatrix(pattern);
  const size = 3 * vertexCount;
  const dense = new Float64Array(size * size);
  for (let row = 0; row < vertexCount; row++) {
    for (let b = pattern.rowStart[row]!; b < pattern.rowStart[row + 1]!; b++) {
      const column = pattern.columns[b]!;
      if (column < row) continue;
      const twin = blockAt(pattern, column, row);
      for (let i = 0; i < 3; i++) {
        for (let j = 0; j < 3; j++) {
          if (row === column && j < i) continue;
          const value = 2 * random() - 1 + (row === column && i === j ? 30 : 0);
          matrix.values[9 * b + 3 * i + j] = value;
          matrix.values[9 * twin + 3 * j + i] = value;
          dense[(3 * row + i) * size + 3 * column + j] = value;
          dense[(3 * column + j) * size + 3 * row + i] = value;
        }
      }
    }
  }
  return { matrix, dense, size, random };
}

describe('block matrix', () => {
  it('multiplies as the matrix written out does', () => {
    const { matrix, dense, size, random } = sample();
    const x = Float64Array.from({ length: size }, () => random() - 0.5);
    const y = new Float64Array(size);
    multiply(matrix, x, y);
    for (let i = 0; i < size; i++) {
      let sum = 0;
      for (let j = 0; j < size; j++) sum += dense[i * size + j]! * x[j]!;
      expect(y[i]).toBeCloseTo(sum, 12);
    }
  });

  it('has a block for each vertex and two for each edge', () => {
    const pattern = patternOf(tubeTriangles(grid), vertexCount);
    // Edges of the tube: rings 4 * 8, columns 3 * 8, diagonals 3 * 8.
    expect(pattern.columns).toHaveLength(vertexCount + 2 * (32 + 24 + 24));
    for (let row = 0; row < vertexCount; row++) {
      const columns = pattern.columns.subarray(pattern.rowStart[row], pattern.rowStart[row + 1]);
      expect([...columns]).toEqual([...columns].sort((a, b) => a - b));
      expect(pattern.columns[pattern.diagonal[row]!]).toBe(row);
    }
  });

  it('sends each corner pair of a triangle to its block', () => {
    const triangles = tubeTriangles(grid);
    const pattern = patternOf(triangles, vertexCount);
    const blocks = triangleBlocks(pattern, triangles);
    blocks.forEach((b, i) => {
      const row = triangles[3 * Math.floor(i / 9) + Math.floor((i % 9) / 3)]!;
      expect(pattern.columns[b]).toBe(triangles[3 * Math.floor(i / 9) + (i % 3)]);
      expect(b).toBeGreaterThanOrEqual(pattern.rowStart[row]!);
      expect(b).toBeLessThan(pattern.rowStart[row + 1]!);
    });
  });

  it('refuses a block that is not there', () => {
    const pattern = patternOf(tubeTriangles(grid), vertexCount);
    expect(() => blockAt(pattern, 0, 31)).toThrow('do not nest');
  });

  it('solves by its envelope factor', () => {
    const { matrix, size, random } = sample();
    const x = Float64Array.from({ length: size }, () => random() - 0.5);
    const b = new Float64Array(size);
    multiply(matrix, x, b);
    const factor = envelopeOf(matrix.pattern);
    expect(factorise(matrix, factor)).toBe(true);
    const found = new Float64Array(size);
    solveFactor(factor, b, found);
    found.forEach((value, i) => expect(value).toBeCloseTo(x[i]!, 12));
  });

  it('says when a matrix is not positive definite', () => {
    const { matrix } = sample();
    matrix.values[9 * matrix.pattern.diagonal[7]! + 4] = -1;
    expect(factorise(matrix, envelopeOf(matrix.pattern))).toBe(false);
  });

  it('cuts held coordinates off from all others', () => {
    const { matrix, size } = sample();
    const held = new Uint8Array(size);
    held[10] = 1;
    const diagonal = matrix.values[9 * matrix.pattern.diagonal[3]! + 4]!;
    cutHeld(matrix, held);
    const unit = new Float64Array(size);
    unit[10] = 1;
    const image = new Float64Array(size);
    multiply(matrix, unit, image);
    expect(image[10]).toBe(diagonal);
    expect(image.filter((value) => value !== 0)).toHaveLength(1);
  });
});
