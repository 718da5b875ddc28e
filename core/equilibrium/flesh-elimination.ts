import { meshEdges, vertexNeighbours, type Rows } from '../mesh/mesh-edges.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';

/** In what order a mesh's equations are eliminated, and where the factor of any matrix of that mesh has entries. */
export interface EliminationPlan {
  /** Place of each vertex in the order of elimination; V. */
  readonly place: Uint32Array;
  /** By places: the neighbours of each that come before it, in order. A matrix has its entries left of the diagonal there. */
  readonly lower: Rows;
  /** By places: the later rows that each column of the factor reaches, in order. */
  readonly columns: Rows;
  /** By places: the earlier columns that reach each row, in order. */
  readonly rows: Rows;
}

/** A symmetric matrix of the plan's mesh: entries left of the diagonal as `lower` lists them, diagonal by places. */
export interface PlannedMatrix {
  readonly values: Float64Array;
  readonly diagonal: Float64Array;
}

/** A = L L' of three matrices, turn by turn: three numbers per entry of the plan's columns, the diagonals apart. */
export interface ThreeFactors {
  readonly values: Float64Array;
  readonly diagonal: Float64Array;
}

/** Plans the elimination of a mesh: order by {@link dissected}, then every entry that an elimination in it fills. */
export function planElimination(mesh: TriangleMesh): EliminationPlan {
  const count = mesh.positions.length / 3;
  const neighbours = vertexNeighbours(meshEdges(mesh), count);
  const order = dissected(mesh.positions, neighbours);
  const place = new Uint32Array(count);
  order.forEach((v, at) => (place[v] = at));
  const lower = lowerRows(neighbours, order, place);
  const rows = filledRows(lower);
  return { place, lower, rows, columns: turned(rows) };
}

function lowerRows(neighbours: Rows, order: Uint32Array, place: Uint32Array): Rows {
  const start = new Uint32Array(order.length + 1);
  const list = new Uint32Array(neighbours.list.length / 2);
  let next = 0;
  for (let row = 0; row < order.length; row++) {
    const v = order[row]!;
    for (let i = neighbours.start[v]!; i < neighbours.start[v + 1]!; i++) {
      const column = place[neighbours.list[i]!]!;
      if (column < row) list[next++] = column;
    }
    list.subarray(start[row], next).sort();
    start[row + 1] = next;
  }
  return { start, list };
}

/**
 * Entries of each row of the factor: from every entry of the matrix up the tree in which the parent of a column is the
 * first row it reaches.
 *
 * @see Liu, SIAM J. Matrix Anal. Appl. 11 (1990) 134 (elimination tree).
 */
function filledRows({ start, list }: Rows): Rows {
  const count = start.length - 1;
  const parent = new Int32Array(count).fill(-1);
  const seen = new Int32Array(count).fill(-1);
  const filled: number[] = [];
  const filledStart = new Uint32Array(count + 1);
  for (let row = 0; row < count; row++) {
    seen[row] = row;
    const from = filled.length;
    for (let i = start[row]!; i < start[row + 1]!; i++) {
      for (let column = list[i]!; seen[column] !== row; column = parent[column]!) {
        if (parent[column] === -1) parent[column] = row;
        seen[column] = row;
        filled.push(column);
      }
    }
    filledStart[row + 1] = filled.length;
    if (filled.length - from > 1) sortTail(filled, from);
  }
  return { start: filledStart, list: Uint32Array.from(filled) };
}

function sortTail(list: number[], from: number): void {
  const tail = Uint32Array.from(list.slice(from)).sort();
  for (let i = 0; i < tail.length; i++) list[from + i] = tail[i]!;
}

/** The same entries by columns. */
function turned({ start, list }: Rows): Rows {
  const count = start.length - 1;
  const turnedStart = new Uint32Array(count + 1);
  for (const column of list) turnedStart[column + 1]!++;
  for (let v = 0; v < count; v++) turnedStart[v + 1]! += turnedStart[v]!;
  const next = turnedStart.slice(0, count);
  const turnedList = new Uint32Array(list.length);
  for (let row = 0; row < count; row++) {
    for (let i = start[row]!; i < start[row + 1]!; i++) turnedList[next[list[i]!]!++] = row;
  }
  return { start: turnedStart, list: turnedList };
}

/** Sets this small are not cut further. */
const LEAF = 12;

/**
 * An order of elimination that fills little: the mesh is cut in two across its longer way by a line of vertices that keeps
 * both sides apart, again and again; each line comes after both its sides.
 *
 * @see George, SIAM J. Numer. Anal. 10 (1973) 345 (nested dissection).
 */
function dissected(positions: Float64Array, { start, list }: Rows): Uint32Array {
  const count = start.length - 1;
  const order = new Uint32Array(count);
  const side = new Uint8Array(count);
  const key = new Float64Array(count);
  let last = count;
  /** Places a set at the end of what is still free, its line first of all. */
  const cut = (set: Uint32Array): void => {
    if (set.length <= LEAF) {
      last -= set.length;
      order.set(set, last);
      return;
    }
    const axis = longestAxis(positions, set);
    for (const v of set) key[v] = positions[3 * v + axis]!;
    set.sort((a, b) => key[a]! - key[b]! || a - b);
    const second = set.subarray(set.length >> 1);
    const before = set.subarray(0, set.length >> 1);
    for (const v of second) side[v] = 1;
    const first: number[] = [];
    const line: number[] = [];
    for (const v of before) {
      let touches = false;
      for (let i = start[v]!; i < start[v + 1]! && !touches; i++) touches = side[list[i]!] === 1;
      (touches ? line : first).push(v);
    }
    for (const v of second) side[v] = 0;
    last -= line.length;
    order.set(line, last);
    cut(second);
    cut(Uint32Array.from(first));
  };
  cut(Uint32Array.from({ length: count }, (_, v) => v));
  return order;
}

