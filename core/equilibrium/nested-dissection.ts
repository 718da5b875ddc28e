import type { BlockPattern } from './block-matrix.ts';

/** A set of vertices that is eliminated together, after its children. */
export interface Front {
  readonly children: readonly number[];
  /** Vertices eliminated here. */
  readonly own: Uint32Array;
  /** Vertices eliminated later that these pull at, or whose children's do; in their order of elimination. */
  readonly border: Uint32Array;
}

/** Sets this small are not cut further. */
const LEAF = 14;

/**
 * An order of elimination for a flat mesh: the sheet is cut in two by a line of vertices that keeps both sides apart,
 * again and again; each line is eliminated after both its sides.
 *
 * @param places - Places of the vertices on a plane in which neighbours are near each other; 2*V.
 * @param leftOut - 1 where a vertex takes no part; V.
 * @returns Fronts, children before parents.
 * @see George, SIAM J. Numer. Anal. 10 (1973) 345 (nested dissection).
 */
export function dissect(pattern: BlockPattern, places: Float64Array, leftOut: Uint8Array): Front[] {
  const vertexCount = pattern.diagonal.length;
  const sets: { children: number[]; own: number[] }[] = [];
  const side = new Uint8Array(vertexCount);
  const cut = (vertices: number[]): number => {
    if (vertices.length <= LEAF) return sets.push({ children: [], own: vertices }) - 1;
    const { first, line, second } = halve(pattern, places, vertices, side);
    const children = [first, second].filter((half) => half.length > 0).map(cut);
    return sets.push({ children, own: line }) - 1;
  };
  cut(Array.from({ length: vertexCount }, (_, v) => v).filter((v) => !leftOut[v]));
  const order = new Uint32Array(vertexCount);
  let next = 0;
  for (const { own } of sets) for (const v of own) order[v] = next++;
  const borders: Uint32Array[] = [];
  return sets.map(({ children, own }) => {
    const border = new Set<number>();
    const last = own.length > 0 ? order[own.at(-1)!]! : -1;
    const add = (v: number) => {
      if (order[v]! > last && !leftOut[v]) border.add(v);
    };
    for (const child of children) for (const v of borders[child]!) if (!own.includes(v)) border.add(v);
    for (const v of own)
      for (let b = pattern.rowStart[v]!; b < pattern.rowStart[v + 1]!; b++) add(pattern.columns[b]!);
    borders.push(Uint32Array.from(border).sort((a, b) => order[a]! - order[b]!));
    return { children, own: Uint32Array.from(own), border: borders.at(-1)! };
  });
}

/** Cuts across the longer way at the middle vertex; the line is those of the first half that pull at the second. */
function halve(pattern: BlockPattern, places: Float64Array, vertices: number[], side: Uint8Array) {
  const extent = (axis: number): number => {
    let low = Infinity;
    let high = -Infinity;
    for (const v of vertices) {
      low = Math.min(low, places[2 * v + axis]!);
      high = Math.max(high, places[2 * v + axis]!);
    }
    return high - low;
  };
  const axis = extent(0) >= extent(1) ? 0 : 1;
  const sorted = vertices.toSorted((a, b) => places[2 * a + axis]! - places[2 * b + axis]! || a - b);
  const middle = sorted.length >> 1;
  const second = sorted.slice(middle);
  for (const v of second) side[v] = 1;
  const first: number[] = [];
  const line: number[] = [];
  for (const v of sorted.slice(0, middle)) {
    let touches = false;
    for (let b = pattern.rowStart[v]!; b < pattern.rowStart[v + 1]! && !touches; b++) {
      touches = side[pattern.columns[b]!] === 1;
    }
    (touches ? line : first).push(v);
  }
  for (const v of second) side[v] = 0;
  return { first, line, second };
}
