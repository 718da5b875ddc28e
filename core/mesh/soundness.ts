import { Fault } from '../fault/fault.ts';
import type { PlaceMm } from '../fault/body-faults.ts';
import { mmFromMetres } from '../units/units.ts';
import { meshEdges, oppositeTriangles, vertexTriangles, type MeshEdges } from './mesh-edges.ts';
import { enclosedVolume } from './triangle-areas.ts';
import type { TriangleMesh } from './triangle-mesh.ts';

/** A surface this little filled is flat, m^3. */
const LEAST_VOLUME = 1e-9;

/**
 * Makes sure that a mesh can be computed with at all: it has triangles, finite coordinates, indices in range, and no
 * triangle with the same corner twice.
 *
 * @throws {Fault} `mesh/no-triangles`, `mesh/not-finite`, `mesh/bad-index`, `mesh/repeated-corner`.
 */
export function requireUsable({ positions, triangles }: TriangleMesh): void {
  const vertexCount = positions.length / 3;
  if (triangles.length === 0) throw new Fault('mesh/no-triangles', { vertexCount });
  const odd = positions.findIndex((value) => !Number.isFinite(value));
  if (odd >= 0) {
    throw new Fault('mesh/not-finite', {
      vertex: Math.floor(odd / 3) + 1,
      line: null,
      value: String(positions[odd]),
    });
  }
  const beyond = triangles.findIndex((v) => v >= vertexCount);
  if (beyond >= 0) {
    throw new Fault('mesh/bad-index', {
      line: null,
      triangle: Math.floor(beyond / 3) + 1,
      value: String(triangles[beyond]! + 1),
      vertexCount,
    });
  }
  requireThreeCorners(triangles);
}

function requireThreeCorners(triangles: Uint32Array): void {
  let count = 0;
  let first = { triangle: 0, vertex: 0 };
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [triangles[i]!, triangles[i + 1]!, triangles[i + 2]!];
    if (a !== b && b !== c && c !== a) continue;
    count++;
    if (count === 1) first = { triangle: i / 3 + 1, vertex: (a === b || a === c ? a : b) + 1 };
  }
  if (count > 0) throw new Fault('mesh/repeated-corner', { ...first, count });
}

/**
 * Makes sure that a usable mesh separates inside from outside: every edge between exactly two triangles that run
 * through it in opposite directions, and a volume that is not nothing. Which side is out is left to `enclosedVolume`;
 * surfaces that cut through themselves are not looked for.
 *
 * @param edges - Of the mesh, if at hand.
 * @throws {Fault} `mesh/open`, `mesh/sheets-meet`, `mesh/turned-triangle`, `mesh/no-volume`.
 */
export function requireClosed(mesh: TriangleMesh, edges: MeshEdges = meshEdges(mesh)): void {
  const { triangleCount } = edges;
  const tooMany = indicesWhere(triangleCount, (count) => count > 2);
  if (tooMany.length > 0) {
    throw new Fault('mesh/sheets-meet', {
      edgeCount: tooMany.length,
      sheetCount: triangleCount[tooMany[0]!]!,
      ...middleOf(mesh, edges, tooMany[0]!),
    });
  }
  const free = indicesWhere(triangleCount, (count) => count < 2);
  if (free.length > 0) {
    throw new Fault('mesh/open', { edgeCount: free.length, ...middleOf(mesh, edges, free[0]!) });
  }
  requireOneSide(mesh, edges);
  const volume = enclosedVolume(mesh);
  if (!(Math.abs(volume) > LEAST_VOLUME)) throw new Fault('mesh/no-volume', { volumeCm3: volume * 1e6 });
}

/** Number of free edges: 0 for a closed mesh. */
export const freeEdgeCount = ({ triangleCount }: MeshEdges): number =>
  indicesWhere(triangleCount, (count) => count === 1).length;

/** Both triangles of an edge must run through it in opposite directions. */
function requireOneSide(mesh: TriangleMesh, edges: MeshEdges): void {
  const { triangles } = mesh;
  const balance = new Int8Array(edges.triangleCount.length);
  for (let side = 0; side < triangles.length; side++) {
    const from = triangles[side]!;
    balance[edges.ofSide[side]!]! += from === edges.vertices[2 * edges.ofSide[side]!]! ? 1 : -1;
  }
  const turned = indicesWhere(balance, (value) => value !== 0);
  if (turned.length === 0) return;
  throw new Fault('mesh/turned-triangle', {
    edgeCount: turned.length,
    triangle: edges.triangles[2 * turned[0]!]! + 1,
    ...middleOf(mesh, edges, turned[0]!),
  });
}

/** Vertices where two or more fans of triangles touch in a point. For a closed mesh. */
export function pinchedVertexCount(mesh: TriangleMesh, edges: MeshEdges): number {
  const opposite = oppositeTriangles(edges);
  const { start, list } = vertexTriangles(mesh);
  let count = 0;
  for (let v = 0; v < start.length - 1; v++) {
    const size = start[v + 1]! - start[v]!;
    if (size === 0) continue;
    const first = list[start[v]!]!;
    let t = first;
    let walked = 0;
    do {
      // Across the side that arrives at v, into the next triangle of its fan.
      const corner = [0, 1, 2].find((k) => mesh.triangles[3 * t + k] === v) ?? 0;
      t = opposite[3 * t + ((corner + 2) % 3)]!;
      walked++;
    } while (t !== first && walked < size);
    if (walked < size) count++;
  }
  return count;
}

/** Number of pieces that hang together over edges. */
export function pieceCount(mesh: TriangleMesh, edges: MeshEdges): number {
  const opposite = oppositeTriangles(edges);
  const seen = new Uint8Array(mesh.triangles.length / 3);
  let count = 0;
  for (let first = 0; first < seen.length; first++) {
    if (seen[first]) continue;
    count++;
    seen[first] = 1;
    const open = [first];
    while (open.length > 0) {
      const t = open.pop()!;
      for (let side = 3 * t; side < 3 * t + 3; side++) {
        const next = opposite[side]!;
        if (next >= seen.length || seen[next]) continue;
        seen[next] = 1;
        open.push(next);
      }
    }
  }
  return count;
}

function indicesWhere(values: Uint32Array | Int8Array, holds: (value: number) => boolean): number[] {
  const found: number[] = [];
  values.forEach((value, i) => {
    if (holds(value)) found.push(i);
  });
  return found;
}

function middleOf({ positions }: TriangleMesh, { vertices }: MeshEdges, edge: number): PlaceMm {
  const a = 3 * vertices[2 * edge]!;
  const b = 3 * vertices[2 * edge + 1]!;
  const middle = (k: number): number => mmFromMetres((positions[a + k]! + positions[b + k]!) / 2);
  return { xMm: middle(0), yMm: middle(1), zMm: middle(2) };
}