function longestAxis(positions: Float64Array, set: Uint32Array): number {
  const extent = [0, 1, 2].map((k) => {
    let [low, high] = [Infinity, -Infinity];
    for (const v of set) {
      low = Math.min(low, positions[3 * v + k]!);
      high = Math.max(high, positions[3 * v + k]!);
    }
    return high - low;
  });
  return extent.indexOf(Math.max(...extent));
}

/**
 * Factorises three matrices of the plan's mesh, row by row and side by side: half of the time goes into finding the places
 * of the entries, which they share.
 *
 * @throws {Error} where a matrix is not positive definite: a bug, since stiffness plus area is.
 * @see Davis, Direct Methods for Sparse Linear Systems (2006), section 4.7 (up-looking Cholesky).
 */
export function factoriseThree(
  { lower, rows, columns }: EliminationPlan,
  [a, b, c]: readonly [PlannedMatrix, PlannedMatrix, PlannedMatrix],
): ThreeFactors {
  const count = a.diagonal.length;
  const values = new Float64Array(3 * columns.list.length);
  const diagonal = new Float64Array(3 * count);
  const { start, list } = columns;
  const next = start.slice(0, count);
  const x = new Float64Array(3 * count);
  for (let row = 0; row < count; row++) {
    for (let i = lower.start[row]!; i < lower.start[row + 1]!; i++) {
      const at = 3 * lower.list[i]!;
      x[at] = a.values[i]!;
      x[at + 1] = b.values[i]!;
      x[at + 2] = c.values[i]!;
    }
    let pivotA = a.diagonal[row]!;
    let pivotB = b.diagonal[row]!;
    let pivotC = c.diagonal[row]!;
    for (let r = rows.start[row]!; r < rows.start[row + 1]!; r++) {
      const column = rows.list[r]!;
      const from = 3 * column;
      const entryA = x[from]! / diagonal[from]!;
      const entryB = x[from + 1]! / diagonal[from + 1]!;
      const entryC = x[from + 2]! / diagonal[from + 2]!;
      x[from] = 0;
      x[from + 1] = 0;
      x[from + 2] = 0;
      const end = next[column]!;
      for (let i = start[column]!; i < end; i++) {
        const at = 3 * list[i]!;
        x[at]! -= values[3 * i]! * entryA;
        x[at + 1]! -= values[3 * i + 1]! * entryB;
        x[at + 2]! -= values[3 * i + 2]! * entryC;
      }
      pivotA -= entryA * entryA;
      pivotB -= entryB * entryB;
      pivotC -= entryC * entryC;
      values[3 * end] = entryA;
      values[3 * end + 1] = entryB;
      values[3 * end + 2] = entryC;
      next[column] = end + 1;
    }
    if (!(Math.min(pivotA, pivotB, pivotC) > 0)) {
      throw new Error(`the flesh's equations are not positive definite at row ${row}`);
    }
    diagonal[3 * row] = Math.sqrt(pivotA);
    diagonal[3 * row + 1] = Math.sqrt(pivotB);
    diagonal[3 * row + 2] = Math.sqrt(pivotC);
  }
  return { values, diagonal };
}

/**
 * Solves L L' x = b for the three, in place.
 *
 * @param x - By places, turn by turn; 3*V.
 */
export function solveThree({ columns }: EliminationPlan, factors: ThreeFactors, x: Float64Array): void {
  const { values, diagonal } = factors;
  const { start, list } = columns;
  const count = start.length - 1;
  for (let column = 0; column < count; column++) {
    const from = 3 * column;
    const a = (x[from]! /= diagonal[from]!);
    const b = (x[from + 1]! /= diagonal[from + 1]!);
    const c = (x[from + 2]! /= diagonal[from + 2]!);
    for (let i = start[column]!; i < start[column + 1]!; i++) {
      const at = 3 * list[i]!;
      x[at]! -= values[3 * i]! * a;
      x[at + 1]! -= values[3 * i + 1]! * b;
      x[at + 2]! -= values[3 * i + 2]! * c;
    }
  }
  for (let column = count - 1; column >= 0; column--) {
    const from = 3 * column;
    let a = x[from]!;
    let b = x[from + 1]!;
    let c = x[from + 2]!;
    for (let i = start[column]!; i < start[column + 1]!; i++) {
      const at = 3 * list[i]!;
      a -= values[3 * i]! * x[at]!;
      b -= values[3 * i + 1]! * x[at + 1]!;
      c -= values[3 * i + 2]! * x[at + 2]!;
    }
    x[from] = a / diagonal[from]!;
    x[from + 1] = b / diagonal[from + 1]!;
    x[from + 2] = c / diagonal[from + 2]!;
  }
}
