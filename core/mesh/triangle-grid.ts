import type { TriangleMesh } from './triangle-mesh.ts';
import { triple, type Triple } from './triple.ts';

/** Triangles sorted into equal cubes by their boxes. */
export interface TriangleGrid {
  readonly low: Triple;
  readonly cell: number;
  readonly counts: Triple;
  /** Triangles of cell i are list[start[i]] up to list[start[i + 1] - 1]. */
  readonly start: Uint32Array;
  readonly list: Uint32Array;
  /** Low and high corner per triangle; 6T. */
  readonly boxes: Float64Array;
}

/** Entries that a triangle may have on average; larger cells are taken where it would be more. */
const MOST_ENTRIES = 12;

/** Sorts the triangles into a grid of cells about as wide as their boxes; bounded in memory whatever their sizes are. */
export function triangleGrid(mesh: TriangleMesh): TriangleGrid {
  const boxes = triangleBoxes(mesh);
  const triangleCount = boxes.length / 6;
  const low = triple((k) => extreme(boxes, k, Math.min, Infinity));
  const high = triple((k) => extreme(boxes, k + 3, Math.max, -Infinity));
  const widths = triple((k) => high[k]! - low[k]!);
  let mean = 0;
  for (let i = 0; i < boxes.length; i += 6) {
    for (let k = 0; k < 3; k++) mean += (boxes[i + 3 + k]! - boxes[i + k]!) / (3 * triangleCount);
  }
  let cell = Math.max(1.5 * mean, 1e-4 * Math.max(...widths), Number.MIN_VALUE);
  const countsAt = (size: number): Triple =>
    triple((k) => Math.max(1, Math.min(10_000, Math.floor(widths[k]! / size) + 1)));
  let counts = countsAt(cell);
  const cellCount = (): number => counts[0] * counts[1] * counts[2];
  while (
    cellCount() > 8 * triangleCount + 64 ||
    entryCount(boxes, low, cell, counts) > MOST_ENTRIES * triangleCount + 64
  ) {
    cell *= 1.5;
    counts = countsAt(cell);
  }
  const start = new Uint32Array(cellCount() + 1);
  forEachEntry({ boxes, low, cell, counts }, (at) => start[at + 1]!++);
  for (let i = 1; i < start.length; i++) start[i]! += start[i - 1]!;
  const next = start.slice(0, -1);
  const list = new Uint32Array(start.at(-1)!);
  forEachEntry({ boxes, low, cell, counts }, (at, t) => (list[next[at]!++] = t));
  return { low, cell, counts, start, list, boxes };
}

/** The cell index along axis k of a coordinate, within the grid. */
export const cellAlong = (
  { low, cell, counts }: Pick<TriangleGrid, 'low' | 'cell' | 'counts'>,
  k: number,
  value: number,
): number => Math.max(0, Math.min(counts[k]! - 1, Math.floor((value - low[k]!) / cell)));

function triangleBoxes({ positions, triangles }: TriangleMesh): Float64Array {
  const boxes = new Float64Array(2 * triangles.length);
  for (let t = 0; t < triangles.length / 3; t++)
    for (let k = 0; k < 3; k++) {
      const a = positions[3 * triangles[3 * t]! + k]!;
      const b = positions[3 * triangles[3 * t + 1]! + k]!;
      const c = positions[3 * triangles[3 * t + 2]! + k]!;
      boxes[6 * t + k] = Math.min(a, b, c);
      boxes[6 * t + 3 + k] = Math.max(a, b, c);
    }
  return boxes;
}

/* oxlint-disable-next-line max-params -- list, offset, operation and where it begins */
function extreme(
  boxes: Float64Array,
  offset: number,
  of: (a: number, b: number) => number,
  from: number,
): number {
  let value = from;
  for (let i = offset; i < boxes.length; i += 6) value = of(value, boxes[i]!);
  return value;
}

/* oxlint-disable-next-line max-params -- the parts of a grid that is not yet one */
function entryCount(boxes: Float64Array, low: Triple, cell: number, counts: Triple): number {
  const grid = { low, cell, counts };
  let count = 0;
  for (let i = 0; i < boxes.length; i += 6) {
    let cells = 1;
    for (let k = 0; k < 3; k++) {
      cells *= cellAlong(grid, k, boxes[i + 3 + k]!) - cellAlong(grid, k, boxes[i + k]!) + 1;
    }
    count += cells;
  }
  return count;
}

function forEachEntry(
  grid: Pick<TriangleGrid, 'low' | 'cell' | 'counts' | 'boxes'>,
  visit: (cell: number, triangle: number) => void,
): void {
  const { boxes, counts } = grid;
  for (let t = 0; t < boxes.length / 6; t++) {
    const from = triple((k) => cellAlong(grid, k, boxes[6 * t + k]!));
    const to = triple((k) => cellAlong(grid, k, boxes[6 * t + 3 + k]!));
    for (let z = from[2]; z <= to[2]; z++)
      for (let y = from[1]; y <= to[1]; y++)
        for (let x = from[0]; x <= to[0]; x++) visit((z * counts[1] + y) * counts[0] + x, t);
  }
}
