import type { BlockMatrix, BlockPattern } from './block-matrix.ts';
import { dissect } from './nested-dissection.ts';

/** Pivots below this share of what they were made of are round-off. */
const PIVOT_SHARE = 1e-13;

/** One front with its numbers. */
interface NumericFront {
  readonly children: readonly number[];
  /** Vertices of the front, own first. */
  readonly vertices: Uint32Array;
  readonly ownCount: number;
  /** Where the matrix' blocks go: block, row, column (in vertices of the front), threes. */
  readonly entries: Uint32Array;
  /** Place of each border vertex in the parent's front. */
  inParent: Uint32Array;
  /** Rows of all, columns of own: 3n x 3k, row-major. */
  readonly factor: Float64Array;
  /** What is left for the border: 3(n-k) square, lower half used. */
  readonly rest: Float64Array;
}

/** Room for factors of one pattern, laid out once. */
export interface FrontFactor {
  readonly fronts: readonly NumericFront[];
  readonly leftOut: Uint8Array;
  readonly work: Float64Array;
}

/**
 * Lays out fronts, the border of each within its parent's.
 *
 * @param places - Where the vertices are, for their order (see dissect); 2*V.
 * @param leftOut - 1 where a vertex takes no part (its solution is 0); V.
 */
export function frontFactorOf(pattern: BlockPattern, places: Float64Array, leftOut: Uint8Array): FrontFactor {
  const place = new Int32Array(pattern.diagonal.length).fill(-1);
  const fronts: NumericFront[] = [];
  let largest = 0;
  for (const { children, own, border } of dissect(pattern, places, leftOut)) {
    const vertices = new Uint32Array(own.length + border.length);
    vertices.set(own);
    vertices.set(border, own.length);
    largest = Math.max(largest, vertices.length);
    vertices.forEach((v, i) => (place[v] = i));
    const entries: number[] = [];
    own.forEach((v, row) => {
      for (let b = pattern.rowStart[v]!; b < pattern.rowStart[v + 1]!; b++) {
        // The block (v, other) lies at column `row` once turned over: own columns, rows from `row` on.
        const other = place[pattern.columns[b]!]!;
        if (other >= row) entries.push(b, other, row);
      }
    });
    for (const child of children) {
      const { vertices: all, ownCount } = fronts[child]!;
      fronts[child]!.inParent = Uint32Array.from(all.subarray(ownCount), (v) => place[v]!);
    }
    vertices.forEach((v) => (place[v] = -1));
    fronts.push({
      children,
      vertices,
      ownCount: own.length,
      entries: Uint32Array.from(entries),
      inParent: new Uint32Array(0),
      factor: new Float64Array(9 * vertices.length * own.length),
      rest: new Float64Array(9 * border.length * border.length),
    });
  }
  return { fronts, leftOut, work: new Float64Array(3 * largest) };
}

/**
 * A = L L' by fronts: each gathers its part of A and what its children left, eliminates its own vertices and leaves
 * L21 L21' subtracted from its border.
 *
 * @returns False where A is not positive definite; the factor is then of no use.
 * @see Duff & Reid, ACM Trans. Math. Softw. 9 (1983) 302 (multifrontal elimination).
 */
export function factoriseFronts({ fronts }: FrontFactor, { values }: BlockMatrix): boolean {
  const products = new Float64Array(9);
  for (const front of fronts) {
    const { factor, rest, ownCount, entries, children } = front;
    const width = 3 * ownCount;
    factor.fill(0);
    rest.fill(0);
    for (let e = 0; e < entries.length; e += 3) {
      const from = 9 * entries[e]!;
      const row = 3 * entries[e + 1]!;
      const column = 3 * entries[e + 2]!;
      for (let i = 0; i < 3; i++) {
        for (let j = 0; j < 3; j++) factor[(row + i) * width + column + j] = values[from + 3 * j + i]!;
      }
    }
    for (const child of children) gather(fronts[child]!, front);
    if (!eliminate(front, products)) return false;
    leave(front, products);
  }
  return true;
}

/** Adds what a child left to its parent's rows and columns. Both keep the order of elimination, so no block turns over. */
function gather(child: NumericFront, { factor, rest: border, ownCount, vertices }: NumericFront): void {
  const { inParent, rest } = child;
  const borderCount = vertices.length - ownCount;
  const size = 3 * inParent.length;
  for (let a = 0; a < inParent.length; a++) {
    const row = inParent[a]!;
    for (let b = 0; b <= a; b++) {
      const column = inParent[b]!;
      const own = column < ownCount;
      const into = own ? factor : border;
      const stride = own ? 3 * ownCount : 3 * borderCount;
      let to = own ? 3 * row * stride + 3 * column : 3 * (row - ownCount) * stride + 3 * (column - ownCount);
      let from = 3 * a * size + 3 * b;
      for (let m = 0; m < 3; m++) {
        into[to]! += rest[from]!;
        into[to + 1]! += rest[from + 1]!;
        into[to + 2]! += rest[from + 2]!;
        to += stride;
        from += size;
      }
    }
  }
}

