import type { Box } from './body.ts';
import type { DistanceField } from './distance-field.ts';
import { fieldOfGrid } from './distance-grid.ts';
import { DEEPEST, FARTHEST, latticeOver, smoothGrid, type NodeLattice } from './node-lattice.ts';

/**
 * A smooth distance field from any function that is zero on the skin, negative inside and roughly rises by 1 m a metre.
 *
 * Nodes F/|grad F| (so that |gradient| is 1 at the skin, whatever the slope of F there), held to -60..80 mm, then the
 * twiced spline of `smoothGrid`. |grad F| counts at least 1/2: where F is flat, deep inside, it is no distance anyway.
 *
 * @param box - Where the field is asked, m; beyond it goes on straight.
 * @param spacing - m; nothing sharper than about 1.5 spacings survives.
 */
export function gridFromField(
  field: (x: number, y: number, z: number) => number,
  box: Box,
  spacing: number,
): DistanceField {
  const lattice = latticeOver(box, spacing);
  return fieldOfGrid(smoothGrid(lattice, toDistances(lattice, valuesAtNodes(field, lattice))));
}

function valuesAtNodes(
  field: (x: number, y: number, z: number) => number,
  { low, spacing, counts }: NodeLattice,
): Float64Array {
  const [nx, ny, nz] = counts;
  const values = new Float64Array(nx * ny * nz);
  let node = 0;
  for (let i = 0; i < nx; i++) {
    const x = low[0] + (i - 2) * spacing;
    for (let j = 0; j < ny; j++) {
      const y = low[1] + (j - 2) * spacing;
      for (let k = 0; k < nz; k++) values[node++] = field(x, y, low[2] + (k - 2) * spacing);
    }
  }
  return values;
}

/** F/|grad F| by central differences (one-sided at the border), held between DEEPEST and FARTHEST. */
function toDistances({ spacing, counts }: NodeLattice, values: Float64Array): Float64Array {
  const [nx, ny, nz] = counts;
  const distances = new Float64Array(values.length);
  const slope = (node: number, place: number, count: number, step: number): number => {
    const back = place > 0 ? 1 : 0;
    const forth = place < count - 1 ? 1 : 0;
    return (values[node + forth * step]! - values[node - back * step]!) / ((back + forth) * spacing);
  };
  let node = 0;
  for (let i = 0; i < nx; i++)
    for (let j = 0; j < ny; j++)
      for (let k = 0; k < nz; k++, node++) {
        const gx = slope(node, i, nx, ny * nz);
        const gy = slope(node, j, ny, nz);
        const gz = slope(node, k, nz, 1);
        const steepness = Math.sqrt(gx * gx + gy * gy + gz * gz);
        const distance = values[node]! / Math.max(steepness, 0.5);
        distances[node] = Math.min(FARTHEST, Math.max(DEEPEST, distance));
      }
  return distances;
}
