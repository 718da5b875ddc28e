import type { Rows } from '../mesh/mesh-edges.ts';
import type { BlockPattern } from './block-matrix.ts';

/**
 * The blocks of a sheet whose pieces each join a patch of vertices: every vertex with all others it shares a patch with.
 *
 * @param patches - Vertices of each patch; a vertex of no patch still gets its block on the diagonal.
 */
export function patternOfPatches({ start, list }: Rows, vertexCount: number): BlockPattern {
  const around = patchesOf({ start, list }, vertexCount);
  const joinedBy = new Int32Array(vertexCount).fill(-1);
  const rowStart = new Uint32Array(vertexCount + 1);
  const diagonal = new Uint32Array(vertexCount);
  const columns: number[] = [];
  for (let v = 0; v < vertexCount; v++) {
    const row = [v];
    joinedBy[v] = v;
    for (let a = around.start[v]!; a < around.start[v + 1]!; a++) {
      const p = around.list[a]!;
      for (let j = start[p]!; j < start[p + 1]!; j++) {
        const other = list[j]!;
        if (joinedBy[other] === v) continue;
        joinedBy[other] = v;
        row.push(other);
      }
    }
    row.sort((a, b) => a - b);
    diagonal[v] = columns.length + row.indexOf(v);
    for (const column of row) columns.push(column);
    rowStart[v + 1] = columns.length;
  }
  return { rowStart, columns: Uint32Array.from(columns), diagonal };
}

/** The patches that each vertex belongs to. */
function patchesOf({ start, list }: Rows, vertexCount: number): Rows {
  const first = new Uint32Array(vertexCount + 1);
  for (const vertex of list) first[vertex + 1]!++;
  for (let v = 0; v < vertexCount; v++) first[v + 1]! += first[v]!;
  const next = first.slice(0, vertexCount);
  const patches = new Uint32Array(list.length);
  for (let p = 0; p + 1 < start.length; p++) {
    for (let i = start[p]!; i < start[p + 1]!; i++) patches[next[list[i]!]!++] = p;
  }
  return { start: first, list: patches };
}
