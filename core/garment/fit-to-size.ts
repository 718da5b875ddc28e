import type { DistanceField } from '../body/distance-field.ts';
import type { SewnMesh } from '../pattern/sewn-mesh.ts';

/** What pulls each vertex of sewn panels to where its triangles would have their flat size and shape. */
export interface SizeFit {
  readonly mesh: SewnMesh;
  /** Where each vertex's pulls begin; V + 1. */
  readonly start: Uint32Array;
  /** The other vertex of each pull. */
  readonly other: Uint32Array;
  readonly triangle: Uint32Array;
  readonly weight: Float64Array;
  /** From the other vertex to this one in the triangle's plane, m; 2 per pull. */
  readonly way: Float64Array;
  /** Sum of weights; V. */
  readonly total: Float64Array;
  /** Turn of each triangle's plane into space, two columns; 6*T. */
  readonly turn: Float64Array;
}

/** What holds vertices: the body's middle plane, or a plane of their own. */
export interface Hold {
  /** 1 where a vertex stays on x = 0; V. */
  readonly onCentre: Uint8Array;
  /** Index into planes + 1, 0 where free; V. */
  readonly plane: Uint8Array;
  readonly planes: readonly HeldPlane[];
}

/** Points with normal . x = offset. */
export interface HeldPlane {
  readonly normal: readonly [number, number, number];
  readonly offset: number;
}

/** Cotangents below this are raised to it: very blunt corners would push. */
const LEAST_COTANGENT = 0.05;

/** Sets up the pulls of a sewn mesh. */
export function sizeFit(mesh: SewnMesh): SizeFit {
  const { triangles, corners, vertexCount } = mesh;
  const start = new Uint32Array(vertexCount + 1);
  for (const v of triangles) start[v + 1]! += 2;
  for (let v = 0; v < vertexCount; v++) start[v + 1]! += start[v]!;
  const pullCount = start[vertexCount]!;
  const next = start.slice();
  const fit: SizeFit = {
    mesh,
    start,
    other: new Uint32Array(pullCount),
    triangle: new Uint32Array(pullCount),
    weight: new Float64Array(pullCount),
    way: new Float64Array(2 * pullCount),
    total: new Float64Array(vertexCount),
    turn: new Float64Array(2 * triangles.length),
  };
  const add = (from: number, to: number, opposite: number): void => {
    const weight = cotangentAt(corners, opposite, from, to);
    for (const [own, other] of [
      [from, to],
      [to, from],
    ] as const) {
      const v = triangles[own]!;
      const i = next[v]!++;
      fit.other[i] = triangles[other]!;
      fit.triangle[i] = Math.floor(own / 3);
      fit.weight[i] = weight;
      fit.way[2 * i] = corners[2 * own]! - corners[2 * other]!;
      fit.way[2 * i + 1] = corners[2 * own + 1]! - corners[2 * other + 1]!;
      fit.total[v]! += weight;
    }
  };
  for (let i = 0; i < triangles.length; i += 3) {
    add(i, i + 1, i + 2);
    add(i + 1, i + 2, i);
    add(i + 2, i, i + 1);
  }
  return fit;
}

function cotangentAt(corners: Float64Array, at: number, a: number, b: number): number {
  const ax = corners[2 * a]! - corners[2 * at]!;
  const ay = corners[2 * a + 1]! - corners[2 * at + 1]!;
  const bx = corners[2 * b]! - corners[2 * at]!;
  const by = corners[2 * b + 1]! - corners[2 * at + 1]!;
  return Math.max(LEAST_COTANGENT, (ax * bx + ay * by) / Math.abs(ax * by - ay * bx));
}

/** How a round treats the body: cloth lies on it everywhere, or only never within it. */
export type OnBody = 'on' | 'outside';

/** What one round of fitting works with. */
export interface FitRound {
  readonly fit: SizeFit;
  readonly hold: Hold;
  readonly field: DistanceField;
  /** Vertices that stay where they are; V. */
  readonly fixed?: Uint8Array;
  readonly onBody: OnBody;
  /** Each vertex goes this many times the way to where its pulls want it. */
  readonly relaxation: number;
}

/**
 * One round: each triangle is turned as best it fits, then each vertex goes to where its triangles want it, is held where it
 * is held and kept out of the body.
 *
 * @param positions - 3*V, m; moved.
 * @see Sorkine & Alexa, As-rigid-as-possible surface modeling, SGP 2007, for the two steps, local and global.
 */
