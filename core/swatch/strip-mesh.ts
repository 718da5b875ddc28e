import type { FlatSheet } from '../equilibrium/curvature-patches.ts';

/** A strip that hangs over an edge. */
export interface StripMesh extends FlatSheet {
  /** Place along the strip from the edge (negative: before it) and across from its middle; 2*V, m. */
  readonly along: Float64Array;
  /** 1 where a vertex lies clamped; V. */
  readonly lies: Uint8Array;
}

/** Size and cells of a strip. m, rad. */
export interface StripSize {
  readonly overhang: number;
  readonly width: number;
  /** Between the strip's length and the warp. */
  readonly angle: number;
  readonly hangingRows: number;
  readonly lyingRows: number;
  /** Cells across; see {@link evenColumns}. */
  readonly columns: number;
}

/** Cells across that make the triangles of a strip nearly equilateral. */
export const evenColumns = (overhang: number, width: number, hangingRows: number): number =>
  Math.max(3, Math.round((width * hangingRows * Math.sqrt(3)) / 2 / overhang));

/**
 * A strip of rows across, every other row shifted by half a cell, so that triangles are nearly equilateral and lean to
 * neither side. Rows come in order, the free end last.
 */
export function stripMesh({ overhang, width, angle, hangingRows, lyingRows, columns }: StripSize): StripMesh {
  const spacing = overhang / hangingRows;
  const along: number[] = [];
  const triangles: number[] = [];
  let below = 0;
  for (let row = 0; row <= lyingRows + hangingRows; row++) {
    const own = along.length / 2;
    const shifted = (row - lyingRows) % 2 !== 0;
    const s = (row - lyingRows) * spacing;
    for (const place of places(columns, shifted)) along.push(s, width * (place / columns - 0.5));
    if (row > 0)
      joinRows(
        triangles,
        columns,
        shifted ? { long: own, short: below } : { long: below, short: own },
        shifted,
      );
    below = own;
  }
  const lies = Uint8Array.from({ length: along.length / 2 }, (_, v) => (along[2 * v]! <= 0 ? 1 : 0));
  return {
    flat: turn(along, angle),
    triangles: Uint32Array.from(triangles),
    along: Float64Array.from(along),
    lies,
  };
}

/** Whole rows have a vertex at every cell's end, shifted ones in the middle of each cell and at both edges. */
function places(columns: number, shifted: boolean): number[] {
  if (!shifted) return Array.from({ length: columns + 1 }, (_, i) => i);
  return Array.from({ length: columns + 2 }, (_, i) => Math.min(columns, Math.max(0, i - 0.5)));
}

/** Triangles between a shifted row (`long`, one vertex more) and a whole one; turned alike whichever comes first. */
function joinRows(
  triangles: number[],
  columns: number,
  { long, short }: { long: number; short: number },
  shifted: boolean,
): void {
  const add = (a: number, b: number, c: number) => {
    if (shifted) triangles.push(a, c, b);
    else triangles.push(a, b, c);
  };
  for (let i = 0; i <= columns; i++) {
    add(long + i, short + i, long + i + 1);
    if (i < columns) add(short + i, short + i + 1, long + i + 1);
  }
}

/** From (along, across) to (warp, weft). */
function turn(along: readonly number[], angle: number): Float64Array {
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  const flat = new Float64Array(along.length);
  for (let i = 0; i < flat.length; i += 2) {
    flat[i] = cos * along[i]! - sin * along[i + 1]!;
    flat[i + 1] = sin * along[i]! + cos * along[i + 1]!;
  }
  return flat;
}
