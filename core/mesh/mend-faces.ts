import { keptTriangles } from './merge-meshes.ts';
import type { TriangleMesh } from './triangle-mesh.ts';

/** A mesh without triangles that are none. */
export interface FacesMended {
  /** 1 for triangles to keep; T. */
  readonly isKept: Uint8Array;
  /** Triangles with a corner twice. */
  readonly flatCount: number;
  /** Triangles that were there before, facing either way: some programs write every face from both sides. */
  readonly doubledCount: number;
}

/** Finds triangles that have a corner twice, and those with the same three corners as another. */
export function facesToKeep({ triangles }: TriangleMesh): FacesMended {
  const triangleCount = triangles.length / 3;
  const isKept = new Uint8Array(triangleCount).fill(1);
  const bits = Math.min(24, Math.max(4, Math.ceil(Math.log2(2 * triangleCount + 1))));
  const head = new Int32Array(1 << bits).fill(-1);
  const next = new Int32Array(triangleCount);
  let flatCount = 0;
  let doubledCount = 0;
  for (let t = 0; t < triangleCount; t++) {
    const [a, b, c] = lowestFirst(triangles, t);
    if (a === b || b === c || c === a) {
      isKept[t] = 0;
      flatCount++;
      continue;
    }
    const slot = mixed(a, Math.min(b, c), Math.max(b, c)) >>> (32 - bits);
    let other = head[slot]!;
    while (other >= 0 && !isSame(triangles, other, t)) other = next[other]!;
    if (other < 0) {
      next[t] = head[slot]!;
      head[slot] = t;
      continue;
    }
    isKept[t] = 0;
    doubledCount++;
  }
  return { isKept, flatCount, doubledCount };
}

/** Whether two triangles have the same three corners, in whatever order. */
function isSame(triangles: Uint32Array, t: number, u: number): boolean {
  const [a, b, c] = lowestFirst(triangles, t);
  const [d, e, f] = lowestFirst(triangles, u);
  return a === d && ((b === e && c === f) || (b === f && c === e));
}

/** Corners of a triangle in their order, the lowest first. */
function lowestFirst(triangles: Uint32Array, t: number): [number, number, number] {
  const a = triangles[3 * t]!;
  const b = triangles[3 * t + 1]!;
  const c = triangles[3 * t + 2]!;
  if (a <= b && a <= c) return [a, b, c];
  return b <= c ? [b, c, a] : [c, a, b];
}

function mixed(a: number, b: number, c: number): number {
  let hash = 0;
  for (const word of [a, b, c]) {
    hash = Math.imul(hash ^ word, 0x9e3779b1);
    hash ^= hash >>> 15;
  }
  return Math.imul(hash, 0x85ebca6b);
}

/** The mesh without them; the same mesh where all are kept. */
export const withoutFaces = (mesh: TriangleMesh, { isKept }: FacesMended): TriangleMesh =>
  isKept.includes(0) ? keptTriangles(mesh, isKept) : mesh;
