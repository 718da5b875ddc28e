/** The skin of a fit body as a mesh: half of it is netted, smoothed and mirrored. Lengths in mm. */
import { cellSheets, edgeCorners, type CellSheets } from './fit-cells.ts';
import type { Field } from './fit-field.ts';
import { cornersOf, sampleHalf, xOfNode, type HalfBox, type HalfGrid, type Planes } from './fit-grid.ts';

/** The left half of a skin: quads, open along the midline. */
export interface HalfSkin {
  /** 3 per vertex, mm. */
  readonly positions: Float64Array;
  /** 4 vertices each, counter-clockwise seen from outside. */
  readonly quads: Uint32Array;
  /** 1 where a vertex lies on the midline (its x is 0). */
  readonly onMidline: Uint8Array;
}

/** The whole skin. */
export interface WholeSkin {
  readonly positions: Float64Array;
  readonly triangles: Uint32Array;
  /** Vertex of the half that each vertex is, or mirrors. */
  readonly halfVertex: Uint32Array;
}

/**
 * Nets the zero level of an even field: one vertex per sheet and cell, one quad per crossed grid edge.
 *
 * @see Gibson, Constrained elastic surface nets, MICCAI 1998 (a vertex per cell, a quad per crossed edge).
 */
export function netHalf(field: Field, box: HalfBox, planes: Planes): HalfSkin {
  const grid = sampleHalf(field, box, planes);
  const sheets = cellSheets();
  const { firstVertex, patterns, positions, onMidline } = netVertices(grid, sheets);
  const [nx, , nz] = grid.counts;
  // Steps from node to node; (axis, next, after next) in turning order x, y, z.
  const steps = [1, nx * nz, nx] as const;
  const quads: number[] = [];
  for (const node of grid.cells) {
    const column = node % nx;
    for (let axis = 0; axis < 3; axis++) {
      // Edges on the far side of the midline are the mirror image of those kept.
      if (column === 0) continue;
      const inside = grid.values[node]! < 0;
      if (inside === grid.values[node + steps[axis]!]! < 0) continue;
      const [next, after] = [steps[(axis + 1) % 3]!, steps[(axis + 2) % 3]!];
      const corner = (back: number, backAfter: number): number => {
        const cell = node - back * next - backAfter * after;
        const edge = edgeOf(axis, back, backAfter);
        return firstVertex[cell]! + sheets.sheet[12 * patterns[cell]! + edge]!;
      };
      if (inside) quads.push(corner(1, 1), corner(0, 1), corner(0, 0), corner(1, 0));
      else quads.push(corner(1, 1), corner(1, 0), corner(0, 0), corner(0, 1));
    }
  }
  return { positions, quads: Uint32Array.from(quads), onMidline };
}

/** Edge of a cell along `axis` at steps (`s`, `t`) in the two axes that follow it. */
function edgeOf(axis: number, s: number, t: number): number {
  if (axis === 0) return s + 2 * t;
  return axis === 1 ? 4 + t + 2 * s : 8 + s + 2 * t;
}

interface NetVertices {
  /** First vertex and pattern per cell (by its lowest node). */
  readonly firstVertex: Int32Array;
  readonly patterns: Uint8Array;
  readonly positions: Float64Array;
  readonly onMidline: Uint8Array;
}