/** L11 and L21 in place, three columns and three rows at a time; what stands above the diagonal is left as it is. */
function eliminate({ factor, ownCount, vertices }: NumericFront, products: Float64Array): boolean {
  const width = 3 * ownCount;
  const height = 3 * vertices.length;
  for (let j = 0; j < width; j += 3) {
    const top = j * width;
    const d = top + j;
    for (let i = j; i < height; i += 3) {
      const a = i * width;
      rowProducts(factor, { a, b: top, stride: width, count: j }, products);
      for (let m = 0; m < 3; m++) {
        for (let n = 0; n < 3; n++) factor[a + m * width + j + n]! -= products[3 * m + n]!;
      }
      if (i === j) {
        if (!smallCholesky(factor, d, width)) return false;
        continue;
      }
      for (let r = a + j; r <= a + j + 2 * width; r += width) {
        const x = factor[r]! / factor[d]!;
        const y = (factor[r + 1]! - factor[d + width]! * x) / factor[d + width + 1]!;
        factor[r] = x;
        factor[r + 1] = y;
        factor[r + 2] =
          (factor[r + 2]! - factor[d + 2 * width]! * x - factor[d + 2 * width + 1]! * y) /
          factor[d + 2 * width + 2]!;
      }
    }
  }
  return true;
}

/** Cholesky of the 3x3 on the diagonal at `d`. */
function smallCholesky(m: Float64Array, d: number, width: number): boolean {
  for (let i = 0; i < 3; i++) {
    for (let j = 0; j <= i; j++) {
      const given = m[d + i * width + j]!;
      let sum = given;
      for (let k = 0; k < j; k++) sum -= m[d + i * width + k]! * m[d + j * width + k]!;
      if (j < i) m[d + i * width + j] = sum / m[d + j * width + j]!;
      // A pivot this small against what it was made of is round-off, not stiffness.
      else if (sum > PIVOT_SHARE * given) m[d + i * width + i] = Math.sqrt(sum);
      else return false;
    }
  }
  return true;
}

/** rest -= L21 L21', three rows by three columns at a time. */
function leave({ factor, rest, ownCount, vertices }: NumericFront, products: Float64Array): void {
  const width = 3 * ownCount;
  const size = 3 * (vertices.length - ownCount);
  for (let i = 0; i < size; i += 3) {
    for (let j = 0; j <= i; j += 3) {
      const rows = { a: (width + i) * width, b: (width + j) * width, stride: width, count: width };
      rowProducts(factor, rows, products);
      for (let m = 0; m < 3; m++) {
        for (let n = 0; n < 3; n++) rest[(i + m) * size + j + n]! -= products[3 * m + n]!;
      }
    }
  }
}

/** The nine scalar products of three rows at `a` with three rows at `b`, over their first `count` columns. */
function rowProducts(
  m: Float64Array,
  { a, b, stride, count }: { a: number; b: number; stride: number; count: number },
  into: Float64Array,
): void {
  const a1 = a + stride;
  const a2 = a1 + stride;
  const b1 = b + stride;
  const b2 = b1 + stride;
  let p00 = 0;
  let p01 = 0;
  let p02 = 0;
  let p10 = 0;
  let p11 = 0;
  let p12 = 0;
  let p20 = 0;
  let p21 = 0;
  let p22 = 0;
  for (let k = 0; k < count; k++) {
    const x0 = m[a + k]!;
    const x1 = m[a1 + k]!;
    const x2 = m[a2 + k]!;
    const y0 = m[b + k]!;
    const y1 = m[b1 + k]!;
    const y2 = m[b2 + k]!;
    p00 += x0 * y0;
    p01 += x0 * y1;
    p02 += x0 * y2;
    p10 += x1 * y0;
    p11 += x1 * y1;
    p12 += x1 * y2;
    p20 += x2 * y0;
    p21 += x2 * y1;
    p22 += x2 * y2;
  }
  into[0] = p00;
  into[1] = p01;
  into[2] = p02;
  into[3] = p10;
  into[4] = p11;
  into[5] = p12;
  into[6] = p20;
  into[7] = p21;
  into[8] = p22;
}

/** Solves L L' x = b. */
export function solveFronts(
  { fronts, work, leftOut }: FrontFactor,
  b: Float64Array,
  into: Float64Array,
): void {
  into.set(b);
  for (let v = 0; v < leftOut.length; v++) if (leftOut[v]) into.fill(0, 3 * v, 3 * v + 3);
  for (const front of fronts) {
    carry(front.vertices, into, work, true);
    forward(front, work);
    carry(front.vertices, into, work, false);
  }
  for (let f = fronts.length - 1; f >= 0; f--) {
    const front = fronts[f]!;
    carry(front.vertices, into, work, true);
    backward(front, work);
    carry(front.vertices.subarray(0, front.ownCount), into, work, false);
  }
}

/** Copies the numbers of a front's vertices in, or out again. */
function carry(vertices: Uint32Array, all: Float64Array, own: Float64Array, isIn: boolean): void {
  for (let i = 0; i < vertices.length; i++) {
    const v = 3 * vertices[i]!;
    for (let k = 0; k < 3; k++) {
      if (isIn) own[3 * i + k] = all[v + k]!;
      else all[v + k] = own[3 * i + k]!;
    }
  }
}

/** y1 = L11^-1 b1, b2 - L21 y1. */
function forward({ factor, ownCount, vertices }: NumericFront, x: Float64Array): void {
  const width = 3 * ownCount;
  const height = 3 * vertices.length;
  for (let i = 0; i < height; i++) {
    const row = i * width;
    const end = i < width ? i : width;
    let sum = x[i]!;
    for (let k = 0; k < end; k++) sum -= factor[row + k]! * x[k]!;
    x[i] = i < width ? sum / factor[row + i]! : sum;
  }
}

/** x1 = L11'^-1 (y1 - L21' x2). */
function backward({ factor, ownCount, vertices }: NumericFront, x: Float64Array): void {
  const width = 3 * ownCount;
  for (let i = 3 * vertices.length - 1; i >= 0; i--) {
    const row = i * width;
    if (i < width) x[i]! /= factor[row + i]!;
    const known = x[i]!;
    const end = i < width ? i : width;
    for (let k = 0; k < end; k++) x[k]! -= factor[row + k]! * known;
  }
}
