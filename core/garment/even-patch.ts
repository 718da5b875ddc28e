import type { DistanceField } from '../body/distance-field.ts';
import { vertexTriangles, type Rows } from '../mesh/mesh-edges.ts';
import type { ClothLevel } from './garment.ts';
import { neighbourMiddle } from './neighbour-middle.ts';

/** Rounds of evening; a patch that is still spoilt then is left to the search for rest. */
const MOST_ROUNDS = 30;
/** A triangle that has less than this of its unstretched shape is becoming a needle: drawn to three times its length. */
const LEAST_SHAPE = 0.6;

/**
 * Pushed positions with the spoilt triangles evened out: where one has been turned over or drawn into a needle, its
 * corners go half way to the middle of their neighbours, and back out of the skin, until none is left.
 *
 * Shape = 4 sqrt(3) area / sum of squared sides: 1 for equal sides, 0 for a needle; it is compared with that of the
 * unstretched triangle.
 * Hems are evened along themselves.
 *
 * @param level - As laid; not changed.
 * @param pushed - 3*V, m; changed in place and returned.
 * @see Bhatia & Lawrence, Computers & Structures 36 (1990): the measure of shape. From memory.
 */
export function evenPatch(level: ClothLevel, pushed: Float64Array, skin: DistanceField): Float64Array {
  const { mesh } = level;
  const patch = patchOf(mesh.positions, mesh.triangles, pushed);
  let around: Rows | null = null;
  const middle = new Float64Array(3);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const spoilt = patch.filter((t) => isSpoilt(level, pushed, t, skin));
    if (spoilt.length === 0) break;
    around ??= vertexTriangles(mesh);
    const corners = new Set(spoilt.flatMap((t) => [...mesh.triangles.subarray(3 * t, 3 * t + 3)]));
    for (const v of corners) {
      neighbourMiddle(level, around, v, pushed, middle);
      for (let k = 0; k < 3; k++) pushed[3 * v + k]! += (middle[k]! - pushed[3 * v + k]!) / 2;
      lift(skin, pushed.subarray(3 * v, 3 * v + 3));
    }
  }
  return pushed;
}

/** Triangles with a corner that was moved. */
function patchOf(laid: Float64Array, triangles: Uint32Array, pushed: Float64Array): number[] {
  const isMoved = (v: number): boolean => [0, 1, 2].some((k) => laid[3 * v + k] !== pushed[3 * v + k]);
  const patch: number[] = [];
  for (let t = 0; 3 * t < triangles.length; t++) {
    if ([0, 1, 2].some((corner) => isMoved(triangles[3 * t + corner]!))) patch.push(t);
  }
  return patch;
}

/** Turned over against the skin, or a needle where the unstretched triangle is none. */
function isSpoilt(
  { mesh, restInverse }: ClothLevel,
  pushed: Float64Array,
  t: number,
  skin: DistanceField,
): boolean {
  const now = shapeOf(pushed, mesh.triangles, t);
  if (!(now.shape >= LEAST_SHAPE * restShapeOf(restInverse, t))) return true;
  const sample = new Float64Array(10);
  skin.sample(...now.middle, sample);
  const [x, y, z] = now.normal;
  return x * sample[1]! + y * sample[2]! + z * sample[3]! < 0;
}

type Point = readonly [number, number, number];

/** Shape, normal (as long as twice the area) and middle of a triangle. */
function shapeOf(
  positions: Float64Array,
  triangles: Uint32Array,
  t: number,
): { shape: number; normal: Point; middle: Point } {
  const corner = (i: number): Point => {
    const v = 3 * triangles[3 * t + i]!;
    return [positions[v]!, positions[v + 1]!, positions[v + 2]!];
  };
  const [a, b, c] = [corner(0), corner(1), corner(2)];
  const [ux, uy, uz] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  const [vx, vy, vz] = [c[0] - a[0], c[1] - a[1], c[2] - a[2]];
  const normal: Point = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
  const sides = ux * ux + uy * uy + uz * uz + vx * vx + vy * vy + vz * vz;
  const third = (ux - vx) ** 2 + (uy - vy) ** 2 + (uz - vz) ** 2;
  const shape = (2 * Math.sqrt(3) * Math.hypot(...normal)) / (sides + third);
  const middle: Point = [(a[0] + b[0] + c[0]) / 3, (a[1] + b[1] + c[1]) / 3, (a[2] + b[2] + c[2]) / 3];
  return { shape, normal, middle };
}

/** Shape of the unstretched triangle: its sides are the columns of the inverse of restInverse, and their difference. */
function restShapeOf(restInverse: Float64Array, t: number): number {
  const a = restInverse[4 * t]!;
  const b = restInverse[4 * t + 1]!;
  const c = restInverse[4 * t + 2]!;
  const d = restInverse[4 * t + 3]!;
  // All sides times the determinant, all areas times its square.
  const sides = d * d + c * c + b * b + a * a + (d + b) ** 2 + (c + a) ** 2;
  return (2 * Math.sqrt(3) * Math.abs(a * d - b * c)) / sides;
}

/** Evening cuts corners: two steps bring a point back to the skin. */
function lift(skin: DistanceField, point: Float64Array): void {
  const sample = new Float64Array(10);
  for (let step = 0; step < 2; step++) {
    skin.sample(point[0]!, point[1]!, point[2]!, sample);
    if (!(sample[0]! < 0)) return;
    const slope = Math.max(0.5, Math.hypot(sample[1]!, sample[2]!, sample[3]!));
    for (let k = 0; k < 3; k++) point[k]! -= (sample[0]! * sample[1 + k]!) / (slope * slope);
  }
}
