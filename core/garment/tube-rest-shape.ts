import { flatFromLengths, setRestShape, type FlatTriangle, type RestShape } from './rest-shape.ts';
import { diagonalRisesLeft, type TubeGrid } from './tube-grid.ts';

/** How laid lengths become unstretched ones. */
export interface TubeRestScale {
  /** Around the body, per ring of the grid. */
  readonly ratios: Float64Array;
  /** Along the body, one for the whole tube. */
  readonly along: number;
  readonly warp: 'along' | 'around';
}

/** Unstretched lengths of the grid's edges, each at row * columnCount + column; m. */
interface RestLengths {
  /** From (row, column) to the next column; (rows + 1) * columns. */
  readonly ring: Float64Array;
  /** From (row, column) up to the next row; rows * columns. */
  readonly column: Float64Array;
  /** The diagonal of cell (row, column); rows * columns. */
  readonly diagonal: Float64Array;
}

/**
 * Unstretched shape of each triangle of a laid tube. Every edge has one unstretched length, so neighbours agree.
 *
 * @param positions - As laid, m; 3*V.
 */
export function tubeRestShape(grid: TubeGrid, positions: Float64Array, scale: TubeRestScale): RestShape {
  const { rowCount, columnCount } = grid;
  const lengths = restLengths(grid, positions, scale);
  const shape: RestShape = {
    restInverse: new Float64Array(8 * rowCount * columnCount),
    restArea: new Float64Array(2 * rowCount * columnCount),
  };
  for (let row = 0; row < rowCount; row++) {
    for (let column = 0; column < columnCount; column++) {
      const cell = row * columnCount + column;
      const nextCell = row * columnCount + ((column + 1) % columnCount);
      const lower = lengths.ring[cell]!;
      const upper = lengths.ring[cell + columnCount]!;
      const right = lengths.column[cell]!;
      const left = lengths.column[nextCell]!;
      const diagonal = lengths.diagonal[cell]!;
      const risesLeft = diagonalRisesLeft(grid, row, column);
      const below = risesLeft
        ? flatFromLengths(lower, diagonal, left)
        : flatFromLengths(lower, right, diagonal);
      const above = risesLeft
        ? flatFromLengths(upper, diagonal, right)
        : flatFromLengths(upper, left, diagonal);
      setRestShape(inGrain(below, scale.warp, 1), 2 * cell, shape);
      // The upper triangle lists its ring edge backwards; turned half round it lies as the lower one does.
      setRestShape(inGrain(above, scale.warp, -1), 2 * cell + 1, shape);
    }
  }
  return shape;
}

function restLengths(grid: TubeGrid, positions: Float64Array, scale: TubeRestScale): RestLengths {
  const { rowCount, columnCount } = grid;
  const ring = new Float64Array((rowCount + 1) * columnCount);
  const column = new Float64Array(rowCount * columnCount);
  const diagonal = new Float64Array(rowCount * columnCount);
  const at = (row: number, c: number) => row * columnCount + ((c + columnCount) % columnCount);
  for (let row = 0; row <= rowCount; row++) {
    for (let c = 0; c < columnCount; c++) {
      const edge = vector(positions, at(row, c), at(row, c + 1));
      ring[at(row, c)] = Math.sqrt(dot(edge, edge)) * scale.ratios[row]!;
      if (row === rowCount) continue;
      const ratio = (scale.ratios[row]! + scale.ratios[row + 1]!) / 2;
      const ringAtColumn = sum(
        vector(positions, at(row, c - 1), at(row, c + 1)),
        vector(positions, at(row + 1, c - 1), at(row + 1, c + 1)),
      );
      const ringInCell = sum(edge, vector(positions, at(row + 1, c), at(row + 1, c + 1)));
      const upright = vector(positions, at(row, c), at(row + 1, c));
      const slanting = diagonalRisesLeft(grid, row, c)
        ? vector(positions, at(row, c), at(row + 1, c + 1))
        : vector(positions, at(row, c + 1), at(row + 1, c));
      column[at(row, c)] = crossingLength(upright, ringAtColumn, ratio, scale.along);
      diagonal[at(row, c)] = crossingLength(slanting, ringInCell, ratio, scale.along);
    }
  }
  return { ring, column, diagonal };
}

/** Unstretched length of an edge from ring to ring: its part along the ring and its part across scale apart. */
function crossingLength(edge: Vector, ring: Vector, around: number, along: number): number {
  const partAlongRing = dot(edge, ring) / Math.sqrt(dot(ring, ring));
  const partAcross = Math.sqrt(Math.max(0, dot(edge, edge) - partAlongRing * partAlongRing));
  return Math.hypot(partAlongRing * around, partAcross * along);
}

/** From (around, along) to (warp, weft). */
function inGrain(flat: FlatTriangle, warp: 'along' | 'around', sign: 1 | -1): FlatTriangle {
  const { ax, ay, bx, by } = {
    ax: sign * flat.ax,
    ay: sign * flat.ay,
    bx: sign * flat.bx,
    by: sign * flat.by,
  };
  return warp === 'around' ? { ax, ay, bx, by } : { ax: ay, ay: ax, bx: by, by: bx };
}

type Vector = readonly [number, number, number];

const vector = (positions: Float64Array, from: number, to: number): Vector => [
  positions[3 * to]! - positions[3 * from]!,
  positions[3 * to + 1]! - positions[3 * from + 1]!,
  positions[3 * to + 2]! - positions[3 * from + 2]!,
];
const sum = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
