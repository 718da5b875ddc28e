import type { TriangleMesh } from './triangle-mesh.ts';
import { triple } from './triple.ts';

/** A mesh whose doubled vertices are one. */
export interface Welded {
  readonly mesh: TriangleMesh;
  /** How many vertices were given up for another. */
  readonly joinedCount: number;
  /** For each old vertex the old vertex that stands for it; V. */
  readonly keptFor: Uint32Array;
}

/**
 * Joins vertices that lie within `tolerance` of one another, as left by split normals and texture seams, drops triangles
 * that collapse by it and vertices that no triangle names. The order of what stays is kept; the first of several
 * doubled vertices gives the place.
 *
 * @param tolerance - Same unit as the positions; 0 joins only what is equal.
 */
export function weld({ positions, triangles }: TriangleMesh, tolerance: number): Welded {
  const keptFor = representatives(positions, tolerance);
  const corners: number[] = [];
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = triple((k) => keptFor[triangles[i + k]!]!);
    if (a !== b && b !== c && c !== a) corners.push(a, b, c);
  }
  const isUsed = new Uint8Array(keptFor.length);
  for (const v of corners) isUsed[v] = 1;
  const newIndex = new Uint32Array(keptFor.length);
  let count = 0;
  for (let v = 0; v < isUsed.length; v++) if (isUsed[v]) newIndex[v] = count++;
  const keptPositions = new Float64Array(3 * count);
  for (let v = 0; v < isUsed.length; v++) {
    if (isUsed[v]) keptPositions.set(positions.subarray(3 * v, 3 * v + 3), 3 * newIndex[v]!);
  }
  const mesh = { positions: keptPositions, triangles: Uint32Array.from(corners, (v) => newIndex[v]!) };
  return { mesh, joinedCount: keptFor.reduce((sum, kept, v) => sum + Number(kept !== v), 0), keptFor };
}

/** A tolerance that joins what single precision could not tell apart: a millionth of the largest extent. */
export function seamTolerance(positions: Float64Array): number {
  const extent = triple((k) => {
    let low = Infinity;
    let high = -Infinity;
    for (let i = k; i < positions.length; i += 3) {
      low = Math.min(low, positions[i]!);
      high = Math.max(high, positions[i]!);
    }
    return high - low;
  });
  return 1e-6 * Math.max(0, ...extent.filter(Number.isFinite));
}

/** For each vertex the first one within the tolerance of it (often itself). */
function representatives(positions: Float64Array, tolerance: number): Uint32Array {
  const vertexCount = positions.length / 3;
  // Cells two tolerances wide: everything within the tolerance lies in one of the eight cells that p -+ tolerance fall in.
  const inverse = tolerance > 0 ? 1 / (2 * tolerance) : 0;
  const keptFor = new Uint32Array(vertexCount);
  const bits = bitsFor(vertexCount);
  const head = new Int32Array(1 << bits).fill(-1);
  const next = new Int32Array(vertexCount);
  const slotOf = (x: number, y: number, z: number): number => hash(x, y, z) >>> (32 - bits);
  const cell = (p: number): number => (inverse > 0 ? Math.floor(p * inverse) : p);
  const look = (v: number, slot: number): number => {
    for (let other = head[slot]!; other >= 0; other = next[other]!) {
      let squared = 0;
      for (let k = 0; k < 3; k++) squared += (positions[3 * v + k]! - positions[3 * other + k]!) ** 2;
      if (squared <= tolerance * tolerance) return other;
    }
    return -1;
  };
  for (let v = 0; v < vertexCount; v++) {
    const [x, y, z] = triple((k) => positions[3 * v + k]!);
    let found = -1;
    for (let sides = 0; sides < (tolerance > 0 ? 8 : 1) && found < 0; sides++) {
      const shift = (bit: number): number => ((sides >> bit) & 1 ? tolerance : -tolerance);
      found = look(v, slotOf(cell(x + shift(0)), cell(y + shift(1)), cell(z + shift(2))));
    }
    keptFor[v] = found < 0 ? v : found;
    if (found >= 0) continue;
    const slot = slotOf(cell(x), cell(y), cell(z));
    next[v] = head[slot]!;
    head[slot] = v;
  }
  return keptFor;
}

/** Bits of a table about twice as long as the list. */
const bitsFor = (count: number): number => Math.min(24, Math.max(4, Math.ceil(Math.log2(2 * count + 1))));

/** Mixes three numbers to 32 bits; equal numbers (0 and -0 too) mix to the same. */
function hash(x: number, y: number, z: number): number {
  return mix(x) ^ Math.imul(mix(y), 0x9e3779b1) ^ Math.imul(mix(z), 0x85ebca6b);
}

function mix(value: number): number {
  const fraction = value - Math.trunc(value);
  let bits = Math.imul(Math.trunc(value) | 0, 0x27d4eb2f) ^ Math.trunc(fraction * 2147483647);
  bits ^= bits >>> 15;
  return Math.imul(bits, 0x2c1b3c6d);
}
