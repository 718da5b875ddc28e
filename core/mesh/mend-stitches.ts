import { joinedGroups } from '../units/joined-groups.ts';
import { meshEdges, type MeshEdges } from './mesh-edges.ts';
import { triangleNormals } from './triangle-areas.ts';
import type { TriangleMesh } from './triangle-mesh.ts';

/** Stands where a side has no other beside it. */
export const FREE = -1;

/** More sheets than this along one edge are not sorted out. */
const MOST_SHEETS = 16;

/** Which triangles hang together over which sides. */
export interface Stitches {
  /** For each triangle side the side it is sewn to, FREE where there is none; 3T. */
  readonly across: Int32Array;
  /** Edges where more than two triangles meet. */
  readonly crowdedCount: number;
}

/**
 * Sews every triangle side to one other: the only other at its edge, or, where more than two meet, pair by pair those
 * that continue one another most nearly flat. So surfaces that touch along an edge stay apart, and a fin is cut loose
 * from the skin that it stands on.
 */
export function stitchesOf(mesh: TriangleMesh): Stitches {
  const edges = meshEdges(mesh);
  const across = new Int32Array(mesh.triangles.length).fill(FREE);
  const first = new Int32Array(edges.triangleCount.length).fill(FREE);
  for (let side = 0; side < across.length; side++) {
    const edge = edges.ofSide[side]!;
    if (edges.triangleCount[edge] !== 2) continue;
    const other = first[edge]!;
    if (other === FREE) first[edge] = side;
    else {
      across[side] = other;
      across[other] = side;
    }
  }
  return { across, crowdedCount: sewCrowded(mesh, edges, across) };
}

/** Sews the sides of edges with more than two triangles into `across`; how many such edges there are. */
function sewCrowded(mesh: TriangleMesh, edges: MeshEdges, across: Int32Array): number {
  const sidesOf = new Map<number, number[]>();
  edges.ofSide.forEach((edge, side) => {
    if (edges.triangleCount[edge]! <= 2) return;
    const sides = sidesOf.get(edge);
    if (sides === undefined) sidesOf.set(edge, [side]);
    else sides.push(side);
  });
  if (sidesOf.size === 0) return 0;
  const normals = triangleNormals(mesh);
  for (const sides of sidesOf.values()) {
    if (sides.length > MOST_SHEETS) continue;
    const pairs = sides.flatMap((one, i) =>
      sides.slice(i + 1).map((other) => ({ one, other, flatness: flatness(mesh, normals, one, other) })),
    );
    pairs.sort((a, b) => b.flatness - a.flatness);
    for (const { one, other } of pairs) {
      if (across[one] !== FREE || across[other] !== FREE) continue;
      across[one] = other;
      across[other] = one;
    }
  }
  return sidesOf.size;
}

/** Cosine of the turn from one triangle on to the other, whichever way they face. */
/* oxlint-disable-next-line max-params -- flat arrays and two indices */
function flatness(mesh: TriangleMesh, normals: Float64Array, one: number, other: number): number {
  // Sides that run the same way belong to triangles that face opposite sides.
  const sign = mesh.triangles[one] === mesh.triangles[other] ? -1 : 1;
  const [a, b] = [one - (one % 3), other - (other % 3)];
  let dot = 0;
  for (let k = 0; k < 3; k++) dot += normals[a + k]! * normals[b + k]!;
  return sign * dot;
}

/** Which piece each triangle belongs to, going over sewn sides; the pieces count from 0. */
export function piecesOf({ across }: Stitches): { pieceOf: Int32Array; pieceCount: number } {
  const pieceOf = new Int32Array(across.length / 3).fill(-1);
  let pieceCount = 0;
  const open: number[] = [];
  for (let first = 0; first < pieceOf.length; first++) {
    if (pieceOf[first]! >= 0) continue;
    pieceOf[first] = pieceCount;
    open.push(first);
    while (open.length > 0) {
      const t = open.pop()!;
      for (let side = 3 * t; side < 3 * t + 3; side++) {
        if (across[side] === FREE) continue;
        const next = Math.floor(across[side]! / 3);
        if (pieceOf[next]! >= 0) continue;
        pieceOf[next] = pieceCount;
        open.push(next);
      }
    }
    pieceCount++;
  }
  return { pieceOf, pieceCount };
}

/**
 * Gives every fan of triangles round a vertex a vertex of its own, so that what is not sewn does not touch: afterwards
 * edges have at most two triangles, and holes are simple loops.
 *
 * @param stitches - Of the mesh, whose sewn triangles all face the same side.
 */
export function splitFans({ positions, triangles }: TriangleMesh, { across }: Stitches): TriangleMesh {
  // Corners that are one and the same: those at both ends of a sewn side.
  const { leadOf, join } = joinedGroups(triangles.length);
  for (let side = 0; side < across.length; side++) {
    const other = across[side]!;
    if (other < side) continue;
    join(side, nextCorner(other));
    join(nextCorner(side), other);
  }
  const isTaken = new Uint8Array(positions.length / 3);
  const vertexOf = new Int32Array(triangles.length).fill(-1);
  const added: number[] = [];
  const split = triangles.slice();
  for (let corner = 0; corner < triangles.length; corner++) {
    const at = leadOf(corner);
    const v = triangles[at]!;
    if (vertexOf[at]! < 0) {
      if (isTaken[v]) vertexOf[at] = positions.length / 3 + added.push(v) - 1;
      else vertexOf[at] = v;
      isTaken[v] = 1;
    }
    split[corner] = vertexOf[at]!;
  }
  if (added.length === 0) return { positions, triangles: split };
  const all = new Float64Array(positions.length + 3 * added.length);
  all.set(positions);
  added.forEach((v, i) => all.set(positions.subarray(3 * v, 3 * v + 3), positions.length + 3 * i));
  return { positions: all, triangles: split };
}

const nextCorner = (corner: number): number => (corner % 3 === 2 ? corner - 2 : corner + 1);
