import type { BlockMatrix, BlockPattern } from './block-matrix.ts';
import { NO_HINGE, type Hinges } from './hinge-layout.ts';
import { NO_VERTEX, type HingePatches } from './hinge-patches.ts';

/** Marks a pair of vertices that the matrix has no block for. */
const MISSING = 0xffffffff;

/** Block of each pair of a triangle's patch; 36*T. */
export function patchBlocks({ vertices }: HingePatches, pattern: BlockPattern): Uint32Array {
  const blocks = new Uint32Array(6 * vertices.length).fill(MISSING);
  for (let i = 0; i < vertices.length; i++) {
    const row = vertices[i]!;
    if (row === NO_VERTEX) continue;
    const first = i - (i % 6);
    for (let j = 0; j < 6; j++) {
      const column = vertices[first + j]!;
      if (column !== NO_VERTEX) blocks[6 * i + j] = findBlock(pattern, row, column);
    }
  }
  return blocks;
}

function findBlock({ rowStart, columns }: BlockPattern, row: number, column: number): number {
  const end = rowStart[row + 1]!;
  for (let b = rowStart[row]!; b < end; b++) if (columns[b] === column) return b;
  return MISSING;
}

/**
 * Adds sum over triangles of A0 G' S G, with G the slopes of its three angles after the six vertices of its patch.
 *
 * A pair of vertices that the matrix has no block for is left out, its size added to both diagonals: that keeps the
 * matrix positive and moves no result, but steps become shorter.
 */
export function addHingeStiffness(
  hinges: Hinges,
  blocks: Uint32Array,
  { pattern, values }: BlockMatrix,
): void {
  const { vertices } = hinges.patches;
  const room: PatchRoom = {
    slope: new Float64Array(54),
    moment: new Float64Array(54),
    block: new Float64Array(9),
  };
  for (let t = 0; 6 * t < vertices.length; t++) {
    setPatch(hinges, t, room);
    for (let i = 0; i < 6; i++) {
      const row = vertices[6 * t + i]!;
      if (row === NO_VERTEX) continue;
      for (let j = 0; j <= i; j++) {
        const column = vertices[6 * t + j]!;
        if (column === NO_VERTEX) continue;
        setBlock(room, i, j);
        const lower = blocks[36 * t + 6 * i + j]!;
        if (lower === MISSING) {
          addSize(room, values, 9 * pattern.diagonal[row]!);
          addSize(room, values, 9 * pattern.diagonal[column]!);
          continue;
        }
        addBlock(room, values, 9 * lower);
        if (i !== j) addTransposed(room, values, 9 * blocks[36 * t + 6 * j + i]!);
      }
    }
  }
}

/** Slopes and moments of one triangle's patch. */
function setPatch(
  { ofSide, metric, placeInPatch, angles: { slopes } }: Hinges,
  t: number,
  { slope, moment }: PatchRoom,
): void {
  slope.fill(0);
  for (let e = 0; e < 3; e++) {
    const hinge = ofSide[3 * t + e]!;
    if (hinge === NO_HINGE) continue;
    for (let i = 0; i < 4; i++) {
      const place = 18 * e + 3 * placeInPatch[12 * t + 4 * e + i]!;
      for (let k = 0; k < 3; k++) slope[place + k] = slopes[12 * hinge + 3 * i + k]!;
    }
  }
  for (let e = 0; e < 3; e++) {
    const m0 = metric[9 * t + 3 * e]!;
    const m1 = metric[9 * t + 3 * e + 1]!;
    const m2 = metric[9 * t + 3 * e + 2]!;
    for (let i = 0; i < 18; i++) {
      moment[18 * e + i] = m0 * slope[i]! + m1 * slope[18 + i]! + m2 * slope[36 + i]!;
    }
  }
}

interface PatchRoom {
  /** Slopes of the three angles after the patch's coordinates, and the moments that a move of them makes; 3 * 18. */
  readonly slope: Float64Array;
  readonly moment: Float64Array;
  /** 9. */
  readonly block: Float64Array;
}

/** The block of patch vertices i and j. A far corner moves one angle only, corners of the triangle move all three. */
function setBlock({ slope, moment, block }: PatchRoom, i: number, j: number): void {
  const first = i < 3 ? 0 : i - 3;
  const last = i < 3 ? 2 : i - 3;
  block.fill(0);
  for (let e = first; e <= last; e++) {
    const m = 18 * e + 3 * j;
    const m0 = moment[m]!;
    const m1 = moment[m + 1]!;
    const m2 = moment[m + 2]!;
    for (let k = 0; k < 3; k++) {
      const s = slope[18 * e + 3 * i + k]!;
      block[3 * k]! += s * m0;
      block[3 * k + 1]! += s * m1;
      block[3 * k + 2]! += s * m2;
    }
  }
}

function addBlock({ block }: PatchRoom, values: Float64Array, at: number): void {
  for (let k = 0; k < 9; k++) values[at + k]! += block[k]!;
}

function addTransposed({ block }: PatchRoom, values: Float64Array, at: number): void {
  for (let k = 0; k < 3; k++) for (let l = 0; l < 3; l++) values[at + 3 * k + l]! += block[3 * l + k]!;
}

/** Root of the sum of squares of the block, on the diagonal. */
function addSize({ block }: PatchRoom, values: Float64Array, at: number): void {
  const size = Math.sqrt(block.reduce((sum, value) => sum + value * value, 0));
  for (let k = 0; k < 9; k += 4) values[at + k]! += size;
}