/** A vertex per sheet of each cell, at the mean of its crossings; x = 0 in the cells across the midline. */
function netVertices(grid: HalfGrid, sheets: CellSheets): NetVertices {
  const { values, spacing, low, counts } = grid;
  const [nx, , nz] = counts;
  const toCorner = cornersOf(counts);
  const firstVertex = new Int32Array(values.length).fill(-1);
  const patterns = new Uint8Array(values.length);
  const positions: number[] = [];
  const onMidline: number[] = [];
  for (const cell of grid.cells) {
    let pattern = 0;
    for (let c = 0; c < 8; c++) if (values[cell + toCorner[c]!]! < 0) pattern |= 1 << c;
    patterns[cell] = pattern;
    if (pattern === 0 || pattern === 255) continue;
    firstVertex[cell] = onMidline.length;
    const column = cell % nx;
    const row = (cell - column) / nx;
    const origin = [column, Math.floor(row / nz), row % nz];
    for (let sheet = 0; sheet < sheets.count[pattern]!; sheet++) {
      const [x, y, z] = crossingMean({ values, sheets }, { cell, pattern, sheet, toCorner });
      positions.push(
        column === 0 ? 0 : xOfNode(grid, column) + x * spacing,
        low[1] + (origin[1]! + y) * spacing,
        low[2] + (origin[2]! + z) * spacing,
      );
      onMidline.push(column === 0 ? 1 : 0);
    }
  }
  return {
    firstVertex,
    patterns,
    positions: Float64Array.from(positions),
    onMidline: Uint8Array.from(onMidline),
  };
}

/** Mean place, in cell widths, of the crossings of one sheet. */
function crossingMean(
  { values, sheets }: { values: Float64Array; sheets: CellSheets },
  at: { cell: number; pattern: number; sheet: number; toCorner: readonly number[] },
): readonly [number, number, number] {
  const sum = [0, 0, 0];
  let count = 0;
  for (let edge = 0; edge < 12; edge++) {
    if (sheets.sheet[12 * at.pattern + edge] !== at.sheet) continue;
    const [from, to] = edgeCorners(edge);
    const a = values[at.cell + at.toCorner[from]!]!;
    const t = a / (a - values[at.cell + at.toCorner[to]!]!);
    for (let axis = 0; axis < 3; axis++) {
      const start = (from >> axis) & 1;
      sum[axis]! += start + t * (((to >> axis) & 1) - start);
    }
    count++;
  }
  return [sum[0]! / count, sum[1]! / count, sum[2]! / count];
}

/** Mirrors a half and splits each quad along its shorter diagonal. */
export function mirrored({ positions, quads, onMidline }: HalfSkin): WholeSkin {
  const halfCount = onMidline.length;
  const halfVertex = Array.from({ length: halfCount }, (_, v) => v);
  const image = Uint32Array.from(halfVertex);
  for (let v = 0; v < halfCount; v++) {
    if (onMidline[v] === 1) continue;
    image[v] = halfVertex.length;
    halfVertex.push(v);
  }
  const whole = new Float64Array(3 * halfVertex.length);
  whole.set(positions);
  for (let v = halfCount; v < halfVertex.length; v++) {
    const source = 3 * halfVertex[v]!;
    whole[3 * v] = -positions[source]!;
    whole[3 * v + 1] = positions[source + 1]!;
    whole[3 * v + 2] = positions[source + 2]!;
  }
  const triangles = new Uint32Array(3 * quads.length);
  for (let q = 0; q < quads.length; q += 4) {
    const [a, b, c, d] = [quads[q]!, quads[q + 1]!, quads[q + 2]!, quads[q + 3]!];
    const turned = distanceBetween(positions, a, c) > distanceBetween(positions, b, d);
    const corners = turned ? [b, c, d, b, d, a] : [a, b, c, a, c, d];
    triangles.set(corners, 3 * q);
    for (let t = 0; t < 6; t += 3) {
      // The image turns the other way round.
      triangles[3 * q + 6 + t] = image[corners[t]!]!;
      triangles[3 * q + 7 + t] = image[corners[t + 2]!]!;
      triangles[3 * q + 8 + t] = image[corners[t + 1]!]!;
    }
  }
  return { positions: whole, triangles, halfVertex: Uint32Array.from(halfVertex) };
}

function distanceBetween(positions: Float64Array, a: number, b: number): number {
  return Math.hypot(
    positions[3 * a]! - positions[3 * b]!,
    positions[3 * a + 1]! - positions[3 * b + 1]!,
    positions[3 * a + 2]! - positions[3 * b + 2]!,
  );
}
