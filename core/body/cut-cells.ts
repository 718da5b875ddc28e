import type { Triple } from '../mesh/triple.ts';
import { blockCounts, type CutCells } from './distance-grid.ts';
import { cellsAlong, type SplineBlock } from './spline-block.ts';

/**
 * The cut cells of a grid, laid out for reading.
 *
 * @param counts - Of the grid's coefficients.
 * @param splines - By cell; (counts - 3) cells along each axis, z fastest.
 */
export function cutCells(counts: Readonly<Triple>, splines: ReadonlyMap<number, SplineBlock>): CutCells {
  const [, blocksY, blocksZ] = blockCounts(counts);
  const cellsY = counts[1] - 3;
  const cellsZ = counts[2] - 3;
  const starts = new Uint32Array(splines.size + 1);
  const along = new Uint8Array(splines.size + 1);
  const coefficients = new Float64Array([...splines.values()].reduce((sum, { length }) => sum + length, 0));
  // Block by block as they are met.
  const blocks = new Map<number, number>();
  const places: number[] = [];
  let number = 0;
  let start = 0;
  for (const [cell, spline] of splines) {
    const i = Math.floor(cell / (cellsY * cellsZ));
    const j = Math.floor(cell / cellsZ) % cellsY;
    const k = cell % cellsZ;
    const at = ((i >> 2) * blocksY + (j >> 2)) * blocksZ + (k >> 2);
    if (!blocks.has(at)) blocks.set(at, blocks.size + 1);
    places.push(64 * blocks.get(at)! + ((i & 3) << 4) + ((j & 3) << 2) + (k & 3));
    starts[++number] = start;
    along[number] = cellsAlong(spline);
    coefficients.set(spline, start);
    start += spline.length;
  }
  const [blocksX] = blockCounts(counts);
  const blockOf = numbers(blocksX * blocksY * blocksZ, blocks.size);
  for (const [at, block] of blocks) blockOf[at] = block;
  const numberOf = numbers(64 * (blocks.size + 1), splines.size);
  for (const [n, place] of places.entries()) numberOf[place] = n + 1;
  return { blockOf, numberOf, starts, along, coefficients };
}

/** Room for numbers up to `most`. */
const numbers = (length: number, most: number): Uint16Array | Uint32Array =>
  most <= 0xffff ? new Uint16Array(length) : new Uint32Array(length);
