import Constrainautor from '@kninnug/constrainautor';
import Delaunator from 'delaunator';
import { triple } from '../mesh/triple.ts';
import { curveLength, pointReader } from './arc-length.ts';
import { boxOf, distanceBetween, liesWithin } from './flat-outline.ts';
import type { CurveSegment, PanelMesh } from './panel-mesh.ts';
import type { FlatPoint, Panel } from './pattern.ts';

/** Edge lengths grow by this with the distance from finer ones. */
const GROWTH = 0.45;
/** Seeds stay this far from edges and from each other, as shares of the edge length wanted there. */
const CLEAR_OF = { curves: 0.58, seeds: 0.86 };
/** Lattice of first seeds, as a share of the finest edge length. */
const LATTICE = 0.9;
/** Rounds in which free points move to the middle of their triangles. */
const ROUNDS = 24;

/**
 * Meshes a flat panel evenly: points on its edges at equal fractions of their length, seeds inside on a lattice of
 * equilateral triangles, a Delaunay triangulation that keeps to edges and lines, points moved to the middle of theirs.
 *
 * @param counts - Segments per edge, at least 1 each.
 * @param edge - Wanted edge length inside, m.
 * @see Persson & Strang, A simple mesh generator in MATLAB, SIAM Review 46 (2004) 329, for the way of evening out.
 */
export function meshPanel(panel: Panel, counts: readonly number[], edge: number): PanelMesh {
  const outline = outlineOf(panel, counts);
  const { points, segments } = withLines(panel, outline, edge);
  const sizeAt = sizeField(points, segments, edge);
  const loop = outline.points;
  const fixedCount = points.length;
  for (const seed of seeds(loop, { points, segments }, sizeAt, edge)) points.push(seed);
  let triangles = triangulate(points, segments, loop);
  for (let round = 0; round < ROUNDS; round++) {
    moveToMiddles(points, triangles, fixedCount, sizeAt);
    triangles = triangulate(points, segments, loop);
  }
  return {
    flat: Float64Array.from(points.flat()),
    triangles: Uint32Array.from(triangles),
    segments,
    region: regionsOf(triangles, segments, panel),
  };
}

interface Drawn {
  readonly points: FlatPoint[];
  readonly segments: CurveSegment[];
}

/** The loop: every edge cut into its segments. */
function outlineOf({ edges }: Panel, counts: readonly number[]): Drawn {
  const points: FlatPoint[] = [];
  const segments: CurveSegment[] = [];
  edges.forEach((edge, curve) => {
    const at = pointReader(edge.points);
    const count = counts[curve]!;
    for (let k = 0; k < count; k++) {
      segments.push({
        from: points.length,
        to: points.length + 1,
        curve,
        start: k / count,
        end: (k + 1) / count,
      });
      points.push(at(k / count));
    }
  });
  const last = segments.pop()!;
  segments.push({ ...last, to: 0 });
  return { points, segments };
}

/** The same with the panel's inner lines. */
function withLines({ edges, lines = [] }: Panel, { points, segments }: Drawn, edge: number): Drawn {
  const all = [...points];
  const drawn = [...segments];
  lines.forEach((line, l) => {
    const at = pointReader(line.points);
    const count = Math.max(2, Math.round(curveLength(line.points) / edge));
    const first = pointAt(points, line.points[0]!);
    const last = pointAt(points, line.points.at(-1)!);
    if (first < 0 || last < 0) throw new Error(`Line ${line.name} does not end on corners of its panel.`);
    let from = first;
    for (let k = 1; k <= count; k++) {
      const to = k === count ? last : all.push(at(k / count)) - 1;
      drawn.push({ from, to, curve: edges.length + l, start: (k - 1) / count, end: k / count });
      from = to;
    }
  });
  return { points: all, segments: drawn };
}

const pointAt = (points: readonly FlatPoint[], at: FlatPoint): number =>
  points.findIndex((point) => distanceBetween(point, at) < 1e-6);

/** Edge length wanted at a point: that of the segments near by, growing with the distance from them. */
function sizeField(points: readonly FlatPoint[], segments: readonly CurveSegment[], edge: number) {
  const fine = segments
    .map(({ from, to }) => ({ a: points[from]!, b: points[to]! }))
    .map(({ a, b }) => ({ a, b, length: distanceBetween(a, b) }));
  return (point: FlatPoint): number =>
    fine.reduce(
      (size, { a, b, length }) => Math.min(size, length + GROWTH * distanceToSegment(point, a, b)),
      edge,
    );
}

function distanceToSegment([x, y]: FlatPoint, [ax, ay]: FlatPoint, [bx, by]: FlatPoint): number {
  const dx = bx - ax;
  const dy = by - ay;
  const along = ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy);
  const share = Math.max(0, Math.min(1, along));
  return Math.hypot(x - ax - share * dx, y - ay - share * dy);
}

