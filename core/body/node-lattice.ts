import { triple, type Triple } from '../mesh/triple.ts';
import type { Box } from './body.ts';
import type { DistanceGrid } from './distance-grid.ts';

/** Far inside and far outside say no more than "far": nodes are held between these two, m. */
export const DEEPEST = -0.06;
export const FARTHEST = 0.08;

/** Where the nodes of a grid lie: node (i, j, k) at low + spacing * (i - 2, j - 2, k - 2), two rings outside its box. */
export interface NodeLattice {
  readonly low: Readonly<Triple>;
  /** m. */
  readonly spacing: number;
  /** Nodes along x, y, z; z runs fastest in memory. */
  readonly counts: Readonly<Triple>;
}

/** The nodes needed for a spline that is whole on `box`. */
export function latticeOver(box: Box, spacing: number): NodeLattice {
  const cells = triple((k) => Math.max(1, Math.ceil((box.high[k]! - box.low[k]!) / spacing - 1e-9)));
  return {
    low: triple((k) => (box.low[k]! + box.high[k]! - cells[k]! * spacing) / 2),
    spacing,
    counts: triple((k) => cells[k]! + 5),
  };
}

/** The box made larger by `by` on every side, m. */
export const grownBox = (box: Box, by: number): Box => ({
  low: triple((k) => box.low[k]! - by),
  high: triple((k) => box.high[k]! + by),
});

/**
 * Smoothing spline of node values: c = 2 f - S f, S = (1, 4, 1)/6 along each axis.
 *
 * Taking f itself as coefficients smooths facets away but shrinks a surface of radius R by spacing^2/6R; adding
 * the lost part f - S f back once ("twicing") leaves spacing^4/36R^3 and keeps the smoothing. Polynomials up to cubic
 * come back exactly.
 *
 * @param nodes - One value per node of the lattice, m; not changed.
 * @see Tukey, Exploratory Data Analysis (1977): twicing; de Boor, A Practical Guide to Splines (1978): B-splines.
 */
export function smoothGrid(lattice: NodeLattice, nodes: Float64Array): DistanceGrid {
  const [nx, ny, nz] = lattice.counts;
  const smooth = nodes.slice();
  const scratch = new Float64Array(Math.max(nx, ny, nz));
  const smoothLine = (first: number, step: number, count: number): void => {
    for (let i = 0; i < count; i++) scratch[i] = smooth[first + i * step]!;
    for (let i = 1; i < count - 1; i++) {
      smooth[first + i * step] = (scratch[i - 1]! + 4 * scratch[i]! + scratch[i + 1]!) / 6;
    }
  };
  for (let i = 0; i < nx; i++) for (let j = 0; j < ny; j++) smoothLine((i * ny + j) * nz, 1, nz);
  for (let i = 0; i < nx; i++) for (let k = 0; k < nz; k++) smoothLine(i * ny * nz + k, nz, ny);
  for (let j = 0; j < ny; j++) for (let k = 0; k < nz; k++) smoothLine(j * nz + k, ny * nz, nx);
  const counts = triple((axis) => lattice.counts[axis]! - 2);
  const coefficients = new Float64Array(counts[0] * counts[1] * counts[2]);
  let into = 0;
  for (let i = 1; i < nx - 1; i++)
    for (let j = 1; j < ny - 1; j++) {
      const row = (i * ny + j) * nz;
      for (let k = 1; k < nz - 1; k++) coefficients[into++] = 2 * nodes[row + k]! - smooth[row + k]!;
    }
  return { low: lattice.low, spacing: lattice.spacing, counts, coefficients };
}
