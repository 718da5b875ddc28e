/** The field of a fit body read on a grid over its left half, only where the skin can be. Lengths in mm. */
import { triple } from '../mesh/triple.ts';
import type { Field } from './fit-field.ts';

/** Where the left half lies, mm; x from 0. */
export interface HalfBox {
  readonly width: number;
  readonly bottom: number;
  readonly top: number;
  readonly back: number;
  readonly front: number;
}

/** Where the nodes' planes lie. */
export interface Planes {
  readonly spacing: number;
  /**
   * Distance of the first plane from the midline: half a spacing if left out. Nearer, it finds a slit that is narrower
   * than a spacing.
   */
  readonly nearMidline?: number;
}

/** Values on the nodes; those that no block near the skin needs are NaN. */
export interface HalfGrid {
  readonly spacing: number;
  /** Place of node (0, 0, 0). Its x is `-nearMidline`, that of the next `nearMidline`: the first cells straddle the midline. */
  readonly low: readonly [number, number, number];
  /** Nodes in x, y, z. */
  readonly counts: readonly [number, number, number];
  /** Node (i, j, k) at (j * nz + k) * nx + i. */
  readonly values: Float64Array;
  /** Lowest node of each cell near the skin, in order of height. */
  readonly cells: Uint32Array;
}

/** Cells along one side of a block. */
const BLOCK = 4;
/** How much the field may overstate a distance. */
const CAUTION = 1.6;

/** Samples the field. A block whose middle is farther from the skin than any of its corners is left out. */
export function sampleHalf(field: Field, box: HalfBox, planes: Planes): HalfGrid {
  const { spacing, nearMidline = planes.spacing / 2 } = planes;
  const size = [box.width, box.top - box.bottom, box.front - box.back] as const;
  const blocks = triple((axis) => Math.ceil((size[axis]! / spacing + 1) / BLOCK));
  const counts = triple((axis) => blocks[axis]! * BLOCK + 1);
  const low = [-nearMidline, box.bottom, box.back] as const;
  const [nx, ny, nz] = counts;
  const near = nearBlocks(field, { blocks, low, spacing });

  const cells = cellsOf(near, counts);
  const needed = new Uint8Array(nx * ny * nz);
  const corners = cornersOf(counts);
  for (const cell of cells) for (const corner of corners) needed[cell + corner] = 1;

  const planesX = Float64Array.from({ length: nx }, (_, i) => xOfNode({ spacing, low }, i));
  const values = new Float64Array(needed.length).fill(NaN);
  let node = 0;
  for (let j = 0; j < ny; j++)
    for (let k = 0; k < nz; k++)
      for (let i = 0; i < nx; i++, node++) {
        if (needed[node] === 1) {
          values[node] = field(planesX[i]!, low[1] + j * spacing, low[2] + k * spacing);
        }
      }
  return { spacing, low, counts, values, cells };
}

/** Steps from the lowest node of a cell to its eight corners, in x, then y, then z. */
export function cornersOf([nx, , nz]: HalfGrid['counts']): readonly number[] {
  return [0, 1, nx * nz, nx * nz + 1, nx, nx + 1, nx * nz + nx, nx * nz + nx + 1];
}

/** Lowest node of every cell of these blocks, in order of height. */
function cellsOf(near: readonly number[], [nx, , nz]: HalfGrid['counts']): Uint32Array {
  const cells: number[] = [];
  for (let b = 0; b < near.length; b += 3) {
    const [i0, j0, k0] = [near[b]! * BLOCK, near[b + 1]! * BLOCK, near[b + 2]! * BLOCK];
    for (let j = j0; j < j0 + BLOCK; j++)
      for (let k = k0; k < k0 + BLOCK; k++)
        for (let i = i0; i < i0 + BLOCK; i++) cells.push((j * nz + k) * nx + i);
  }
  return Uint32Array.from(cells).sort();
}

/** x of the i-th plane of nodes. */
export function xOfNode({ spacing, low }: Pick<HalfGrid, 'spacing' | 'low'>, i: number): number {
  return i === 0 ? low[0] : (i - 1) * spacing - low[0];
}

/** Block indices (3 each) of the blocks that may hold skin. */
function nearBlocks(
  field: Field,
  grid: { blocks: readonly number[]; low: readonly [number, number, number]; spacing: number },
): number[] {
  const { blocks, low, spacing } = grid;
  const size = BLOCK * spacing;
  const reach = (Math.sqrt(3) / 2) * size * CAUTION;
  const near: number[] = [];
  for (let j = 0; j < blocks[1]!; j++)
    for (let k = 0; k < blocks[2]!; k++)
      for (let i = 0; i < blocks[0]!; i++) {
        const f = field(low[0] + (i + 0.5) * size, low[1] + (j + 0.5) * size, low[2] + (k + 0.5) * size);
        if (Math.abs(f) <= reach) near.push(i, j, k);
      }
  return near;
}
