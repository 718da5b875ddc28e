/** Which vertices of a mesh pull at which: rows of 3x3 blocks, columns rising within a row. */
export interface BlockPattern {
  /** First block of each row; V+1. */
  readonly rowStart: Uint32Array;
  /** Column of each block; B. */
  readonly columns: Uint32Array;
  /** Block on the diagonal of each row; V. */
  readonly diagonal: Uint32Array;
}

/** A symmetric matrix of 3x3 blocks, stored whole (both triangles). */
export interface BlockMatrix {
  readonly pattern: BlockPattern;
  /** 9*B, row-major within a block. */
  readonly values: Float64Array;
}

/** The blocks of a mesh: a vertex with itself and with each neighbour. */
export function patternOf(triangles: Uint32Array, vertexCount: number): BlockPattern {
  // Room for every triangle's two other corners, and for the vertex itself; twins are dropped on the way in.
  const room = new Uint32Array(vertexCount + 1);
  for (let i = 0; i < triangles.length; i++) room[triangles[i]! + 1]! += 2;
  for (let v = 0; v < vertexCount; v++) room[v + 1] = room[v + 1]! + room[v]! + 1;
  const loose = new Uint32Array(room[vertexCount]!);
  const length = new Uint32Array(vertexCount);
  for (let v = 0; v < vertexCount; v++) {
    loose[room[v]!] = v;
    length[v] = 1;
  }
  for (let i = 0; i < triangles.length; i += 3) {
    const a = triangles[i]!;
    const b = triangles[i + 1]!;
    const c = triangles[i + 2]!;
    insert(loose, room, length, a, b);
    insert(loose, room, length, a, c);
    insert(loose, room, length, b, a);
    insert(loose, room, length, b, c);
    insert(loose, room, length, c, a);
    insert(loose, room, length, c, b);
  }
  const rowStart = new Uint32Array(vertexCount + 1);
  for (let v = 0; v < vertexCount; v++) rowStart[v + 1] = rowStart[v]! + length[v]!;
  const columns = new Uint32Array(rowStart[vertexCount]!);
  const diagonal = new Uint32Array(vertexCount);
  for (let v = 0; v < vertexCount; v++) {
    for (let k = 0; k < length[v]!; k++) {
      const column = loose[room[v]! + k]!;
      columns[rowStart[v]! + k] = column;
      if (column === v) diagonal[v] = rowStart[v]! + k;
    }
  }
  return { rowStart, columns, diagonal };
}

/** Puts a column into a row at its place, unless it is there. */
// eslint-disable-next-line max-params -- called six times per triangle; an options object would be allocated each time
function insert(
  loose: Uint32Array,
  room: Uint32Array,
  length: Uint32Array,
  row: number,
  column: number,
): void {
  const start = room[row]!;
  let at = start + length[row]!;
  while (at > start && loose[at - 1]! >= column) {
    if (loose[at - 1] === column) return;
    at--;
  }
  for (let k = start + length[row]!; k > at; k--) loose[k] = loose[k - 1]!;
  loose[at] = column;
  length[row]!++;
}

export const zeroMatrix = (pattern: BlockPattern): BlockMatrix => ({
  pattern,
  values: new Float64Array(9 * pattern.columns.length),
});

/** Index of the block at (row, column), which must exist. */
export function blockAt({ rowStart, columns }: BlockPattern, row: number, column: number): number {
  const end = rowStart[row + 1]!;
  for (let b = rowStart[row]!; b < end; b++) if (columns[b] === column) return b;
  throw new Error(`Meshes do not nest: no block (${row}, ${column}).`);
}

/** Where a triangle's nine blocks go: (corner m, corner n) at 9 t + 3 m + n; 9*T. */
export function triangleBlocks(pattern: BlockPattern, triangles: Uint32Array): Uint32Array {
  const blocks = new Uint32Array(3 * triangles.length);
  for (let i = 0; i < triangles.length; i += 3) {
    for (let m = 0; m < 3; m++) {
      for (let n = 0; n < 3; n++) {
        blocks[3 * i + 3 * m + n] = blockAt(pattern, triangles[i + m]!, triangles[i + n]!);
      }
    }
  }
  return blocks;
}

/** y = A x. */
export function multiply({ pattern, values }: BlockMatrix, x: Float64Array, into: Float64Array): void {
  const { rowStart, columns } = pattern;
  const rowCount = rowStart.length - 1;
  for (let row = 0; row < rowCount; row++) {
    let y0 = 0;
    let y1 = 0;
    let y2 = 0;
    const end = rowStart[row + 1]!;
    for (let b = rowStart[row]!; b < end; b++) {
      const c = 3 * columns[b]!;
      const x0 = x[c]!;
      const x1 = x[c + 1]!;
      const x2 = x[c + 2]!;
      const a = 9 * b;
      y0 += values[a]! * x0 + values[a + 1]! * x1 + values[a + 2]! * x2;
      y1 += values[a + 3]! * x0 + values[a + 4]! * x1 + values[a + 5]! * x2;
      y2 += values[a + 6]! * x0 + values[a + 7]! * x1 + values[a + 8]! * x2;
    }
    into[3 * row] = y0;
    into[3 * row + 1] = y1;
    into[3 * row + 2] = y2;
  }
}

/** Cuts held coordinates off from all others: their rows and columns become zero but for the diagonal. */
export function cutHeld({ pattern, values }: BlockMatrix, held: Uint8Array): void {
  const { rowStart, columns } = pattern;
  for (let row = 0; row < rowStart.length - 1; row++) {
    for (let b = rowStart[row]!; b < rowStart[row + 1]!; b++) {
      const column = columns[b]!;
      for (let i = 0; i < 3; i++) {
        for (let j = 0; j < 3; j++) {
          const onDiagonal = row === column && i === j;
          if (!onDiagonal && (held[3 * row + i] || held[3 * column + j])) values[9 * b + 3 * i + j] = 0;
        }
      }
    }
  }
}
