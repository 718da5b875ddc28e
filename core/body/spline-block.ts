/** Splines of one cell: its coefficients alone, moved on to finer cells, or read at the nodes. */

/** (n + 3)^3 coefficients, z fastest, for a cell cut into n^3: coefficient (i, j, k) at node (i - 1, j - 1, k - 1). */
export type SplineBlock = Float64Array;

/** Cells along one side of a block. */
export const cellsAlong = (block: SplineBlock): number => Math.round(Math.cbrt(block.length)) - 3;

/**
 * The same spline on cells half as large: even nodes (1, 6, 1)/8, odd nodes (1, 1)/2, along each axis. Exact.
 *
 * @see de Boor, A Practical Guide to Splines (1978), knot insertion: the two-scale relation of the cubic B-spline.
 */
export function subdivided(block: SplineBlock): SplineBlock {
  const from = cellsAlong(block) + 3;
  const to = 2 * from - 3;
  const alongZ = new Float64Array(from * from * to);
  for (let row = 0; row < from * from; row++)
    halveLine(block, { at: row * from, step: 1 }, alongZ, { at: row * to, step: 1 }, to);
  const alongY = new Float64Array(from * to * to);
  for (let i = 0; i < from; i++)
    for (let k = 0; k < to; k++)
      halveLine(alongZ, { at: i * from * to + k, step: to }, alongY, { at: i * to * to + k, step: to }, to);
  const finer = new Float64Array(to * to * to);
  for (let jk = 0; jk < to * to; jk++)
    halveLine(alongY, { at: jk, step: to * to }, finer, { at: jk, step: to * to }, to);
  return finer;
}

interface Line {
  readonly at: number;
  readonly step: number;
}

/** One line of `count` finer coefficients: the first belongs to node -1, which is odd. */
/* oxlint-disable-next-line max-params -- innermost step of the loops above */
function halveLine(from: Float64Array, line: Line, into: Float64Array, out: Line, count: number): void {
  for (let i = 0; i < count; i++) {
    const low = line.at + (i >> 1) * line.step;
    const here = from[low + line.step]!;
    into[out.at + i * out.step] =
      i % 2 === 0 ? (from[low]! + here) / 2 : (from[low]! + 6 * here + from[low + 2 * line.step]!) / 8;
  }
}

/** (1, 4, 1)/6 along each axis about place `at` of an array with `side` numbers along z and along y: a spline at its node. */
export function smoothedAt(values: Float64Array, at: number, side: number): number {
  let sum = 0;
  for (let a = -1; a <= 1; a++)
    for (let b = -1; b <= 1; b++) {
      const row = at + (a * side + b) * side;
      const line = values[row - 1]! + 4 * values[row]! + values[row + 1]!;
      sum += (a === 0 ? 4 : 1) * (b === 0 ? 4 : 1) * line;
    }
  return sum / 216;
}
