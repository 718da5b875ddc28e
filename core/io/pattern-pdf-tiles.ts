import { drawnPattern, type DrawnPattern, type DrawnPiece } from '../pattern/drawn-pattern.ts';
import { boxOf, liesWithin, outlineOf } from '../pattern/flat-outline.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { mmFromMetres } from '../units/units.ts';

/** A4 with the border that printers leave, and by how much neighbouring pages show the same; mm. */
export const PAPER = { width: 210, height: 297, border: 10, overlap: 10 } as const;
/** What one page adds to the sheet, mm. */
export const STEP = {
  x: PAPER.width - 2 * PAPER.border - PAPER.overlap,
  y: PAPER.height - 2 * PAPER.border - PAPER.overlap,
} as const;

/** One page of the sheet that the pattern is laid out on; mm. */
export interface PdfTile {
  /** From 1, left to right and top to bottom. */
  readonly row: number;
  readonly column: number;
  readonly left: number;
  /** Above y = 0. */
  readonly top: number;
  /** What it shows a part of. */
  readonly pieces: readonly DrawnPiece[];
}

/** The layout that takes the fewest pages of rows one to six pages wide. */
export function fewestPages(pattern: Pattern): {
  readonly drawn: DrawnPattern;
  readonly tiles: readonly PdfTile[];
} {
  const layouts = [1, 2, 3, 4, 5, 6].map((across) => {
    const drawn = drawnPattern(pattern, (across * STEP.x + PAPER.overlap) / 1000);
    return { drawn, tiles: pdfTiles(drawn) };
  });
  return layouts.reduce((best, layout) => (layout.tiles.length < best.tiles.length ? layout : best));
}

/** The pages that something is drawn on. */
export function pdfTiles({ pieces, width, height }: DrawnPattern): PdfTile[] {
  const columns = Math.max(1, Math.ceil((mmFromMetres(width) - PAPER.overlap) / STEP.x));
  const rows = Math.max(1, Math.ceil((mmFromMetres(height) - PAPER.overlap) / STEP.y));
  const loops = pieces.map((piece) =>
    outlineOf(piece).map(
      ([x, y]) => [mmFromMetres(x + piece.offset[0]), mmFromMetres(y + piece.offset[1])] as const,
    ),
  );
  const tiles: PdfTile[] = [];
  for (let row = 1; row <= rows; row++) {
    for (let column = 1; column <= columns; column++) {
      const left = (column - 1) * STEP.x;
      const top = mmFromMetres(height) - (row - 1) * STEP.y;
      const shown = pieces.filter((_, p) => touches({ left, top }, loops[p]!));
      if (shown.length > 0) tiles.push({ row, column, left, top, pieces: shown });
    }
  }
  return tiles;
}

/** Whether a page shows a part of an outline or lies within it. */
function touches(
  { left, top }: Pick<PdfTile, 'left' | 'top'>,
  loop: readonly (readonly [number, number])[],
): boolean {
  const right = left + STEP.x + PAPER.overlap;
  const bottom = top - STEP.y - PAPER.overlap;
  const meets = (points: readonly (readonly [number, number])[]) => {
    const box = boxOf(points);
    return box.left <= right && box.right >= left && box.bottom <= top && box.top >= bottom;
  };
  if (!meets(loop)) return false;
  if (liesWithin([(left + right) / 2, (bottom + top) / 2], loop)) return true;
  return loop.some((point, i) => meets([point, loop[(i + 1) % loop.length]!]));
}
