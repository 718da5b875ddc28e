import type { ClothLevel } from '../garment/garment.ts';
import { meshEdges, NO_TRIANGLE, oppositeTriangles, type Rows } from '../mesh/mesh-edges.ts';

/** What the hinges of one triangle say: the kink at each side that has a neighbour. */
export interface HingePatch {
  /** The three corners, then the far corner of each neighbour. */
  readonly vertices: readonly number[];
  /**
   * Per hinge, the weight of each patch vertex in the kink: by how much the slope across the side is larger in the
   * neighbour than in the triangle, for whatever is given per vertex; 1/m.
   */
  readonly kinks: readonly (readonly number[])[];
  /** Per hinge, its kink on the surfaces u^2/2, v^2/2 and uv (u along the warp, v along the weft); m. */
  readonly ofCurvature: readonly (readonly [number, number, number])[];
}

type Point = readonly [number, number];

/**
 * The hinges round a triangle, laid flat by unstretched lengths: each neighbour is folded down into the triangle's own
 * plane, so that patches need not fit together over the garment and may cross a seam.
 *
 * On a linear element the slope across a side of length l is the rise from its apex (height h, foot at share s along the
 * side) to the side: kink = f(apex')/h' + f(apex)/h - ((1-s) f(a) + s f(b))/h - ((1-s') f(a) + s' f(b))/h'.
 *
 * @see Grinspun, Gingold, Reisman & Zorin, Computing discrete shape operators on general meshes, Eurographics 2006
 *   (a triangle's curvature from the kinks at its three sides).
 */
export function hingePatches(level: Pick<ClothLevel, 'mesh' | 'restInverse'>): HingePatch[] {
  const { triangles } = level.mesh;
  const across = oppositeTriangles(meshEdges(level.mesh));
  return Array.from({ length: triangles.length / 3 }, (_, t) => hingePatch(level, across, t));
}

/** The vertices of all patches end to end, as a pattern of blocks wants them. */
export function rowsOf(patches: readonly HingePatch[]): Rows {
  const start = new Uint32Array(patches.length + 1);
  patches.forEach(({ vertices }, t) => (start[t + 1] = start[t]! + vertices.length));
  return { start, list: Uint32Array.from(patches.flatMap(({ vertices }) => vertices)) };
}

function hingePatch(
  level: Pick<ClothLevel, 'mesh' | 'restInverse'>,
  across: Uint32Array,
  t: number,
): HingePatch {
  const { triangles } = level.mesh;
  const vertices = [triangles[3 * t]!, triangles[3 * t + 1]!, triangles[3 * t + 2]!];
  const flat = flatCorners(level, t);
  const sides = [0, 1, 2].filter((k) => across[3 * t + k] !== NO_TRIANGLE);
  const folded = sides.map((k) => farCorner(level, across[3 * t + k]!, vertices[k]!, vertices[(k + 1) % 3]!));
  const count = 3 + folded.length;
  const places: Point[] = [...flat];
  const kinks = sides.map((k, hinge) => {
    const from = flat[k]!;
    const to = flat[(k + 1) % 3]!;
    const apex = flat[(k + 2) % 3]!;
    const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
    const along: Point = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
    const near = apexOver(from, along, apex);
    const { share: farShare, height: farHeight } = folded[hinge]!;
    // The neighbour lies on the other side of its edge than the apex does.
    const away = near.height > 0 ? -farHeight : farHeight;
    places.push([
      from[0] + farShare * length * along[0] - away * along[1],
      from[1] + farShare * length * along[1] + away * along[0],
    ]);
    const height = Math.abs(near.height);
    const share = near.along / length;
    const weights = new Array<number>(count).fill(0);
    weights[k] = -(1 - share) / height - (1 - farShare) / farHeight;
    weights[(k + 1) % 3] = -share / height - farShare / farHeight;
    weights[(k + 2) % 3] = 1 / height;
    weights[3 + hinge] = 1 / farHeight;
    return weights;
  });
  const ofCurvature = kinks.map((weights): [number, number, number] => {
    let uu = 0;
    let vv = 0;
    let uv = 0;
    weights.forEach((weight, i) => {
      const [u, v] = places[i]!;
      uu += (weight * u * u) / 2;
      vv += (weight * v * v) / 2;
      uv += weight * u * v;
    });
    return [uu, vv, uv];
  });
  return { vertices: [...vertices, ...folded.map(({ vertex }) => vertex)], kinks, ofCurvature };
}

/** Unstretched corners in (warp, weft): the columns of Dm = restInverse^-1, the first corner at the origin. */
function flatCorners({ restInverse }: Pick<ClothLevel, 'restInverse'>, t: number): Point[] {
  const m00 = restInverse[4 * t]!;
  const m01 = restInverse[4 * t + 1]!;
  const m10 = restInverse[4 * t + 2]!;
  const m11 = restInverse[4 * t + 3]!;
  const determinant = m00 * m11 - m01 * m10;
  return [
    [0, 0],
    [m11 / determinant, -m10 / determinant],
    [-m01 / determinant, m00 / determinant],
  ];
}

/** The corner of a neighbour that is not on the side from `a` to `b`: where over that side it lies. */
function farCorner(
  level: Pick<ClothLevel, 'mesh' | 'restInverse'>,
  t: number,
  a: number,
  b: number,
): { vertex: number; share: number; height: number } {
  const { triangles } = level.mesh;
  const corners = [triangles[3 * t]!, triangles[3 * t + 1]!, triangles[3 * t + 2]!];
  const flat = flatCorners(level, t);
  const from = flat[corners.indexOf(a)]!;
  const to = flat[corners.indexOf(b)]!;
  const k = corners.findIndex((vertex) => vertex !== a && vertex !== b);
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const { along, height } = apexOver(
    from,
    [(to[0] - from[0]) / length, (to[1] - from[1]) / length],
    flat[k]!,
  );
  return { vertex: corners[k]!, share: along / length, height: Math.abs(height) };
}

/** How far along a line and how far to its left a point lies. */
function apexOver(from: Point, direction: Point, apex: Point): { along: number; height: number } {
  const x = apex[0] - from[0];
  const y = apex[1] - from[1];
  return { along: x * direction[0] + y * direction[1], height: y * direction[0] - x * direction[1] };
}
