import type { TriangleMesh } from './triangle-mesh.ts';

/** Stands where there is no triangle (beyond a free edge). */
export const NO_TRIANGLE = 0xffffffff;

/** The edges of a mesh, each once. Side k of a triangle runs from its corner k to its corner k + 1. */
export interface MeshEdges {
  /** Two vertices per edge, the lower index first; 2E. */
  readonly vertices: Uint32Array;
  /** Edge of each triangle side; 3T. */
  readonly ofSide: Uint32Array;
  /** The first two triangles of each edge, NO_TRIANGLE where there are fewer; 2E. */
  readonly triangles: Uint32Array;
  /** Number of triangles of each edge: 1 at a free edge, 2 within a surface, more where sheets meet; E. */
  readonly triangleCount: Uint32Array;
}

/** Finds the edges of a mesh; linear in its size. */
export function meshEdges({ positions, triangles }: TriangleMesh): MeshEdges {
  const vertexCount = positions.length / 3;
  const sideCount = triangles.length;
  const lowOf = (side: number): number => Math.min(triangles[side]!, triangles[nextSide(side)]!);
  const highOf = (side: number): number => Math.max(triangles[side]!, triangles[nextSide(side)]!);
  // Sides sorted into one bucket per lower vertex; a bucket holds a handful, so it is searched straight through.
  const start = new Uint32Array(vertexCount + 1);
  for (let side = 0; side < sideCount; side++) start[lowOf(side) + 1]!++;
  for (let v = 0; v < vertexCount; v++) start[v + 1]! += start[v]!;
  const edgesFound = new Uint32Array(vertexCount);
  const edgeHigh = new Uint32Array(sideCount);
  const edgeSlot = new Uint32Array(sideCount);
  const slotOfSide = new Uint32Array(sideCount);
  const usesOfSlot = new Uint32Array(sideCount);
  for (let side = 0; side < sideCount; side++) {
    const low = lowOf(side);
    const high = highOf(side);
    const first = start[low]!;
    const end = first + edgesFound[low]!;
    let slot = first;
    while (slot < end && edgeHigh[slot] !== high) slot++;
    if (slot === end) {
      edgeHigh[slot] = high;
      edgesFound[low]!++;
    }
    slotOfSide[side] = slot;
    usesOfSlot[slot]!++;
  }
  let edgeCount = 0;
  for (let slot = 0; slot < sideCount; slot++) if (usesOfSlot[slot]! > 0) edgeSlot[slot] = edgeCount++;
  const edges = {
    vertices: new Uint32Array(2 * edgeCount),
    ofSide: new Uint32Array(sideCount),
    triangles: new Uint32Array(2 * edgeCount).fill(NO_TRIANGLE),
    triangleCount: new Uint32Array(edgeCount),
  };
  for (let side = 0; side < sideCount; side++) {
    const edge = edgeSlot[slotOfSide[side]!]!;
    edges.ofSide[side] = edge;
    edges.vertices[2 * edge] = lowOf(side);
    edges.vertices[2 * edge + 1] = highOf(side);
    const place = edges.triangleCount[edge]!++;
    if (place < 2) edges.triangles[2 * edge + place] = Math.floor(side / 3);
  }
  return edges;
}

/** The triangle across each side, NO_TRIANGLE beyond a free edge; 3T. */
export function oppositeTriangles({ ofSide, triangles }: MeshEdges): Uint32Array {
  return ofSide.map((edge, side) => {
    const first = triangles[2 * edge]!;
    return first === Math.floor(side / 3) ? triangles[2 * edge + 1]! : first;
  });
}

/** Lists of varying length end to end: those of item i are list[start[i]] up to list[start[i + 1] - 1]. */
export interface Rows {
  readonly start: Uint32Array;
  readonly list: Uint32Array;
}

/** The vertices joined to each vertex by an edge. */
export function vertexNeighbours({ vertices }: MeshEdges, vertexCount: number): Rows {
  const start = new Uint32Array(vertexCount + 1);
  for (const v of vertices) start[v + 1]!++;
  for (let v = 0; v < vertexCount; v++) start[v + 1]! += start[v]!;
  const next = start.slice(0, vertexCount);
  const list = new Uint32Array(vertices.length);
  for (let i = 0; i < vertices.length; i += 2) {
    const a = vertices[i]!;
    const b = vertices[i + 1]!;
    list[next[a]!++] = b;
    list[next[b]!++] = a;
  }
  return { start, list };
}

/** The triangles round each vertex. */
export function vertexTriangles({ positions, triangles }: TriangleMesh): Rows {
  const vertexCount = positions.length / 3;
  const start = new Uint32Array(vertexCount + 1);
  for (const v of triangles) start[v + 1]!++;
  for (let v = 0; v < vertexCount; v++) start[v + 1]! += start[v]!;
  const next = start.slice(0, vertexCount);
  const list = new Uint32Array(triangles.length);
  for (let i = 0; i < triangles.length; i++) list[next[triangles[i]!]!++] = Math.floor(i / 3);
  return { start, list };
}

/** Mean length of the edges, m; 0 for none. */
export function meanEdgeLength({ positions }: TriangleMesh, { vertices }: MeshEdges): number {
  let sum = 0;
  for (let i = 0; i < vertices.length; i += 2) {
    const a = 3 * vertices[i]!;
    const b = 3 * vertices[i + 1]!;
    sum += Math.hypot(
      positions[b]! - positions[a]!,
      positions[b + 1]! - positions[a + 1]!,
      positions[b + 2]! - positions[a + 2]!,
    );
  }
  return vertices.length === 0 ? 0 : (2 * sum) / vertices.length;
}

const nextSide = (side: number): number => (side % 3 === 2 ? side - 2 : side + 1);
