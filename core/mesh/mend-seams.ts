import { meshEdges } from './mesh-edges.ts';
import type { TriangleMesh } from './triangle-mesh.ts';
import { seamTolerance, weld } from './weld.ts';

/** A mesh whose seams are joined. Triangles keep their number and order; some may have a corner twice now. */
export interface SeamsJoined {
  readonly mesh: TriangleMesh;
  /** Vertices given up for one at the very same place. */
  readonly equalCount: number;
  /** Vertices given up for one close by. */
  readonly nearCount: number;
  /** How close, along free edges; unit of the mesh. */
  readonly tolerance: number;
}

/** Free edges are joined across gaps up to this share of the mesh's largest extent: 0.1 mm on a person 1.7 m tall. */
const GAP_SHARE = 6e-5;

/**
 * Joins vertices that are one: first those at the very same place, then those that single precision cannot tell apart,
 * then, along free edges only, those a hair's breadth apart (at most a quarter of the shortest free edge, so that
 * nothing small is lost). A surface without free edges needs no more than the first.
 *
 * @param mesh - In any unit. Vertices that no triangle names stay, unused.
 */
export function joinSeams(mesh: TriangleMesh): SeamsJoined {
  const equal = equalVertices(mesh.positions);
  const once = renumbered(mesh, equal.keptFor);
  if (rimOf(once).vertices.length === 0) {
    return { mesh: once, equalCount: equal.joinedCount, nearCount: 0, tolerance: 0 };
  }
  const fine = nearVertices(once, seamTolerance(mesh.positions), null);
  const twice = renumbered(once, fine.keptFor);
  const rim = rimOf(twice);
  const tolerance = Math.min((GAP_SHARE / 1e-6) * seamTolerance(mesh.positions), rim.shortest / 4);
  const coarse = nearVertices(twice, tolerance, rim.vertices);
  return {
    mesh: renumbered(twice, coarse.keptFor),
    equalCount: equal.joinedCount,
    nearCount: fine.joinedCount + coarse.joinedCount,
    tolerance,
  };
}

interface Joined {
  /** For each vertex the one that stands for it; V. */
  readonly keptFor: Uint32Array;
  readonly joinedCount: number;
}

const renumbered = ({ positions, triangles }: TriangleMesh, keptFor: Uint32Array): TriangleMesh => ({
  positions,
  triangles: triangles.map((v) => keptFor[v]!),
});

/** Vertices whose three numbers are the same to the bit (0 and -0 are the same). */
function equalVertices(positions: Float64Array): Joined {
  const vertexCount = positions.length / 3;
  const bits = Math.min(24, Math.max(4, Math.ceil(Math.log2(2 * vertexCount + 1))));
  const head = new Int32Array(1 << bits).fill(-1);
  const next = new Int32Array(vertexCount);
  const keptFor = new Uint32Array(vertexCount);
  const number = new Float64Array(3);
  const words = new Uint32Array(number.buffer);
  let joinedCount = 0;
  for (let v = 0; v < vertexCount; v++) {
    let hash = 0;
    for (let k = 0; k < 3; k++) number[k] = positions[3 * v + k]! + 0;
    for (const word of words) {
      hash = Math.imul(hash ^ word, 0x9e3779b1);
      hash ^= hash >>> 15;
    }
    const slot = Math.imul(hash, 0x85ebca6b) >>> (32 - bits);
    let other = head[slot]!;
    while (other >= 0 && !isSame(positions, other, v)) other = next[other]!;
    keptFor[v] = other < 0 ? v : other;
    if (other >= 0) {
      joinedCount++;
      continue;
    }
    next[v] = head[slot]!;
    head[slot] = v;
  }
  return { keptFor, joinedCount };
}

const isSame = (positions: Float64Array, a: number, b: number): boolean =>
  positions[3 * a] === positions[3 * b] &&
  positions[3 * a + 1] === positions[3 * b + 1] &&
  positions[3 * a + 2] === positions[3 * b + 2];

/** Vertices within the tolerance of one another, among those named; null for all that a triangle uses. */
function nearVertices(
  { positions, triangles }: TriangleMesh,
  tolerance: number,
  among: readonly number[] | null,
): Joined {
  const keptFor = Uint32Array.from({ length: positions.length / 3 }, (_, v) => v);
  if (!(tolerance > 0)) return { keptFor, joinedCount: 0 };
  const vertices = among ?? usedVertices(triangles, keptFor.length);
  const own = new Float64Array(3 * vertices.length);
  vertices.forEach((v, i) => {
    for (let k = 0; k < 3; k++) own[3 * i + k] = positions[3 * v + k]!;
  });
  const { keptFor: local, joinedCount } = weld({ positions: own, triangles: new Uint32Array() }, tolerance);
  vertices.forEach((v, i) => {
    keptFor[v] = vertices[local[i]!]!;
  });
  return { keptFor, joinedCount };
}

function usedVertices(triangles: Uint32Array, vertexCount: number): number[] {
  const isUsed = new Uint8Array(vertexCount);
  for (const v of triangles) isUsed[v] = 1;
  const used: number[] = [];
  isUsed.forEach((value, v) => {
    if (value) used.push(v);
  });
  return used;
}

/** Vertices of free edges, and the shortest of these edges that has any length; Infinity for none. */
function rimOf(mesh: TriangleMesh): { vertices: number[]; shortest: number } {
  const { vertices, triangleCount } = meshEdges(mesh);
  const onRim = new Set<number>();
  let shortest = Infinity;
  triangleCount.forEach((count, edge) => {
    const a = vertices[2 * edge]!;
    const b = vertices[2 * edge + 1]!;
    if (count !== 1 || a === b) return;
    onRim.add(a).add(b);
    let squared = 0;
    for (let k = 0; k < 3; k++) squared += (mesh.positions[3 * a + k]! - mesh.positions[3 * b + k]!) ** 2;
    if (squared > 0) shortest = Math.min(shortest, Math.sqrt(squared));
  });
  return { vertices: [...onRim].sort((a, b) => a - b), shortest };
}
