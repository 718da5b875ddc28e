/** A tube cut into quadrilaterals, each split in two; `rowCount` cells high, `columnCount` cells around. */
export interface TubeGrid {
  readonly rowCount: number;
  readonly columnCount: number;
  /** How often the coarsest grid was halved to give this one. */
  readonly halvings: number;
}

/**
 * Grids from coarse to fine whose last has cells near `edge`. The coarsest is small enough to be solved directly
 * (at least 8 columns, an even number so that left mirrors right, and 2 rows).
 *
 * @param around - Mean length of the rings, m.
 * @param along - Length of the tube, m.
 * @param edge - Wanted edge length, m.
 */
export function tubeGrids(around: number, along: number, edge: number): TubeGrid[] {
  const columns = around / edge;
  const rows = along / edge;
  let halvings = 0;
  while (columns / 2 ** (halvings + 1) >= 8 && rows / 2 ** (halvings + 1) >= 1.5) halvings++;
  const columnCount = Math.max(8, 2 * Math.round(columns / 2 ** (halvings + 1)));
  const rowCount = Math.max(2, Math.round(rows / 2 ** halvings));
  return Array.from({ length: halvings + 1 }, (_, level) => ({
    rowCount: rowCount * 2 ** level,
    columnCount: columnCount * 2 ** level,
    halvings: level,
  }));
}

export const vertexCountOf = (grid: TubeGrid): number => (grid.rowCount + 1) * grid.columnCount;

/**
 * Whether the cell's diagonal rises to the left. Alternates on the coarsest grid and is inherited by the halves, so
 * that the mesh mirrors itself about the centre front.
 */
export function diagonalRisesLeft(grid: TubeGrid, row: number, column: number): boolean {
  return (((row >> grid.halvings) + (column >> grid.halvings)) & 1) === 1;
}

/**
 * Triangles of the grid; vertex (row, column) has index row * columnCount + column. Columns run from the centre
 * front to the wearer's left, so triangles are counter-clockwise seen from outside.
 *
 * @returns 3*T vertex indices, two triangles per cell; the first of a cell holds the lower ring edge, the second the
 *   upper one.
 */
export function tubeTriangles(grid: TubeGrid): Uint32Array {
  const { rowCount, columnCount } = grid;
  const triangles = new Uint32Array(6 * rowCount * columnCount);
  let at = 0;
  for (let row = 0; row < rowCount; row++) {
    for (let column = 0; column < columnCount; column++) {
      const next = (column + 1) % columnCount;
      const lowerRight = row * columnCount + column;
      const lowerLeft = row * columnCount + next;
      const upperRight = lowerRight + columnCount;
      const upperLeft = lowerLeft + columnCount;
      const cell = diagonalRisesLeft(grid, row, column)
        ? [lowerRight, lowerLeft, upperLeft, upperLeft, upperRight, lowerRight]
        : [lowerRight, lowerLeft, upperRight, upperLeft, upperRight, lowerLeft];
      triangles.set(cell, at);
      at += 6;
    }
  }
  return triangles;
}

/**
 * The two vertices of the next coarser grid whose mean each vertex is; the same one twice where they coincide.
 *
 * @returns 2*V; empty for the coarsest grid.
 */
export function tubeParents(grid: TubeGrid): Uint32Array {
  if (grid.halvings === 0) return new Uint32Array(0);
  const { rowCount, columnCount } = grid;
  const coarse: TubeGrid = {
    rowCount: rowCount / 2,
    columnCount: columnCount / 2,
    halvings: grid.halvings - 1,
  };
  const parents = new Uint32Array(2 * vertexCountOf(grid));
  const indexOf = (row: number, column: number) => row * coarse.columnCount + (column % coarse.columnCount);
  for (let row = 0; row <= rowCount; row++) {
    for (let column = 0; column < columnCount; column++) {
      const below = row >> 1;
      const right = column >> 1;
      const above = (row + 1) >> 1;
      const left = (column + 1) >> 1;
      // On a cell's middle the mean is taken along its diagonal; elsewhere both choices are the same.
      const risesLeft = diagonalRisesLeft(coarse, below, right);
      const at = 2 * (row * columnCount + column);
      parents[at] = indexOf(below, risesLeft ? right : left);
      parents[at + 1] = indexOf(above, risesLeft ? left : right);
    }
  }
  return parents;
}
