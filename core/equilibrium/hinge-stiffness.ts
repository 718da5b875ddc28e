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
  const room: PatchRoom = { slope: new Float64Array(54), moment: new Float64Array(54) };
  for (let t = 0; 6 * t < vertices.length; t++) {
    setPatch(hinges, t, room);
    for (let i = 0; i < 6; i++) {
      const row = vertices[6 * t + i]!;
      if (row === NO_VERTEX) continue;
      for (let j = 0; j < 6; j++) {
        const block = blocks[36 * t + 6 * i + j]!;
        if (block !== MISSING) addBlock(room, i, j, values, 9 * block);
        else if (vertices[6 * t + j] !== NO_VERTEX) {
          const at = 9 * pattern.diagonal[row]!;
          const size = sizeOfBlock(room, i, j);
          for (let k = 0; k < 9; k += 4) values[at + k]! += size;
        }
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
}

// eslint-disable-next-line max-params -- inner kernel, called 36 times per triangle
function addBlock(
  { slope, moment }: PatchRoom,
  i: number,
  j: number,
  values: Float64Array,
  at: number,
): void {
  for (let k = 0; k < 3; k++) {
    const s0 = slope[3 * i + k]!;
    const s1 = slope[18 + 3 * i + k]!;
    const s2 = slope[36 + 3 * i + k]!;
    for (let l = 0; l < 3; l++) {
      values[at + 3 * k + l]! +=
        s0 * moment[3 * j + l]! + s1 * moment[18 + 3 * j + l]! + s2 * moment[36 + 3 * j + l]!;
    }
  }
}

/** Root of the sum of squares of a block. */
function sizeOfBlock(room: PatchRoom, i: number, j: number): number {
  const block = new Float64Array(9);
  addBlock(room, i, j, block, 0);
  return Math.sqrt(block.reduce((sum, value) => sum + value * value, 0));
}
