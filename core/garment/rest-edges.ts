import { triple } from '../mesh/triple.ts';
import type { ClothLevel } from './garment.ts';
import type { FlatTriangle } from './rest-shape.ts';

/** Unstretched edges of a cloth's triangles. */
export interface RestEdges {
  /** From corner k to the next of each triangle, m; 3*T. */
  readonly lengths: Float64Array;
  /** Triangles at each pair of neighbouring vertices, as {@link pairKey} names it. */
  readonly sides: ReadonlyMap<number, readonly number[]>;
  readonly vertexCount: number;
}

/** How even the mesh of a garment is as it lies flat. */
export interface RestQuality {
  readonly triangleCount: number;
  readonly vertexCount: number;
  readonly levelCount: number;
  /** m. */
  readonly edges: { readonly least: number; readonly median: number; readonly most: number };
  /** Smallest of all triangles, rad. */
  readonly leastAngle: number;
}

/**
 * Edges of every triangle as it lies unstretched: both from its first corner are the columns of the rest matrix
 * Dm = restInverse^-1.
 */
export function restEdges({ mesh, restInverse }: ClothLevel): RestEdges {
  const { positions, triangles } = mesh;
  const vertexCount = positions.length / 3;
  const lengths = new Float64Array(triangles.length);
  const sides = new Map<number, number[]>();
  for (let t = 0; 3 * t < triangles.length; t++) {
    const { ax, ay, bx, by } = flatTriangle(restInverse, t);
    lengths.set([Math.hypot(ax, ay), Math.hypot(bx - ax, by - ay), Math.hypot(bx, by)], 3 * t);
    for (let k = 0; k < 3; k++) {
      const key = pairKey(triangles[3 * t + k]!, triangles[3 * t + ((k + 1) % 3)]!, vertexCount);
      const known = sides.get(key);
      if (known) known.push(3 * t + k);
      else sides.set(key, [3 * t + k]);
    }
  }
  return { lengths, sides, vertexCount };
}

/** Both edges from a triangle's first corner, unstretched: columns of the inverse's inverse. */
function flatTriangle(restInverse: Float64Array, t: number): FlatTriangle {
  const [p, q] = [restInverse[4 * t]!, restInverse[4 * t + 1]!];
  const [r, s] = [restInverse[4 * t + 2]!, restInverse[4 * t + 3]!];
  const determinant = p * s - q * r;
  return { ax: s / determinant, ay: -r / determinant, bx: -q / determinant, by: p / determinant };
}

const pairKey = (a: number, b: number, vertexCount: number): number =>
  Math.min(a, b) * vertexCount + Math.max(a, b);

/**
 * Unstretched length of a line along mesh edges, m. Where triangles on both sides of it are eased onto each other, those
 * of `isOwn` count, or the mean.
 *
 * @param pairs - Two neighbouring vertices per segment; 2*S.
 */
export function restLength(
  { lengths, sides, vertexCount }: RestEdges,
  pairs: ArrayLike<number>,
  isOwn: (triangle: number) => boolean = () => true,
): number {
  let length = 0;
  for (let i = 0; i < pairs.length; i += 2) {
    const own = (sides.get(pairKey(pairs[i]!, pairs[i + 1]!, vertexCount)) ?? []).filter((side) =>
      isOwn(Math.floor(side / 3)),
    );
    if (own.length === 0) throw new Error(`No edge between ${pairs[i]} and ${pairs[i + 1]}.`);
    length += own.reduce((sum, side) => sum + lengths[side]!, 0) / own.length;
  }
  return length;
}

/** A run of vertices as pairs of neighbours. */
export const pairsOf = (chain: Uint32Array): number[] =>
  [...chain.subarray(1)].flatMap((v, i) => [chain[i]!, v]);

/** Evenness of the finest mesh, unstretched. */
export function restQuality({ lengths }: RestEdges, levels: readonly ClothLevel[]): RestQuality {
  const sorted = lengths.toSorted();
  const { mesh } = levels.at(-1)!;
  let leastAngle = Math.PI;
  for (let t = 0; t < lengths.length; t += 3) {
    for (let k = 0; k < 3; k++) {
      const [a, b, c] = triple((i) => lengths[t + ((k + i) % 3)]!);
      leastAngle = Math.min(leastAngle, Math.acos((b * b + c * c - a * a) / (2 * b * c)));
    }
  }
  return {
    triangleCount: mesh.triangles.length / 3,
    vertexCount: mesh.positions.length / 3,
    levelCount: levels.length,
    edges: { least: sorted[0]!, median: sorted[sorted.length >> 1]!, most: sorted.at(-1)! },
    leastAngle,
  };
}

/**
 * Unstretched length of the row in which a height cuts the cloth as it is laid, m: of each triangle the piece of the cut,
 * brought back to its unstretched shape. For cloth without flat panels.
 *
 * @param isCounted - Whether a triangle belongs to the row (one leg of two).
 */
export function restRowAt(
  { mesh: { positions, triangles }, restInverse }: ClothLevel,
  height: number,
  isCounted: (triangle: number) => boolean = () => true,
): number {
  let length = 0;
  for (let t = 0; 3 * t < triangles.length; t++) {
    if (!isCounted(t)) continue;
    const y = triple((k) => positions[3 * triangles[3 * t + k]! + 1]! - height);
    // A corner in the plane counts as above it, as in mesh/section.ts.
    const cuts: [number, number][] = [];
    for (let k = 0; k < 3; k++) {
      const next = (k + 1) % 3;
      if (y[k]! >= 0 === y[next]! >= 0) continue;
      const share = y[k]! / (y[k]! - y[next]!);
      const weight = (corner: number): number =>
        (k === corner ? 1 - share : 0) + (next === corner ? share : 0);
      cuts.push([weight(1), weight(2)]);
    }
    const [one, other] = cuts;
    if (!one || !other) continue;
    const [u, v] = [other[0] - one[0], other[1] - one[1]];
    const { ax, ay, bx, by } = flatTriangle(restInverse, t);
    length += Math.hypot(u * ax + v * bx, u * ay + v * by);
  }
  return length;
}
