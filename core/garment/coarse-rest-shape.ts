import { NO_TRIANGLE, vertexTriangles } from '../mesh/mesh-edges.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { triple } from '../mesh/triple.ts';
import type { ClothLevel } from './garment.ts';
import { flatFromLengths, setRestShape, type FlatTriangle, type RestShape } from './rest-shape.ts';

/** Per coarse triangle: unstretched area, metric xx, xy, xz, yy, yz, zz, and the map to the flat cloth, 2x3. */
const SIZE = 13;
const METRIC = 1;
const MAP = 7;
/** A fine triangle laid on less than this share of its unstretched area tells nothing of its neighbourhood. */
const LEAST_LAID = 1e-3;
/** A coarse triangle that comes out this many times smaller or larger than its cloth was not read rightly. */
const MOST_ASTRAY = 4;

/**
 * Unstretched shapes of coarse triangles from those of the fine ones that lie on them, without any flat pattern.
 *
 * A fine triangle tells how laid lengths map to unstretched ones: with F its deformation as laid, G = (F'F)^-1 F' maps
 * laid edges to flat ones and G'G is the metric of the cloth on the laid surface. A coarse triangle has the mean metric
 * of its piece of cloth, so it has its size whatever way the pieces on it are turned; how its grain lies is taken from
 * the mean of the maps, which count alike with grain up and grain down.
 *
 * @param host - The coarse triangle that each fine vertex lies on; NO_TRIANGLE where it lies on none.
 */
export function coarseRestShape(fine: ClothLevel, mesh: TriangleMesh, host: Uint32Array): RestShape {
  const count = mesh.triangles.length / 3;
  const sums = new Float64Array(SIZE * count);
  const one = new Float64Array(SIZE);
  for (let t = 0; t < fine.restArea.length; t++) {
    const place = hostOf(fine.mesh.triangles, host, t);
    if (place !== NO_TRIANGLE && readTriangle(fine, t, one)) add(sums, place, one);
  }
  fillGaps(mesh, sums);
  const spare = equalSided(fine.restArea.reduce((sum, area) => sum + area, 0) / count);
  const shape = { restInverse: new Float64Array(4 * count), restArea: new Float64Array(count) };
  for (let t = 0; t < count; t++) {
    const flat = flatTriangle(mesh, t, sums.subarray(SIZE * t, SIZE * t + SIZE));
    setRestShape(hasArea(flat) ? flat : spare, t, shape);
  }
  return shape;
}

/** The coarse triangle that a fine one belongs to: that of its first corner within a face. */
function hostOf(triangles: Uint32Array, host: Uint32Array, t: number): number {
  for (let k = 0; k < 3; k++) {
    const place = host[triangles[3 * t + k]!]!;
    if (place !== NO_TRIANGLE) return place;
  }
  return NO_TRIANGLE;
}

/** Metric and map of one fine triangle, times its unstretched area; false where it is laid collapsed. */
function readTriangle({ mesh, restInverse, restArea }: ClothLevel, t: number, into: Float64Array): boolean {
  const { positions, triangles } = mesh;
  const a = 3 * triangles[3 * t]!;
  const b = 3 * triangles[3 * t + 1]!;
  const c = 3 * triangles[3 * t + 2]!;
  let uu = 0;
  let uv = 0;
  let vv = 0;
  for (let k = 0; k < 3; k++) {
    const first = positions[b + k]! - positions[a + k]!;
    const second = positions[c + k]! - positions[a + k]!;
    const u = first * restInverse[4 * t]! + second * restInverse[4 * t + 2]!;
    const v = first * restInverse[4 * t + 1]! + second * restInverse[4 * t + 3]!;
    into[MAP + k] = u;
    into[MAP + 3 + k] = v;
    uu += u * u;
    uv += u * v;
    vv += v * v;
  }
  const determinant = uu * vv - uv * uv;
  if (!(determinant > LEAST_LAID * LEAST_LAID)) return false;
  const area = restArea[t]!;
  for (let k = 0; k < 3; k++) {
    const u = into[MAP + k]!;
    const v = into[MAP + 3 + k]!;
    into[MAP + k] = (vv * u - uv * v) / determinant;
    into[MAP + 3 + k] = (uu * v - uv * u) / determinant;
  }
  into[0] = area;
  let at = METRIC;
  for (let i = 0; i < 3; i++) {
    for (let j = i; j < 3; j++) {
      into[at++] = area * (into[MAP + i]! * into[MAP + j]! + into[MAP + 3 + i]! * into[MAP + 3 + j]!);
    }
  }
  for (let i = MAP; i < SIZE; i++) into[i]! *= area;
  return true;
}

/** Adds to the sums of one coarse triangle, its map turned by half a turn where that fits them better. */
function add(sums: Float64Array, place: number, one: Float64Array): void {
  const at = SIZE * place;
  let alike = 0;
  for (let i = MAP; i < SIZE; i++) alike += sums[at + i]! * one[i]!;
  const sign = alike < 0 ? -1 : 1;
  for (let i = 0; i < MAP; i++) sums[at + i]! += one[i]!;
  for (let i = MAP; i < SIZE; i++) sums[at + i]! += sign * one[i]!;
}

