import { meshEdges, NO_TRIANGLE, vertexNeighbours } from '../mesh/mesh-edges.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';

/** A part of a skin. */
export interface SkinPatch {
  readonly mesh: TriangleMesh;
  /** Vertex of the whole skin that each vertex of the patch is. */
  readonly bodyVertex: Uint32Array;
  /** Triangle of the whole skin that each triangle of the patch is. */
  readonly bodyTriangle: Uint32Array;
  /** Triangle of the patch that each triangle of the whole skin is, NO_TRIANGLE where it is none. */
  readonly triangleOf: Uint32Array;
}

/**
 * The skin within some reach of given triangles, measured along its edges. Each vertex has a reach of its own: thick flesh
 * feels what presses farther away.
 *
 * @param seeds - Triangles that belong to it in any case.
 * @param reach - m; V.
 */
export function skinPatch(skin: TriangleMesh, seeds: Uint32Array, reach: Float64Array): SkinPatch {
  const away = edgeDistances(skin, seeds, reach);
  const seeded = new Uint8Array(skin.triangles.length / 3);
  for (const t of seeds) seeded[t] = 1;
  const isNear = Uint8Array.from(reach, (own, v) => (away[v]! <= own ? 1 : 0));
  return partOf(skin, isNear, (t) => seeded[t] === 1);
}

/** The skin whose corners lie within the box of some points grown by some way, m; all of it, if none does. */
export function skinNear(skin: TriangleMesh, points: Float64Array, way: number): SkinPatch {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < points.length; i++) {
    low[i % 3] = Math.min(low[i % 3]!, points[i]! - way);
    high[i % 3] = Math.max(high[i % 3]!, points[i]! + way);
  }
  const isNear = new Uint8Array(skin.positions.length / 3);
  for (let v = 0; v < isNear.length; v++) {
    const inside = (k: number) =>
      skin.positions[3 * v + k]! >= low[k]! && skin.positions[3 * v + k]! <= high[k]!;
    isNear[v] = inside(0) && inside(1) && inside(2) ? 1 : 0;
  }
  const part = partOf(skin, isNear);
  return part.bodyTriangle.length > 0 ? part : partOf(skin, isNear.fill(1));
}

/** The triangles with three near corners, and those that are chosen otherwise. */
function partOf(
  { positions, triangles }: TriangleMesh,
  isNear: Uint8Array,
  isChosen: (t: number) => boolean = () => false,
): SkinPatch {
  const triangleOf = new Uint32Array(triangles.length / 3).fill(NO_TRIANGLE);
  const patchVertex = new Int32Array(positions.length / 3).fill(-1);
  const bodyVertex: number[] = [];
  const bodyTriangle: number[] = [];
  const corners: number[] = [];
  for (let t = 0; t < triangleOf.length; t++) {
    const nearCorners =
      isNear[triangles[3 * t]!]! + isNear[triangles[3 * t + 1]!]! + isNear[triangles[3 * t + 2]!]!;
    if (nearCorners < 3 && !isChosen(t)) continue;
    triangleOf[t] = bodyTriangle.push(t) - 1;
    for (let corner = 3 * t; corner < 3 * t + 3; corner++) {
      const v = triangles[corner]!;
      if (patchVertex[v]! < 0) patchVertex[v] = bodyVertex.push(v) - 1;
      corners.push(patchVertex[v]!);
    }
  }
  const mesh = { positions: new Float64Array(3 * bodyVertex.length), triangles: Uint32Array.from(corners) };
  bodyVertex.forEach((v, own) => mesh.positions.set(positions.subarray(3 * v, 3 * v + 3), 3 * own));
  return {
    mesh,
    bodyVertex: Uint32Array.from(bodyVertex),
    bodyTriangle: Uint32Array.from(bodyTriangle),
    triangleOf,
  };
}

/** Shortest way along edges from the seeds, m; exact wherever it is within the largest reach, Infinity far beyond. */
function edgeDistances(skin: TriangleMesh, seeds: Uint32Array, reach: Float64Array): Float64Array {
  const { positions, triangles } = skin;
  const { start, list } = vertexNeighbours(meshEdges(skin), reach.length);
  const farthest = reach.reduce((most, one) => Math.max(most, one), 0);
  const away = new Float64Array(reach.length).fill(Infinity);
  const queued = new Uint8Array(reach.length);
  let open: number[] = [];
  for (const t of seeds) {
    for (const v of triangles.subarray(3 * t, 3 * t + 3)) {
      if (away[v] === 0) continue;
      away[v] = 0;
      open.push(v);
    }
  }
  // Rings of vertices: each round asks the neighbours of those that came nearer in the last one.
  while (open.length > 0) {
    const next: number[] = [];
    for (const v of open) queued[v] = 0;
    for (const v of open) {
      for (let i = start[v]!; i < start[v + 1]!; i++) {
        const other = list[i]!;
        const way =
          away[v]! +
          Math.hypot(
            positions[3 * other]! - positions[3 * v]!,
            positions[3 * other + 1]! - positions[3 * v + 1]!,
            positions[3 * other + 2]! - positions[3 * v + 2]!,
          );
        if (way >= away[other]! || way > farthest) continue;
        away[other] = way;
        if (queued[other]) continue;
        queued[other] = 1;
        next.push(other);
      }
    }
    open = next;
  }
  return away;
}
