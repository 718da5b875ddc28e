import type { SkinPatch } from '../body/skin-patch.ts';
import { meshEdges, meanEdgeLength, NO_TRIANGLE, oppositeTriangles } from '../mesh/mesh-edges.ts';
import type { NearestPoint } from '../mesh/nearest-point.ts';
import { triangleAreas } from '../mesh/triangle-areas.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';

/** Which skin lies under which cloth. */
export interface FleshLink {
  readonly patch: SkinPatch;
  readonly cloth: Uint32Array;
  /** The patch's triangle under each cloth vertex, and the weights of its corners; V, 3*V. */
  readonly under: Uint32Array;
  readonly weights: Float64Array;
  /** Skin that each cloth triangle covers: its area between the feet of its corners, m^2. */
  readonly covered: Float64Array;
  /** Points spread evenly over each cloth triangle: their weights in it; 3 per point. */
  readonly points: readonly (readonly [number, number, number])[];
  /** The patch's triangle under each point of each triangle, and the weights of its corners. */
  readonly pointUnder: Uint32Array;
  readonly pointWeights: Float64Array;
}

/** Points of a cloth triangle lie at most this part of a skin's edge apart. */
const POINTS_PER_EDGE = 2;
const MOST_SPLIT = 5;
/** Steps of a walk over the skin; a walk that does not end stays where it is. */
const MOST_STEPS = 40;

/**
 * Links cloth to the skin under it. The pressure of each cloth triangle is laid on the skin point by point, so that
 * nothing of one mesh's spacing shows on the other (linking vertex to nearest vertex left noise of half a kPa).
 *
 * @param nearest - Of the patch's mesh.
 */
export function linkFlesh(patch: SkinPatch, nearest: NearestPoint, cloth: TriangleMesh): FleshLink {
  const vertexCount = cloth.positions.length / 3;
  const found = new Float64Array(4);
  const weights = new Float64Array(3 * vertexCount);
  const under = new Uint32Array(vertexCount);
  for (let v = 0; v < vertexCount; v++) {
    const [x, y, z] = cloth.positions.subarray(3 * v, 3 * v + 3);
    under[v] = nearest(x!, y!, z!, found);
    weights.set(found.subarray(0, 3), 3 * v);
  }
  const split = Math.ceil(
    (POINTS_PER_EDGE * meanEdgeLength(cloth, meshEdges(cloth))) /
      meanEdgeLength(patch.mesh, meshEdges(patch.mesh)),
  );
  const points = evenPoints(Math.min(Math.max(split, 2), MOST_SPLIT));
  const underPoints = pointsUnder(patch.mesh, cloth, under, points);
  const covered = coveredAreas(patch.mesh, cloth.triangles, { under, weights });
  return { patch, cloth: cloth.triangles, under, weights, covered, points, ...underPoints };
}

function coveredAreas(
  skin: TriangleMesh,
  triangles: Uint32Array,
  { under, weights }: Pick<FleshLink, 'under' | 'weights'>,
): Float64Array {
  const feet = new Float64Array(weights.length);
  for (let i = 0; i < feet.length; i++) {
    const v = Math.floor(i / 3);
    for (let corner = 0; corner < 3; corner++) {
      const at = 3 * skin.triangles[3 * under[v]! + corner]! + (i % 3);
      feet[i]! += weights[3 * v + corner]! * skin.positions[at]!;
    }
  }
  return triangleAreas({ positions: feet, triangles });
}

/** Centres of the n^2 equal parts of a triangle, as weights of its corners. */
function evenPoints(n: number): [number, number, number][] {
  const points: [number, number, number][] = [];
  for (let i = 0; i < n; i++) {
    for (let j = 0; i + j < n; j++) {
      points.push(thirds(n, i + 1 / 3, j + 1 / 3));
      if (i + j < n - 1) points.push(thirds(n, i + 2 / 3, j + 2 / 3));
    }
  }
  return points;
}

const thirds = (n: number, i: number, j: number): [number, number, number] => [1 - (i + j) / n, i / n, j / n];

/** Finds each point's place on the skin by walking there from the skin under the cloth triangle's first corner. */
function pointsUnder(
  skin: TriangleMesh,
  { positions, triangles }: TriangleMesh,
  under: Uint32Array,
  points: FleshLink['points'],
): Pick<FleshLink, 'pointUnder' | 'pointWeights'> {
  const count = (triangles.length / 3) * points.length;
  const pointUnder = new Uint32Array(count);
  const pointWeights = new Float64Array(3 * count);
  const walk = walkerOn(skin);
  const at = new Float64Array(3);
  const found = new Float64Array(3);
  let point = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    let here = under[triangles[t]!]!;
    for (const [l0, l1, l2] of points) {
      for (let k = 0; k < 3; k++) {
        at[k] =
          l0 * positions[3 * triangles[t]! + k]! +
          l1 * positions[3 * triangles[t + 1]! + k]! +
          l2 * positions[3 * triangles[t + 2]! + k]!;
      }
      here = walk(here, at, found);
      pointUnder[point] = here;
      pointWeights.set(found, 3 * point);
      point++;
    }
  }
  return { pointUnder, pointWeights };
}

