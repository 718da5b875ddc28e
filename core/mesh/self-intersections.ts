import { cellAlong, triangleGrid, type TriangleGrid } from './triangle-grid.ts';
import type { TriangleMesh } from './triangle-mesh.ts';
import type { Triple } from './triple.ts';

/** How often a surface cuts through itself. */
export interface SelfIntersections {
  /** Pairs of triangles that cut through one another. */
  readonly pairCount: number;
  /** A point of the first pair: the middle of one of its triangles; null for none. */
  readonly at: Triple | null;
  /** False where the search was broken off because too many triangles lie in one place. */
  readonly complete: boolean;
}

/** Pairs looked at per triangle on average, beyond which the search ends. A sound skin needs about twenty. */
const MOST_PAIRS = 400;
const PAUSE = 1 << 18;

/**
 * Counts the pairs of triangles that cut through one another: an edge of one passes through the other. Triangles that
 * share a vertex count as well where the edge opposite to it passes through; those that share an edge, and those that lie
 * in one plane, do not.
 *
 * @yields the share of cells looked at.
 * @see Moeller & Trumbore, Fast, minimum storage ray/triangle intersection, J. Graphics Tools 2 (1997) 21.
 */
export function* selfIntersections(mesh: TriangleMesh): Generator<number, SelfIntersections> {
  const grid = triangleGrid(mesh);
  const { start, list } = grid;
  const most = MOST_PAIRS * (mesh.triangles.length / 3) + 1e6;
  let looked = 0;
  let sincePause = 0;
  let pairCount = 0;
  let at: Triple | null = null;
  for (let cell = 0; cell + 1 < start.length; cell++) {
    for (let i = start[cell]!; i < start[cell + 1]!; i++) {
      const t = list[i]!;
      for (let j = i + 1; j < start[cell + 1]!; j++) {
        looked++;
        const u = list[j]!;
        if (!isPairOfCell(grid, cell, t, u) || !doCut(mesh, t, u)) continue;
        pairCount++;
        at ??= middleOf(mesh, t);
      }
      if (looked > most) return { pairCount, at, complete: false };
      if (looked - sincePause > PAUSE) {
        sincePause = looked;
        yield cell / start.length;
      }
    }
  }
  return { pairCount, at, complete: true };
}

/** Boxes that overlap, in this cell for the first time: a pair is looked at once. */
/* oxlint-disable-next-line max-params -- a kernel */
function isPairOfCell(grid: TriangleGrid, cell: number, t: number, u: number): boolean {
  const { boxes, counts } = grid;
  let at = 0;
  for (let k = 2; k >= 0; k--) {
    const low = Math.max(boxes[6 * t + k]!, boxes[6 * u + k]!);
    if (low > boxes[6 * t + 3 + k]! || low > boxes[6 * u + 3 + k]!) return false;
    at = at * counts[k]! + cellAlong(grid, k, low);
  }
  return at === cell;
}

/** Whether an edge of one triangle passes through the other; never for triangles that share an edge. */
function doCut(mesh: TriangleMesh, t: number, u: number): boolean {
  const { triangles } = mesh;
  let sharedT = -1;
  let sharedU = -1;
  let sharedCount = 0;
  for (let i = 0; i < 3; i++)
    for (let j = 0; j < 3; j++)
      if (triangles[3 * t + i] === triangles[3 * u + j] || isOnePlace(mesh, 3 * t + i, 3 * u + j)) {
        sharedCount++;
        sharedT = i;
        sharedU = j;
      }
  if (sharedCount >= 2) return false;
  if (sharedCount === 1) return passes(mesh, t, sharedT + 1, u) || passes(mesh, u, sharedU + 1, t);
  for (let side = 0; side < 3; side++) if (passes(mesh, t, side, u) || passes(mesh, u, side, t)) return true;
  return false;
}

/** Vertices that were set apart on purpose, where sheets touch, still lie in one place. */
function isOnePlace({ positions, triangles }: TriangleMesh, a: number, b: number): boolean {
  const [p, q] = [3 * triangles[a]!, 3 * triangles[b]!];
  return (
    positions[p] === positions[q] &&
    positions[p + 1] === positions[q + 1] &&
    positions[p + 2] === positions[q + 2]
  );
}

/** Whether side `side` (mod 3) of t passes through the inside of u. */
/* oxlint-disable-next-line max-params -- a kernel */
function passes({ positions, triangles }: TriangleMesh, t: number, side: number, u: number): boolean {
  const p = 3 * triangles[3 * t + (side % 3)]!;
  const q = 3 * triangles[3 * t + ((side + 1) % 3)]!;
  const a = 3 * triangles[3 * u]!;
  const b = 3 * triangles[3 * u + 1]!;
  const c = 3 * triangles[3 * u + 2]!;
  const at = (i: number, k: number): number => positions[i + k]! - positions[a + k]!;
  const [e1x, e1y, e1z] = [at(b, 0), at(b, 1), at(b, 2)];
  const [e2x, e2y, e2z] = [at(c, 0), at(c, 1), at(c, 2)];
  const [nx, ny, nz] = [e1y * e2z - e1z * e2y, e1z * e2x - e1x * e2z, e1x * e2y - e1y * e2x];
  const [px, py, pz] = [at(p, 0), at(p, 1), at(p, 2)];
  const heightP = px * nx + py * ny + pz * nz;
  const heightQ = at(q, 0) * nx + at(q, 1) * ny + at(q, 2) * nz;
  if (heightP * heightQ >= 0) return false;
  const s = heightP / (heightP - heightQ);
  const x = px + s * (at(q, 0) - px);
  const y = py + s * (at(q, 1) - py);
  const z = pz + s * (at(q, 2) - pz);
  const area = nx * nx + ny * ny + nz * nz;
  // Barycentric: v = n . (x x e2) and w = n . (e1 x x), over |n|^2.
  const v = nx * (y * e2z - z * e2y) + ny * (z * e2x - x * e2z) + nz * (x * e2y - y * e2x);
  const w = nx * (e1y * z - e1z * y) + ny * (e1z * x - e1x * z) + nz * (e1x * y - e1y * x);
  const eps = 1e-9 * area;
  return v > eps && w > eps && v + w < area - eps;
}

function middleOf({ positions, triangles }: TriangleMesh, t: number): Triple {
  const mean = (k: number): number =>
    (positions[3 * triangles[3 * t]! + k]! +
      positions[3 * triangles[3 * t + 1]! + k]! +
      positions[3 * triangles[3 * t + 2]! + k]!) /
    3;
  return [mean(0), mean(1), mean(2)];
}
