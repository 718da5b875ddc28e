import type { Rows } from '../mesh/mesh-edges.ts';
import type { BlockPattern } from './block-matrix.ts';

/**
 * The blocks of a sheet whose pieces each join a patch of vertices: every vertex with all others it shares a patch with.
 *
 * @param patches - Vertices of each patch; a vertex of no patch still gets its block on the diagonal.
 */
export function patternOfPatches({ start, list }: Rows, vertexCount: number): BlockPattern {
  const joined = Array.from({ length: vertexCount }, (_, v) => new Set([v]));
  for (let p = 0; p + 1 < start.length; p++) {
    for (let i = start[p]!; i < start[p + 1]!; i++) {
      const row = joined[list[i]!]!;
      for (let j = start[p]!; j < start[p + 1]!; j++) row.add(list[j]!);
    }
  }
  const rowStart = new Uint32Array(vertexCount + 1);
  for (let v = 0; v < vertexCount; v++) rowStart[v + 1] = rowStart[v]! + joined[v]!.size;
  const columns = new Uint32Array(rowStart[vertexCount]!);
  const diagonal = new Uint32Array(vertexCount);
  for (let v = 0; v < vertexCount; v++) {
    const row = Uint32Array.from(joined[v]!).sort();
    columns.set(row, rowStart[v]);
    diagonal[v] = rowStart[v]! + row.indexOf(v);
  }
  return { rowStart, columns, diagonal };
}