/**
 * Walks from a triangle towards a point: projected into the plane of the triangle it stands in, a point beyond a side
 * sends the walk across that side.
 */
function walkerOn(skin: TriangleMesh): (from: number, point: Float64Array, into: Float64Array) => number {
  const opposite = oppositeTriangles(meshEdges(skin));
  return (from, point, into) => {
    let here = from;
    let before = NO_TRIANGLE;
    for (let step = 0; step < MOST_STEPS; step++) {
      planeWeights(skin, here, point, into);
      // The side from corner k to k + 1 lies across from corner k + 2.
      let corner = 0;
      for (let k = 1; k < 3; k++) if (into[k]! < into[corner]!) corner = k;
      if (into[corner]! >= 0) return here;
      const next = opposite[3 * here + ((corner + 1) % 3)]!;
      // Over a ridge both sides send the walk to the other: it stands on the ridge.
      if (next === NO_TRIANGLE || next === before) break;
      before = here;
      here = next;
    }
    clampWeights(into);
    return here;
  };
}

/** Weights of a triangle's corners at the foot of a point on its plane; they add up to 1. */
function planeWeights(
  { positions, triangles }: TriangleMesh,
  t: number,
  point: Float64Array,
  into: Float64Array,
): void {
  const [a, b, c] = [3 * triangles[3 * t]!, 3 * triangles[3 * t + 1]!, 3 * triangles[3 * t + 2]!];
  let [uu, uv, vv, up, vp] = [0, 0, 0, 0, 0];
  for (let k = 0; k < 3; k++) {
    const u = positions[b + k]! - positions[a + k]!;
    const v = positions[c + k]! - positions[a + k]!;
    const p = point[k]! - positions[a + k]!;
    uu += u * u;
    uv += u * v;
    vv += v * v;
    up += u * p;
    vp += v * p;
  }
  const determinant = uu * vv - uv * uv;
  into[1] = (vv * up - uv * vp) / determinant;
  into[2] = (uu * vp - uv * up) / determinant;
  into[0] = 1 - into[1] - into[2];
}

function clampWeights(weights: Float64Array): void {
  let sum = 0;
  for (let k = 0; k < 3; k++) {
    weights[k] = Math.max(0, weights[k]!);
    sum += weights[k]!;
  }
  for (let k = 0; k < 3; k++) weights[k]! /= sum;
}

/**
 * Lays the cloth's pressure on the skin: over the skin that it covers, as it was before anything pressed. (On a limb that
 * gives way the cloth has less area than that; the layer knows pressures on the skin as it was.)
 *
 * @param pressure - On each cloth vertex, Pa.
 * @param into - Force on each vertex of the patch, N; overwritten.
 */
export function forceOnSkin(link: FleshLink, pressure: Float64Array, into: Float64Array): void {
  const { cloth, covered, points, pointUnder, pointWeights, patch } = link;
  into.fill(0);
  for (let t = 0; 3 * t < cloth.length; t++) {
    const [a, b, c] = [cloth[3 * t]!, cloth[3 * t + 1]!, cloth[3 * t + 2]!];
    const [pa, pb, pc] = [pressure[a]!, pressure[b]!, pressure[c]!];
    if (pa === 0 && pb === 0 && pc === 0) continue;
    const area = covered[t]! / points.length;
    for (let i = 0; i < points.length; i++) {
      const [l0, l1, l2] = points[i]!;
      const force = area * (l0 * pa + l1 * pb + l2 * pc);
      const at = t * points.length + i;
      const skin = 3 * pointUnder[at]!;
      for (let k = 0; k < 3; k++) into[patch.mesh.triangles[skin + k]!]! += force * pointWeights[3 * at + k]!;
    }
  }
}

/** A quantity of the patch read at each cloth vertex. */
export function readUnderCloth(
  { patch, under, weights }: FleshLink,
  ofSkin: Float64Array,
  into: Float64Array,
): void {
  const { triangles } = patch.mesh;
  for (let v = 0; v < into.length; v++) {
    const t = 3 * under[v]!;
    into[v] =
      weights[3 * v]! * ofSkin[triangles[t]!]! +
      weights[3 * v + 1]! * ofSkin[triangles[t + 1]!]! +
      weights[3 * v + 2]! * ofSkin[triangles[t + 2]!]!;
  }
}