/** Points inside on a lattice, where there is room for them. */
function seeds(
  loop: readonly FlatPoint[],
  { points, segments }: Drawn,
  sizeAt: (point: FlatPoint) => number,
  edge: number,
): FlatPoint[] {
  const lengths = segments.map(({ from, to }) => distanceBetween(points[from]!, points[to]!));
  const finest = Math.min(edge, ...lengths);
  const step = finest < 0.85 * edge ? finest / 2 : LATTICE * edge;
  const { left, right, bottom, top } = boxOf(loop);
  const kept: FlatPoint[] = [];
  const rowStep = (step * Math.sqrt(3)) / 2;
  for (let row = 0; bottom + row * rowStep <= top; row++) {
    for (let x = left + (row % 2 === 0 ? 0 : step / 2); x <= right; x += step) {
      const seed: FlatPoint = [x, bottom + row * rowStep];
      if (!liesWithin(seed, loop)) continue;
      const size = sizeAt(seed);
      const isNear = ({ from, to }: CurveSegment) =>
        distanceToSegment(seed, points[from]!, points[to]!) < CLEAR_OF.curves * size;
      if (segments.some(isNear)) continue;
      const isCrowded = ([kx, ky]: FlatPoint) => Math.hypot(kx - x, ky - seed[1]) < CLEAR_OF.seeds * size;
      if (!kept.some(isCrowded)) kept.push(seed);
    }
  }
  return kept;
}

/** Delaunay triangles within the loop, counter-clockwise, that keep to all segments. */
function triangulate(
  points: readonly FlatPoint[],
  segments: readonly CurveSegment[],
  loop: readonly FlatPoint[],
): number[] {
  const delaunay = new Delaunator(points.flat());
  const constrained = new Constrainautor(delaunay);
  constrained.constrainAll(segments.map(({ from, to }): [number, number] => [from, to]));
  constrained.delaunify(true);
  const kept: number[] = [];
  for (let t = 0; t < delaunay.triangles.length; t += 3) {
    const [a, b, c] = triple((k) => delaunay.triangles[t + k]!);
    const doubled = doubleArea(points[a]!, points[b]!, points[c]!);
    const middle: FlatPoint = [
      (points[a]![0] + points[b]![0] + points[c]![0]) / 3,
      (points[a]![1] + points[b]![1] + points[c]![1]) / 3,
    ];
    if (Math.abs(doubled) < 1e-12 || !liesWithin(middle, loop)) continue;
    kept.push(a, ...(doubled > 0 ? [b, c] : [c, b]));
  }
  return kept;
}

const doubleArea = (a: FlatPoint, b: FlatPoint, c: FlatPoint): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** Moves every free point to the mean of its triangles' middles, large ones (for the size wanted there) weighing more. */
function moveToMiddles(
  points: FlatPoint[],
  triangles: readonly number[],
  fixedCount: number,
  sizeAt: (point: FlatPoint) => number,
): void {
  const sums = points.map(() => ({ x: 0, y: 0, weight: 0 }));
  for (let t = 0; t < triangles.length; t += 3) {
    const corners = triple((k) => triangles[t + k]!);
    const [a, b, c] = [points[corners[0]]!, points[corners[1]]!, points[corners[2]]!];
    const middle: FlatPoint = [(a[0] + b[0] + c[0]) / 3, (a[1] + b[1] + c[1]) / 3];
    const weight = doubleArea(a, b, c) / sizeAt(middle) ** 3;
    for (const v of corners) {
      sums[v]!.x += weight * middle[0];
      sums[v]!.y += weight * middle[1];
      sums[v]!.weight += weight;
    }
  }
  for (let v = fixedCount; v < points.length; v++) {
    const { x, y, weight } = sums[v]!;
    if (weight > 0) points[v] = [x / weight, y / weight];
  }
}

/** Which side of the panel's lines each triangle lies on: triangles that share an edge off all lines lie in one region. */
function regionsOf(
  triangles: readonly number[],
  segments: readonly CurveSegment[],
  { edges }: Panel,
): Uint8Array {
  const lines = new Set(
    segments.filter(({ curve }) => curve >= edges.length).map(({ from, to }) => keyOf(from, to)),
  );
  const beside = new Map<string, number[]>();
  for (let i = 0; i < triangles.length; i++) {
    const t = Math.floor(i / 3);
    const key = keyOf(triangles[i]!, triangles[3 * t + ((i + 1) % 3)]!);
    if (!lines.has(key)) beside.set(key, [...(beside.get(key) ?? []), t]);
  }
  const neighbours = Array.from({ length: triangles.length / 3 }, (): number[] => []);
  for (const [one, other] of beside.values()) {
    if (other === undefined) continue;
    neighbours[one!]!.push(other);
    neighbours[other]!.push(one!);
  }
  const region = new Uint8Array(triangles.length / 3).fill(255);
  let count = 0;
  for (let first = 0; first < region.length; first++) {
    if (region[first] !== 255) continue;
    const open = [first];
    region[first] = count;
    for (let t = open.pop(); t !== undefined; t = open.pop()) {
      for (const next of neighbours[t]!) {
        if (region[next] !== 255) continue;
        region[next] = count;
        open.push(next);
      }
    }
    count++;
  }
  return region;
}

const keyOf = (a: number, b: number): string => `${Math.min(a, b)} ${Math.max(a, b)}`;
