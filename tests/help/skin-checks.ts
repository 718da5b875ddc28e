import { selfIntersections } from '../../core/mesh/self-intersections.ts';
import { sectionAt } from '../../core/mesh/section.ts';
import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';
import { tapeGirth } from '../../core/body/tape-girth.ts';

/** What a sound closed skin has none of, by counting; and its sharpest edge, degrees. */
export interface SkinFaults {
  /** Sides of triangles without exactly one neighbour that runs the other way. */
  readonly unmatchedSides: number;
  /** V - E + F: 2 for a closed surface without handles. */
  readonly euler: number;
  readonly crossingPairs: number;
  /** Vertices without a mirror image that is the same to the bit. */
  readonly unmirrored: number;
  readonly sharpest: number;
}

export function skinFaults(skin: TriangleMesh): SkinFaults {
  const { positions, triangles } = skin;
  const vertexCount = positions.length / 3;
  const sides = new Map<number, number>();
  let doubled = 0;
  for (let s = 0; s < triangles.length; s++) {
    const key = triangles[s]! * vertexCount + triangles[s % 3 === 2 ? s - 2 : s + 1]!;
    if (sides.has(key)) doubled++;
    sides.set(key, Math.floor(s / 3));
  }
  let unmatched = doubled;
  let sharpest = 0;
  for (const [key, triangle] of sides) {
    const [from, to] = [Math.floor(key / vertexCount), key % vertexCount];
    const other = sides.get(to * vertexCount + from);
    if (other === undefined) unmatched++;
    else if (from < to) sharpest = Math.max(sharpest, angleBetween(skin, triangle, other));
  }
  const search = selfIntersections(skin);
  let step = search.next();
  while (!step.done) step = search.next();
  return {
    unmatchedSides: unmatched,
    euler: vertexCount - sides.size / 2 + triangles.length / 3,
    crossingPairs: step.value.complete ? step.value.pairCount : Infinity,
    unmirrored: unmirrored(positions),
    sharpest,
  };
}

function normalOf({ positions: p, triangles }: TriangleMesh, t: number): readonly number[] {
  const [a, b, c] = [0, 1, 2].map((k) => 3 * triangles[3 * t + k]!) as [number, number, number];
  const [ux, uy, uz] = [0, 1, 2].map((k) => p[b + k]! - p[a + k]!) as [number, number, number];
  const [vx, vy, vz] = [0, 1, 2].map((k) => p[c + k]! - p[a + k]!) as [number, number, number];
  return [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
}

function angleBetween(skin: TriangleMesh, one: number, other: number): number {
  const [m, n] = [normalOf(skin, one), normalOf(skin, other)];
  const dot = m[0]! * n[0]! + m[1]! * n[1]! + m[2]! * n[2]!;
  const cosine = dot / (Math.hypot(...m) * Math.hypot(...n));
  return (Math.acos(Math.min(1, Math.max(-1, cosine))) * 180) / Math.PI;
}

function unmirrored(positions: Float64Array): number {
  const key = (x: number, p: number): string => `${x + 0},${positions[p + 1]},${positions[p + 2]}`;
  const points = new Set<string>();
  for (let p = 0; p < positions.length; p += 3) points.add(key(positions[p]!, p));
  let alone = 0;
  for (let p = 0; p < positions.length; p += 3) if (!points.has(key(0 - positions[p]!, p))) alone++;
  return alone;
}

/** Girth as a tape lies, m, round the piece of a level section whose middle is nearest to `x`. */
export function girthOfSkin(skin: TriangleMesh, level: number, x: number): number {
  const [nearest] = sectionAt(skin, level).toSorted(
    (one, other) => Math.abs(one.centroid[0] - x) - Math.abs(other.centroid[0] - x),
  );
  return tapeGirth(nearest!);
}

/** The skin as seen along the line from one point to another: that line becomes the vertical, its start the origin. */
export function uprightAlong(
  { positions, triangles }: TriangleMesh,
  from: readonly [number, number, number],
  lean: number,
): TriangleMesh {
  const [cos, sin] = [Math.cos(lean), Math.sin(lean)];
  const turned = positions.slice();
  for (let p = 0; p < positions.length; p += 3) {
    const [x, y] = [positions[p]! - from[0], positions[p + 1]! - from[1]];
    turned[p] = cos * x + sin * y;
    turned[p + 1] = cos * y - sin * x;
    turned[p + 2] = positions[p + 2]! - from[2];
  }
  return { positions: turned, triangles };
}