export function fitRound(
  { fit, hold, field, fixed, onBody, relaxation }: FitRound,
  positions: Float64Array,
): void {
  turnTriangles(fit, positions);
  const { start, other, triangle, weight, way, total, turn, mesh } = fit;
  const sample = new Float64Array(10);
  for (let v = 0; v < mesh.vertexCount; v++) {
    if (fixed?.[v]) continue;
    let x = 0;
    let y = 0;
    let z = 0;
    for (let i = start[v]!; i < start[v + 1]!; i++) {
      const o = 3 * other[i]!;
      const r = 6 * triangle[i]!;
      const w = weight[i]!;
      const u = way[2 * i]!;
      const s = way[2 * i + 1]!;
      x += w * (positions[o]! + turn[r]! * u + turn[r + 3]! * s);
      y += w * (positions[o + 1]! + turn[r + 1]! * u + turn[r + 4]! * s);
      z += w * (positions[o + 2]! + turn[r + 2]! * u + turn[r + 5]! * s);
    }
    const p = 3 * v;
    const scale = 1 / total[v]!;
    positions[p]! += relaxation * (x * scale - positions[p]!);
    positions[p + 1]! += relaxation * (y * scale - positions[p + 1]!);
    positions[p + 2]! += relaxation * (z * scale - positions[p + 2]!);
    holdVertex(hold, positions, v);
    bringToBody(field, positions, v, { onBody, hold, sample });
  }
}

/** Turn of each triangle that fits best: the polar part F (F'F)^-1/2 of its deformation. */
function turnTriangles({ mesh, turn }: SizeFit, positions: Float64Array): void {
  const { triangles, corners } = mesh;
  for (let t = 0; 3 * t < triangles.length; t++) {
    const [a, b, c] = [3 * triangles[3 * t]!, 3 * triangles[3 * t + 1]!, 3 * triangles[3 * t + 2]!];
    const u1 = corners[6 * t + 2]! - corners[6 * t]!;
    const v1 = corners[6 * t + 3]! - corners[6 * t + 1]!;
    const u2 = corners[6 * t + 4]! - corners[6 * t]!;
    const v2 = corners[6 * t + 5]! - corners[6 * t + 1]!;
    const inverse = 1 / (u1 * v2 - u2 * v1);
    let uu = 0;
    let uv = 0;
    let vv = 0;
    for (let k = 0; k < 3; k++) {
      const e1 = positions[b + k]! - positions[a + k]!;
      const e2 = positions[c + k]! - positions[a + k]!;
      const f = (e1 * v2 - e2 * v1) * inverse;
      const g = (e2 * u1 - e1 * u2) * inverse;
      turn[6 * t + k] = f;
      turn[6 * t + 3 + k] = g;
      uu += f * f;
      uv += f * g;
      vv += g * g;
    }
    // (F'F)^-1/2 of a 2x2 in closed form: S = (C + d I) / s with d = sqrt(det C), s = sqrt(tr C + 2 d).
    const d = Math.sqrt(Math.max(1e-12, uu * vv - uv * uv));
    const s = Math.sqrt(uu + vv + 2 * d);
    const [p, q, r] = [(uu + d) / s, uv / s, (vv + d) / s];
    const determinant = Math.max(1e-12, p * r - q * q);
    for (let k = 0; k < 3; k++) {
      const f = turn[6 * t + k]!;
      const g = turn[6 * t + 3 + k]!;
      turn[6 * t + k] = (f * r - g * q) / determinant;
      turn[6 * t + 3 + k] = (g * p - f * q) / determinant;
    }
  }
}

/** Puts a vertex back on the planes that hold it. */
export function holdVertex({ onCentre, plane, planes }: Hold, positions: Float64Array, v: number): void {
  const p = 3 * v;
  if (onCentre[v]) positions[p] = 0;
  if (!plane[v]) return;
  const { normal, offset } = planes[plane[v] - 1]!;
  const away =
    normal[0] * positions[p]! + normal[1] * positions[p + 1]! + normal[2] * positions[p + 2]! - offset;
  for (let k = 0; k < 3; k++) positions[p + k]! -= away * normal[k]!;
}

/** No vertex is moved farther than this to the body in one go, m. */
const LONGEST_WAY = 0.04;

interface Bringing {
  readonly onBody: OnBody;
  readonly hold: Hold;
  readonly sample: Float64Array;
}

/** Brings a vertex to the skin or out of the body, along the part of the field's slope that its holds leave it. */
export function bringToBody(
  field: DistanceField,
  positions: Float64Array,
  v: number,
  { onBody, hold, sample }: Bringing,
): void {
  const p = 3 * v;
  field.sample(positions[p]!, positions[p + 1]!, positions[p + 2]!, sample);
  const distance = sample[0]!;
  if (onBody === 'outside' && distance >= 0) return;
  const slope = [sample[1]!, sample[2]!, sample[3]!];
  if (hold.onCentre[v]) slope[0] = 0;
  if (hold.plane[v]) {
    const { normal } = hold.planes[hold.plane[v] - 1]!;
    const along = slope[0]! * normal[0] + slope[1]! * normal[1] + slope[2]! * normal[2];
    for (let k = 0; k < 3; k++) slope[k]! -= along * normal[k]!;
  }
  const squared = slope[0]! ** 2 + slope[1]! ** 2 + slope[2]! ** 2;
  if (squared < 0.01) return;
  const way = Math.max(-LONGEST_WAY, Math.min(LONGEST_WAY, -distance / squared));
  for (let k = 0; k < 3; k++) positions[p + k]! += way * slope[k]!;
}
