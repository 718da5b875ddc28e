/**
 * An energy of one variable, kept as equal cells whose slope is a cubic: once differentiable twice, integrated exactly.
 * Plain data, so that it crosses a worker's border.
 */
export interface EnergyTable {
  /** Left end of the first cell. */
  readonly start: number;
  readonly step: number;
  /**
   * 5 per cell: energy at the cell's left end, then the slope's cubic in t = (x - left end) / step.
   * The first and the last cell are straight in the slope and stand for all that lies beyond.
   */
  readonly cells: Float64Array;
}

/** Which slope to lay into a table, and where. */
export interface EnergyTableSource {
  /** d(energy)/dx. */
  readonly slope: (x: number) => number;
  readonly step: number;
  /** Cells left of x = 0 and right of it. */
  readonly cellsBelow: number;
  readonly cellsAbove: number;
}

/** Lays a slope function into a table; see {@link energyTable}. */
export function tabulateEnergy(source: EnergyTableSource): EnergyTable {
  const { slope, step, cellsBelow, cellsAbove } = source;
  const inner = cellsBelow + cellsAbove;
  const value = new Float64Array(inner + 1);
  for (let i = 0; i <= inner; i++) value[i] = slope((i - cellsBelow) * step);
  return energyTable(value, step, cellsBelow);
}

/**
 * A table through slopes given at its knots: cubic Hermite cells, knot slopes as the weighted harmonic mean of the
 * secants, so that the tabled slope rises only where the source rises. Energy is 0 at x = 0, which is a knot.
 *
 * @param value - d(energy)/dx at knots `step` apart; knot `zeroKnot` is x = 0.
 * @see Fritsch & Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300.
 */
export function energyTable(value: Float64Array, step: number, zeroKnot: number): EnergyTable {
  const inner = value.length - 1;
  const rise = knotRises(value);
  const cells = new Float64Array(5 * (inner + 2));
  for (let i = 0; i < inner; i++) {
    const difference = value[i + 1]! - value[i]!;
    const c = 5 * (i + 1);
    cells[c + 1] = value[i]!;
    cells[c + 2] = rise[i]!;
    cells[c + 3] = 3 * difference - 2 * rise[i]! - rise[i + 1]!;
    cells[c + 4] = rise[i]! + rise[i + 1]! - 2 * difference;
  }
  cells[1] = value[0]! - rise[0]!;
  cells[2] = rise[0]!;
  cells[5 * (inner + 1) + 1] = value[inner]!;
  cells[5 * (inner + 1) + 2] = rise[inner]!;
  integrate(cells, step, zeroKnot + 1);
  return { start: -(zeroKnot + 1) * step, step, cells };
}

/**
 * Reads energy, slope and curvature at x.
 *
 * @param into - Receives the three numbers from `at` on.
 */
export function readEnergy(table: EnergyTable, x: number, into: Float64Array, at: number): void {
  const { start, step, cells } = table;
  const position = (x - start) / step;
  const last = cells.length / 5 - 1;
  let cell = Math.floor(position);
  if (cell < 0) cell = 0;
  else if (cell > last) cell = last;
  const t = position - cell;
  const c = 5 * cell;
  const a0 = cells[c + 1]!;
  const a1 = cells[c + 2]!;
  const a2 = cells[c + 3]!;
  const a3 = cells[c + 4]!;
  into[at] = cells[c]! + step * t * (a0 + t * (a1 / 2 + t * (a2 / 3 + (t * a3) / 4)));
  into[at + 1] = a0 + t * (a1 + t * (a2 + t * a3));
  into[at + 2] = (a1 + t * (2 * a2 + 3 * t * a3)) / step;
}

/** Rise per cell at each knot: harmonic mean of both secants, straight at the ends. */
function knotRises(value: Float64Array): Float64Array {
  const last = value.length - 1;
  const rise = new Float64Array(last + 1);
  for (let i = 1; i < last; i++) {
    const before = value[i]! - value[i - 1]!;
    const after = value[i + 1]! - value[i]!;
    if (before * after > 0) rise[i] = (2 * before * after) / (before + after);
  }
  rise[0] = value[1]! - value[0]!;
  rise[last] = value[last]! - value[last - 1]!;
  return rise;
}

/** Fills the energy at each cell's left end so that it is 0 at the left end of cell `zeroCell`. */
function integrate(cells: Float64Array, step: number, zeroCell: number): void {
  let energy = 0;
  for (let c = 0; c < cells.length; c += 5) {
    cells[c] = energy;
    energy += step * (cells[c + 1]! + cells[c + 2]! / 2 + cells[c + 3]! / 3 + cells[c + 4]! / 4);
  }
  const atZero = cells[5 * zeroCell]!;
  for (let c = 0; c < cells.length; c += 5) cells[c] = cells[c]! - atZero;
}
