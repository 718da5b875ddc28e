import { triple } from '../mesh/triple.ts';
import { pointReader } from './arc-length.ts';
import type { FlatPoint, Panel, PatternCurve } from './pattern.ts';

/** A piece of a panel's edge or inner line between two neighbouring vertices. */
export interface CurveSegment {
  /** Indices of vertices. */
  readonly from: number;
  readonly to: number;
  /** Index into the panel's edges and then its lines. */
  readonly curve: number;
  /** Where both ends lie along the curve, as fractions of its length. */
  readonly start: number;
  readonly end: number;
}

/** An even mesh of one flat panel; every edge and line of the panel runs along mesh edges. */
export interface PanelMesh {
  /** 2 per vertex, m. */
  readonly flat: Float64Array;
  /** 3 per triangle, counter-clockwise in the panel's plane. */
  readonly triangles: Uint32Array;
  readonly segments: readonly CurveSegment[];
  /** Which material region each triangle lies in: 0 where no line divides the panel; T. */
  readonly region: Uint8Array;
}

/** Edges and lines of a panel, as `CurveSegment.curve` counts them. */
export const curvesOf = ({ edges, lines = [] }: Panel): readonly PatternCurve[] => [...edges, ...lines];

/** Vertices along one curve, from its start to its end. */
export function verticesAlong({ segments }: PanelMesh, curve: number): number[] {
  const own = segments.filter((segment) => segment.curve === curve);
  own.sort((one, other) => one.start - other.start);
  return [own[0]!.from, ...own.map(({ to }) => to)];
}

/** A finer mesh, and the two coarse vertices in whose middle each of its vertices lies (the same twice for old ones). */
export interface HalvedPanel {
  readonly mesh: PanelMesh;
  /** 2*V. */
  readonly parents: Uint32Array;
}

/**
 * Splits every triangle in four. Old vertices keep their numbers; the middle of a segment of a curve goes to the curve, at
 * the middle fraction, so that both sides of a seam go alike.
 */
export function halvePanel(mesh: PanelMesh, panel: Panel): HalvedPanel {
  const readers = curvesOf(panel).map(({ points }) => pointReader(points));
  const flat = [...mesh.flat];
  const parents: number[] = [];
  for (let v = 0; 2 * v < mesh.flat.length; v++) parents.push(v, v);
  const middles = new Map<number, number>();
  const vertexCount = mesh.flat.length / 2;
  const keyOf = (a: number, b: number) => Math.min(a, b) * vertexCount + Math.max(a, b);
  const place = (a: number, b: number, [x, y]: FlatPoint): number => {
    const v = flat.length / 2;
    flat.push(x, y);
    parents.push(Math.min(a, b), Math.max(a, b));
    middles.set(keyOf(a, b), v);
    return v;
  };
  const segments = mesh.segments.flatMap(({ from, to, curve, start, end }): CurveSegment[] => {
    const middle = (start + end) / 2;
    const v = place(from, to, readers[curve]!(middle));
    return [
      { from, to: v, curve, start, end: middle },
      { from: v, to, curve, start: middle, end },
    ];
  });
  const middleOf = (a: number, b: number): number =>
    middles.get(keyOf(a, b)) ??
    place(a, b, [
      (mesh.flat[2 * a]! + mesh.flat[2 * b]!) / 2,
      (mesh.flat[2 * a + 1]! + mesh.flat[2 * b + 1]!) / 2,
    ]);
  const triangles = new Uint32Array(4 * mesh.triangles.length);
  const region = new Uint8Array(4 * mesh.region.length);
  for (let t = 0; t < mesh.region.length; t++) {
    const [a, b, c] = triple((k) => mesh.triangles[3 * t + k]!);
    const ab = middleOf(a, b);
    const bc = middleOf(b, c);
    const ca = middleOf(c, a);
    triangles.set([a, ab, ca, ab, b, bc, ca, bc, c, ab, bc, ca], 12 * t);
    region.fill(mesh.region[t]!, 4 * t, 4 * t + 4);
  }
  return {
    mesh: { flat: Float64Array.from(flat), triangles, segments, region },
    parents: Uint32Array.from(parents),
  };
}
