import { sectionAt, type Section } from '../mesh/section.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { tapeGirth } from './tape-girth.ts';

/** One closed loop of a level section, measured. m. */
export interface Slice extends Section {
  readonly level: number;
  /** Of the tight tape round it. */
  readonly girth: number;
  readonly lowX: number;
  readonly highX: number;
  readonly lowZ: number;
  readonly highZ: number;
}

/** Cuts a mesh at many levels. */
export interface Slicer {
  readonly low: number;
  readonly high: number;
  /** The outer loops at a level, the largest first: what lies inside another loop is left out. */
  readonly at: (level: number) => readonly Slice[];
}

/** Triangles are kept in this many slabs, so that a cut looks at few of them. */
const SLAB_COUNT = 128;

/** Prepares a mesh for level cuts. */
export function slicerOf(mesh: TriangleMesh): Slicer {
  const { positions, triangles } = mesh;
  let low = Infinity;
  let high = -Infinity;
  for (const v of triangles) {
    low = Math.min(low, positions[3 * v + 1]!);
    high = Math.max(high, positions[3 * v + 1]!);
  }
  const slabs: number[][] = Array.from({ length: SLAB_COUNT }, () => []);
  const slabAt = (y: number): number =>
    Math.min(Math.max(Math.floor(((y - low) / (high - low || 1)) * SLAB_COUNT), 0), SLAB_COUNT - 1);
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => positions[3 * triangles[i + k]! + 1]!);
    const last = slabAt(Math.max(a!, b!, c!));
    for (let slab = slabAt(Math.min(a!, b!, c!)); slab <= last; slab++) {
      slabs[slab]!.push(triangles[i]!, triangles[i + 1]!, triangles[i + 2]!);
    }
  }
  const meshes = slabs.map((list): TriangleMesh => ({ positions, triangles: Uint32Array.from(list) }));
  return {
    low,
    high,
    at: (level) => {
      if (!(level >= low && level <= high)) return [];
      return outerOnly(sectionAt(meshes[slabAt(level)]!, level)).map((one) => sliceOf(one, level));
    },
  };
}

/** Loops in no other loop, which are larger and come before. */
function outerOnly(sections: readonly Section[]): Section[] {
  const outer: Section[] = [];
  for (const section of sections) {
    const [x, z] = [section.points[0]!, section.points[1]!];
    if (!outer.some((other) => isInside(other, x, z))) outer.push(section);
  }
  return outer;
}

function sliceOf(section: Section, level: number): Slice {
  let [lowX, highX, lowZ, highZ] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i < section.points.length; i += 2) {
    lowX = Math.min(lowX, section.points[i]!);
    highX = Math.max(highX, section.points[i]!);
    lowZ = Math.min(lowZ, section.points[i + 1]!);
    highZ = Math.max(highZ, section.points[i + 1]!);
  }
  return { ...section, level, girth: tapeGirth(section), lowX, highX, lowZ, highZ };
}

/** Whether a point lies inside a loop: a ray from it crosses the loop an odd number of times. */
export function isInside({ points }: Pick<Section, 'points'>, x: number, z: number): boolean {
  let inside = false;
  for (let i = 0, j = points.length - 2; i < points.length; j = i, i += 2) {
    const [xi, zi, xj, zj] = [points[i]!, points[i + 1]!, points[j]!, points[j + 1]!];
    if (zi > z !== zj > z && x < ((xj - xi) * (z - zi)) / (zj - zi) + xi) inside = !inside;
  }
  return inside;
}

/** The loop round a point; where none is, the one whose middle is nearest, within `reach`. */
export function sliceRound<S extends Section>(
  slices: readonly S[],
  [x, z]: readonly [number, number],
  reach: number,
): S | null {
  const round = slices.filter((slice) => isInside(slice, x, z)).at(-1);
  if (round !== undefined) return round;
  const distance = ({ centroid }: S): number => Math.hypot(centroid[0] - x, centroid[1] - z);
  const nearest = [...slices].sort((one, other) => distance(one) - distance(other))[0];
  return nearest !== undefined && distance(nearest) <= reach ? nearest : null;
}

/** Furthest point of a loop in a direction of its plane; x and z. */
export function outermost(
  { points }: Pick<Section, 'points'>,
  [dx, dz]: readonly [number, number],
): readonly [number, number] {
  let best = -Infinity;
  let at = 0;
  for (let i = 0; i < points.length; i += 2) {
    const reach = dx * points[i]! + dz * points[i + 1]!;
    if (reach > best) {
      best = reach;
      at = i;
    }
  }
  return [points[at]!, points[at + 1]!];
}

/** Where a ray from a point inside leaves a loop for the last time; x and z, null where it never meets it. */
export function alongRay(
  { points }: Pick<Section, 'points'>,
  [x, z]: readonly [number, number],
  [dx, dz]: readonly [number, number],
): readonly [number, number] | null {
  let farthest = -Infinity;
  for (let i = 0, j = points.length - 2; i < points.length; j = i, i += 2) {
    const [ax, az] = [points[j]! - x, points[j + 1]! - z];
    const [ex, ez] = [points[i]! - points[j]!, points[i + 1]! - points[j + 1]!];
    const across = dx * ez - dz * ex;
    if (across === 0) continue;
    const along = (ax * ez - az * ex) / across;
    const share = (ax * dz - az * dx) / across;
    if (share >= 0 && share <= 1 && along > farthest) farthest = along;
  }
  return farthest > 0 ? [x + farthest * dx, z + farthest * dz] : null;
}
