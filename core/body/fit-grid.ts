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

/** Values on the nodes; those that no block near the skin needs are NaN. */
export interface HalfGrid {
  readonly spacing: number;
  /** Place of node (0, 0, 0). x of node i is (i - 1/2) * spacing, so that the first cells straddle the midline. */
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
export function sampleHalf(field: Field, box: HalfBox, spacing: number): HalfGrid {
  const size = [box.width, box.top - box.bottom, box.front - box.back] as const;
  const blocks = triple((axis) => Math.ceil((size[axis]! / spacing + 1) / BLOCK));
  const counts = triple((axis) => blocks[axis]! * BLOCK + 1);
  const low = [-spacing / 2, box.bottom, box.back] as const;
  const [nx, ny, nz] = counts;
  const near = nearBlocks(field, { blocks, low, spacing });

  const needed = new Uint8Array(nx * ny * nz);
  const cells: number[] = [];
  for (let b = 0; b < near.length; b += 3) {
    const [i0, j0, k0] = [near[b]! * BLOCK, near[b + 1]! * BLOCK, near[b + 2]! * BLOCK];
    for (let j = 0; j <= BLOCK; j++)
      for (let k = 0; k <= BLOCK; k++)
        for (let i = 0; i <= BLOCK; i++) {
          const node = ((j0 + j) * nz + k0 + k) * nx + i0 + i;
          needed[node] = 1;
          if (i < BLOCK && j < BLOCK && k < BLOCK) cells.push(node);
        }
  }

  const values = new Float64Array(needed.length).fill(NaN);
  let node = 0;
  for (let j = 0; j < ny; j++)
    for (let k = 0; k < nz; k++)
      for (let i = 0; i < nx; i++, node++) {
        if (needed[node] === 1) {
          values[node] = field(low[0] + i * spacing, low[1] + j * spacing, low[2] + k * spacing);
        }
      }
  return { spacing, low, counts, values, cells: Uint32Array.from(cells).sort() };
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
