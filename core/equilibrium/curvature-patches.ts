import { meshEdges, NO_TRIANGLE, vertexTriangles, type MeshEdges, type Rows } from '../mesh/mesh-edges.ts';

/** A sheet that is flat when nothing bends it. */
export interface FlatSheet {
  /** Along warp, along weft; 2*V, m. */
  readonly flat: Float64Array;
  /** 3*T. */
  readonly triangles: Uint32Array;
}

/**
 * The vertices from which each triangle's curvature is read, and how much each counts: the second derivatives of
 * whatever is given per vertex are sums of weight times value.
 */
export interface CurvaturePatches {
  /** Vertices of each triangle's patch, its three corners first. */
  readonly patches: Rows;
  /** Weights of d2/du2, d2/dv2, d2/dudv for each entry of the list; 1/m^2. */
  readonly weights: { readonly uu: Float64Array; readonly vv: Float64Array; readonly uv: Float64Array };
}

/** Weights larger than this (times the squared size of the triangle) say that the six points nearly lie on a conic. */
const LARGEST_WEIGHT = 12;
/** Points beyond the six count this little in the smallest choice of weights: they help out, they do not smooth. */
const HELPER_SHARE = 0.05;
/** Values of a quadratic: 1, u, v, u^2/2, v^2/2, uv. */
const TERMS = 6;

/**
 * Curvature of each triangle from itself and its three neighbours: exact for every quadratic surface on any mesh.
 *
 * A quadratic through the six vertices gives the second derivatives. Where a neighbour is missing (free edges) or the
 * six points lie on a conic, the other vertices round the triangle help out: of all weights that are exact for
 * quadratics the smallest are taken, w = S A' (A S A')^-1 e with S = diag(share).
 *
 * @see Onate & Zarate, Int. J. Numer. Meth. Engng 47 (2000) 557 (triangles whose bending is read from their neighbours).
 */
export function curvaturePatches(sheet: FlatSheet): CurvaturePatches {
  const { flat, triangles } = sheet;
  const mesh = { positions: new Float64Array((3 * flat.length) / 2), triangles };
  const edges = meshEdges(mesh);
  const around = vertexTriangles(mesh);
  const triangleCount = triangles.length / 3;
  const start = new Uint32Array(triangleCount + 1);
  const list: number[] = [];
  const uu: number[] = [];
  const vv: number[] = [];
  const uv: number[] = [];
  for (let t = 0; t < triangleCount; t++) {
    const near = nearPatch(sheet, edges, t);
    let patch = near;
    let fit = near.length === TERMS ? fitWeights(flat, near, near.length) : null;
    if (!fit) {
      patch = widePatch(sheet, around, near);
      fit = fitWeights(flat, patch, near.length, Infinity);
    }
    if (!fit) throw new Error(`No curvature can be read round triangle ${t}.`);
    list.push(...patch);
    uu.push(...fit.uu);
    vv.push(...fit.vv);
    uv.push(...fit.uv);
    start[t + 1] = list.length;
  }
  return {
    patches: { start, list: Uint32Array.from(list) },
    weights: { uu: Float64Array.from(uu), vv: Float64Array.from(vv), uv: Float64Array.from(uv) },
  };
}

/** The corners of a triangle, then the far corner of each neighbour. */
function nearPatch({ triangles }: FlatSheet, edges: MeshEdges, t: number): number[] {
  const corners = [triangles[3 * t]!, triangles[3 * t + 1]!, triangles[3 * t + 2]!];
  const patch = [...corners];
  for (let k = 0; k < 3; k++) {
    const edge = edges.ofSide[3 * t + k]!;
    const first = edges.triangles[2 * edge]!;
    const other = first === t ? edges.triangles[2 * edge + 1]! : first;
    if (other === NO_TRIANGLE) continue;
    for (let m = 0; m < 3; m++) {
      const vertex = triangles[3 * other + m]!;
      if (!patch.includes(vertex)) patch.push(vertex);
    }
  }
  return patch;
}

/** The near patch, then all other vertices of triangles that touch it in a corner of the triangle. */
function widePatch({ triangles }: FlatSheet, around: Rows, near: readonly number[]): number[] {
  const patch = new Set(near);
  for (const vertex of near) {
    for (let i = around.start[vertex]!; i < around.start[vertex + 1]!; i++) {
      for (let m = 0; m < 3; m++) patch.add(triangles[3 * around.list[i]! + m]!);
    }
  }
  return [...patch];
}

interface PatchWeights {
  readonly uu: number[];
  readonly vv: number[];
  readonly uv: number[];
}

/** The weights of one patch; null where they would be larger than `largest`, or none exist. */
function fitWeights(
  flat: Float64Array,
  patch: readonly number[],
  nearCount: number,
  largest = LARGEST_WEIGHT,
): PatchWeights | null {
  let cu = 0;
  let cv = 0;
  for (let i = 0; i < 3; i++) {
    cu += flat[2 * patch[i]!]! / 3;
    cv += flat[2 * patch[i]! + 1]! / 3;
  }
  let size = 0;
  for (let i = 0; i < 3; i++) {
    size += Math.hypot(flat[2 * patch[i]!]! - cu, flat[2 * patch[i]! + 1]! - cv) / Math.sqrt(3);
  }
  const terms = patch.map((vertex) => {
    const u = (flat[2 * vertex]! - cu) / size;
    const v = (flat[2 * vertex + 1]! - cv) / size;
    return [1, u, v, (u * u) / 2, (v * v) / 2, u * v];
  });
  const share = patch.map((_, i) => (i < nearCount ? 1 : HELPER_SHARE));
  const rows = Array.from({ length: TERMS }, (_, a) => [
    ...Array.from({ length: TERMS }, (_, b) => {
      let sum = 0;
      for (let i = 0; i < terms.length; i++) sum += share[i]! * terms[i]![a]! * terms[i]![b]!;
      return sum;
    }),
    ...[3, 4, 5].map((wanted) => (wanted === a ? 1 : 0)),
  ]);
  if (!eliminate(rows)) return null;
  const weights = [0, 1, 2].map((wanted) =>
    terms.map((term, i) => {
      let sum = 0;
      for (let a = 0; a < TERMS; a++) sum += term[a]! * rows[a]![TERMS + wanted]!;
      return share[i]! * sum;
    }),
  );
  if (weights.some((column) => column.some((weight) => !(Math.abs(weight) <= largest)))) return null;
  const [uu, vv, uv] = weights.map((column) => column.map((weight) => weight / (size * size)));
  return { uu: uu!, vv: vv!, uv: uv! };
}

/** Gauss-Jordan with row exchange on [matrix | right sides], in place; false where singular. */
function eliminate(rows: number[][]): boolean {
  for (let k = 0; k < rows.length; k++) {
    let pivot = k;
    for (let i = k + 1; i < rows.length; i++) {
      if (Math.abs(rows[i]![k]!) > Math.abs(rows[pivot]![k]!)) pivot = i;
    }
    const top = rows[pivot]!;
    if (!(Math.abs(top[k]!) > 1e-12)) return false;
    rows[pivot] = rows[k]!;
    rows[k] = top;
    for (let i = 0; i < rows.length; i++) {
      if (i === k) continue;
      const row = rows[i]!;
      const factor = row[k]! / top[k]!;
      if (factor !== 0) for (let j = k; j < row.length; j++) row[j]! -= factor * top[j]!;
    }
    for (let j = rows[k]!.length - 1; j >= k; j--) top[j]! /= top[k]!;
  }
  return true;
}
