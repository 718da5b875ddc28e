import { describe, expect, it } from 'vitest';
import { triangleAreas } from '../../../core/mesh/triangle-areas.ts';
import { vertexAreas } from '../../../core/mesh/vertex-areas.ts';
import { cylinder, sphere } from '../../help/shapes.ts';

const sum = (values: Float64Array) => values.reduce((total, value) => total + value, 0);

/** A flat 4 x 4 grid of unit squares, each split the way `risesLeft` says. */
function grid(risesLeft: (row: number, column: number) => boolean) {
  const positions: number[] = [];
  const triangles: number[] = [];
  for (let row = 0; row <= 4; row++)
    for (let column = 0; column <= 4; column++) positions.push(column, row, 0);
  for (let row = 0; row < 4; row++) {
    for (let column = 0; column < 4; column++) {
      const a = 5 * row + column;
      if (risesLeft(row, column)) triangles.push(a, a + 1, a + 5, a + 1, a + 6, a + 5);
      else triangles.push(a, a + 1, a + 6, a, a + 6, a + 5);
    }
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

describe('area of a vertex', () => {
  it('does not depend on how squares were split', () => {
    const even = vertexAreas(grid(() => true));
    const alternating = vertexAreas(grid((row, column) => (row + column) % 2 === 0));
    alternating.forEach((area, v) => expect(area).toBeCloseTo(even[v]!, 12));
    expect(even[12]).toBeCloseTo(1, 12);
  });

  it.each([
    ['jittered cylinder', cylinder(0.1, 0.3, 0.02, { jitter: 0.4 })],
    ['sphere', sphere(0.1, 0.02)],
    [
      'one obtuse triangle',
      { positions: Float64Array.of(0, 0, 0, 1, 0, 0, 3, 0.5, 0), triangles: Uint32Array.of(0, 1, 2) },
    ],
  ])('adds up to the surface: %s', (_, mesh) => {
    expect(sum(vertexAreas(mesh))).toBeCloseTo(sum(triangleAreas(mesh)), 12);
  });
});
