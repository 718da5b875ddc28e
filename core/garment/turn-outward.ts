import { vertexTriangles } from '../mesh/mesh-edges.ts';
import { triangleAreaVectors } from '../mesh/triangle-areas.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import type { ClothLevel } from './garment.ts';
import type { SkinUnder } from './skin-under.ts';

/** Triangles of the pieces that lie inside out. */
export interface InwardTriangles {
  /** 1 where a triangle is to be turned; T. */
  readonly turned: Uint8Array;
  /** Of the whole cloth's area. */
  readonly share: number;
}

/** Cloth of which less than this share faces the body has no piece worth turning. */
const WORTH_LOOKING = 0.01;

/**
 * Finds the pieces of a cloth whose larger part faces the body: normal . gradient < 0 at more than half of the area.
 * Folds of a piece that lies right are left alone.
 *
 * @returns Null where every piece faces outwards.
 */
export function inwardTriangles(mesh: TriangleMesh, under: SkinUnder): InwardTriangles | null {
  const { areas, inward } = facing(mesh, under);
  const total = sumOver(areas, () => true);
  if (sumOver(areas, (t) => inward[t] === 1) <= WORTH_LOOKING * total) return null;
  const piece = piecesOf(mesh);
  const count = piece.reduce((most, p) => Math.max(most, p), -1) + 1;
  const balance = new Float64Array(count);
  areas.forEach((area, t) => (balance[piece[t]!]! += inward[t] ? area : -area));
  const turned = Uint8Array.from(piece, (p) => (balance[p]! > 0 ? 1 : 0));
  const share = sumOver(areas, (t) => turned[t] === 1) / total;
  return share > 0 ? { turned, share } : null;
}

/** Area of each triangle, m^2, and whether it faces the body; T each. */
function facing(mesh: TriangleMesh, { gradient }: SkinUnder): { areas: Float64Array; inward: Uint8Array } {
  const { triangles } = mesh;
  const vectors = triangleAreaVectors(mesh);
  const areas = new Float64Array(vectors.length / 3);
  const inward = new Uint8Array(areas.length);
  for (let t = 0; t < areas.length; t++) {
    let squared = 0;
    let along = 0;
    for (let k = 0; k < 3; k++) {
      const a = vectors[3 * t + k]!;
      squared += a * a;
      for (let corner = 0; corner < 3; corner++) along += a * gradient[3 * triangles[3 * t + corner]! + k]!;
    }
    areas[t] = Math.sqrt(squared);
    if (along < 0) inward[t] = 1;
  }
  return { areas, inward };
}

function sumOver(values: Float64Array, isCounted: (i: number) => boolean): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) if (isCounted(i)) sum += values[i]!;
  return sum;
}

/** Which connected piece each triangle belongs to, counted from 0; T. */
function piecesOf(mesh: TriangleMesh): Int32Array {
  const { triangles } = mesh;
  const around = vertexTriangles(mesh);
  const piece = new Int32Array(triangles.length / 3).fill(-1);
  let count = 0;
  for (let first = 0; first < piece.length; first++) {
    if (piece[first]! >= 0) continue;
    piece[first] = count;
    const open = [first];
    while (open.length > 0) {
      const t = open.pop()!;
      for (let corner = 0; corner < 3; corner++) {
        const v = triangles[3 * t + corner]!;
        for (let i = around.start[v]!; i < around.start[v + 1]!; i++) {
          const next = around.list[i]!;
          if (piece[next]! >= 0) continue;
          piece[next] = count;
          open.push(next);
        }
      }
    }
    count++;
  }
  return piece;
}

/**
 * A level with some triangles turned over: their second and third corner change places, and with them the rows of the
 * unstretched shape, so that warp and weft stay where they are.
 */
export function turnTriangles(level: ClothLevel, turned: Uint8Array): ClothLevel {
  const triangles = level.mesh.triangles.slice();
  turned.forEach((isTurned, t) => {
    if (!isTurned) return;
    triangles[3 * t + 1] = level.mesh.triangles[3 * t + 2]!;
    triangles[3 * t + 2] = level.mesh.triangles[3 * t + 1]!;
  });
  return {
    ...level,
    mesh: { ...level.mesh, triangles },
    restInverse: swappedRows(level.restInverse, (t) => turned[t] === 1),
    ...(level.linings && {
      linings: level.linings.map((lining) => ({
        ...lining,
        restInverse: swappedRows(lining.restInverse, (i) => turned[lining.triangles[i]!] === 1),
      })),
    }),
  };
}

/** 2x2 matrices, row-major, with their rows swapped where asked. */
function swappedRows(matrices: Float64Array, isSwapped: (i: number) => boolean): Float64Array {
  return matrices.map((value, at) => (isSwapped(at >> 2) ? matrices[at ^ 2]! : value));
}