/** Coarse triangles that no fine one fell to take the sums of those round them. */
function fillGaps(mesh: TriangleMesh, sums: Float64Array): void {
  const count = mesh.triangles.length / 3;
  const isGap = Uint8Array.from({ length: count }, (_, t) => Number(sums[SIZE * t] === 0));
  if (!isGap.includes(1)) return;
  const { start, list } = vertexTriangles(mesh);
  for (let t = 0; t < count; t++) {
    if (isGap[t] === 0) continue;
    for (let k = 0; k < 3; k++) {
      const v = mesh.triangles[3 * t + k]!;
      for (let i = start[v]!; i < start[v + 1]!; i++) {
        const other = list[i]!;
        if (isGap[other] === 0) add(sums, t, sums.subarray(SIZE * other, SIZE * other + SIZE));
      }
    }
  }
}

const hasArea = ({ ax, ay, bx, by }: FlatTriangle): boolean =>
  ax * by - ay * bx > LEAST_LAID * (ax * ax + ay * ay + bx * bx + by * by);

/** Stands for a triangle that is laid collapsed: it has no shape, and pulls little. */
function equalSided(area: number): FlatTriangle {
  const side = Math.sqrt((4 * area) / Math.sqrt(3));
  return flatFromLengths(side, side, side);
}

/** A laid edge, m. */
type Edge = readonly [number, number, number];

/** The unstretched coarse triangle; as it is laid where its piece of cloth was not read rightly. */
function flatTriangle({ positions, triangles }: TriangleMesh, t: number, sums: Float64Array): FlatTriangle {
  const edge = (from: number, to: number): Edge => {
    const p = 3 * triangles[3 * t + from]!;
    const q = 3 * triangles[3 * t + to]!;
    return triple((k) => positions[q + k]! - positions[p + k]!);
  };
  const first = edge(0, 1);
  const second = edge(0, 2);
  const across = edge(1, 2);
  const laid = flatFromLengths(Math.hypot(...first), Math.hypot(...second), Math.hypot(...across));
  if (sums[0] === 0) return laid;
  const flat = flatFromLengths(
    metricLength(sums, first),
    metricLength(sums, second),
    metricLength(sums, across),
  );
  const expected = laid.ax * laid.by * areaScale(sums);
  const found = flat.ax * flat.by;
  if (!(found * MOST_ASTRAY > expected && found < MOST_ASTRAY * expected)) return laid;
  return turnedTo(flat, mapped(sums, first), mapped(sums, second));
}

/** Unstretched length of a laid edge, sqrt(e' M e), M the mean metric. */
function metricLength(sums: Float64Array, [x, y, z]: Edge): number {
  const entry = (i: number): number => sums[METRIC + i]!;
  const diagonal = entry(0) * x * x + entry(3) * y * y + entry(5) * z * z;
  const mixed = entry(1) * x * y + entry(2) * x * z + entry(4) * y * z;
  return Math.sqrt(Math.max(0, diagonal + 2 * mixed) / sums[0]!);
}

/** Unstretched over laid area by the mean metric: of a sheet, the root of the sum of its principal minors. */
function areaScale(sums: Float64Array): number {
  const minor = (i: number, j: number, mixed: number): number =>
    sums[METRIC + i]! * sums[METRIC + j]! - sums[METRIC + mixed]! ** 2;
  return Math.sqrt(Math.max(0, minor(0, 3, 1) + minor(0, 5, 2) + minor(3, 5, 4))) / sums[0]!;
}

/** A laid edge in the flat cloth, by the summed maps: direction only. */
function mapped(sums: Float64Array, [x, y, z]: readonly [number, number, number]): readonly [number, number] {
  const row = (at: number): number => sums[at]! * x + sums[at + 1]! * y + sums[at + 2]! * z;
  return [row(MAP), row(MAP + 3)];
}

/** Turns a flat triangle, on its face or on its back, so that its edges run as near as they can to two directions. */
function turnedTo(
  { ax, bx, by }: FlatTriangle,
  [ux, uy]: readonly [number, number],
  [vx, vy]: readonly [number, number],
): FlatTriangle {
  const turn = (side: number) => {
    const along = ax * ux + bx * vx + side * by * vy;
    const across = ax * uy + bx * vy - side * by * vx;
    return { along, across, fit: Math.hypot(along, across), side };
  };
  const [face, back] = [turn(1), turn(-1)];
  const { along, across, fit, side } = face.fit >= back.fit ? face : back;
  if (fit === 0) return { ax, ay: 0, bx, by };
  const c = along / fit;
  const s = across / fit;
  return { ax: c * ax, ay: s * ax, bx: c * bx - s * side * by, by: s * bx + c * side * by };
}
