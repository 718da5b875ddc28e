import type { DrawnPattern, DrawnPiece } from '../pattern/drawn-pattern.ts';
import { arrowHead } from '../pattern/grain-line.ts';
import type { FlatPoint, Pattern } from '../pattern/pattern.ts';
import { mmFromMetres } from '../units/units.ts';
import { pdfDocument, pdfLine, pdfNumber, pdfPen, pdfText } from './pattern-pdf-document.ts';
import { fewestPages, PAPER, STEP, type PdfTile } from './pattern-pdf-tiles.ts';

/** What is written on the paper. */
export interface PatternPaperWords {
  /** How to print it and what to measure; one line each. */
  readonly howTo: readonly string[];
  readonly square: string;
  readonly page: (page: {
    readonly page: number;
    readonly of: number;
    readonly row: number;
    readonly column: number;
  }) => string;
  readonly piece: (name: string) => string;
}

export interface PaperWish {
  readonly words: PatternPaperWords;
  /** Such as 38 or M; empty for none. */
  readonly size: string;
}

type Place = readonly [number, number];

/** Sizes on the cover page, mm. */
const COVER = { left: 20, top: 275, square: 100, squareTop: 235, mapTop: 120, mapHeight: 100, mapWidth: 170 };
/** Lengths of marks, mm. */
const MARK = { notch: 5, arrow: 12, cross: 4 };

/**
 * A pattern in its true size on A4 pages, both halves: first a page with a square of 100 mm to check the print by and a
 * map, then the pages that something is drawn on. Neighbouring pages show 10 mm twice, with crosses to lay on each other.
 */
export function writePatternPdf(pattern: Pattern, { words, size }: PaperWish): Uint8Array {
  const { drawn, tiles } = fewestPages(pattern);
  const title = [drawn.name, size].join(' ').trim();
  const pages = [
    coverPage(drawn, tiles, { title, words }),
    ...tiles.map((tile, t) => {
      const { row, column } = tile;
      const label = words.page({ page: t + 2, of: tiles.length + 1, row, column });
      return tilePage(tile, { label: `${title} - ${label}`, size });
    }),
  ];
  return pdfDocument(pages, title);
}

function coverPage(
  drawn: DrawnPattern,
  tiles: readonly PdfTile[],
  { title, words }: { readonly title: string; readonly words: PatternPaperWords },
): string {
  const { left, top, square, squareTop } = COVER;
  return [
    pdfPen(0.3),
    pdfText(title, [left, top], 8),
    ...words.howTo.map((line, i) => pdfText(line, [left, top - 10 - 5.5 * i], 4)),
    `${left} ${squareTop - square} ${square} ${square} re S`,
    pdfText(words.square, [left + square / 2, squareTop - square / 2], 4, 'middle'),
    ...drawn.pieces.map(({ name }, i) =>
      pdfText(words.piece(name), [left + square + 10, squareTop - 4 - 5.5 * i], 4),
    ),
    ...map(drawn, tiles),
  ].join('\n');
}

/** The whole sheet made small, with the numbers of its pages. */
function map(drawn: DrawnPattern, tiles: readonly PdfTile[]): string[] {
  const { left, mapTop, mapHeight, mapWidth } = COVER;
  const right = Math.max(...tiles.map((tile) => tile.left + STEP.x + PAPER.overlap));
  const sheetTop = mmFromMetres(drawn.height);
  const low = Math.min(...tiles.map((tile) => tile.top - STEP.y - PAPER.overlap));
  const scale = Math.min(mapWidth / right, mapHeight / (sheetTop - low));
  const at = ([x, y]: Place): Place => [left + scale * x, mapTop - scale * (sheetTop - y)];
  return [
    pdfPen(0.2, 0.6),
    ...tiles.flatMap((tile, t) => {
      const [x, y] = at([tile.left, tile.top - STEP.y - PAPER.overlap]);
      const [w, h] = [scale * (STEP.x + PAPER.overlap), scale * (STEP.y + PAPER.overlap)];
      return [
        `${pdfNumber(x)} ${pdfNumber(y)} ${pdfNumber(w)} ${pdfNumber(h)} re S`,
        pdfText(String(t + 2), [x + 1.5, y + h - 4.5], 4),
      ];
    }),
    pdfPen(0.25),
    ...drawn.pieces.flatMap((piece) =>
      piece.edges.map(({ points }) => pdfLine(points.map((point) => at(onSheet(piece, point))))),
    ),
  ];
}

const onSheet = ({ offset }: DrawnPiece, [x, y]: FlatPoint): Place => [
  mmFromMetres(x + offset[0]),
  mmFromMetres(y + offset[1]),
];

function tilePage(tile: PdfTile, { label, size }: { readonly label: string; readonly size: string }): string {
  const [w, h] = [STEP.x + PAPER.overlap, STEP.y + PAPER.overlap];
  const { border } = PAPER;
  const toPage: Place = [border - tile.left, border + h - tile.top];
  return [
    'q',
    `${border} ${border} ${w} ${h} re W n`,
    `1 0 0 1 ${pdfNumber(toPage[0])} ${pdfNumber(toPage[1])} cm`,
    ...overlapMarks(tile),
    ...tile.pieces.flatMap((piece) => pieceLines(piece, size)),
    'Q',
    pdfPen(0.15, 0.6),
    `${border} ${border} ${w} ${h} re S`,
    pdfPen(0.2),
    pdfText(label, [border, 4], 3.5),
  ].join('\n');
}

/** Dashed lines where the neighbours end, and crosses in the middle of what both show. */
function overlapMarks({ left, top }: PdfTile): string[] {
  const [right, bottom] = [left + STEP.x + PAPER.overlap, top - STEP.y - PAPER.overlap];
  const half = PAPER.overlap / 2;
  const xs = [left + half, right - half];
  const ys = [top - half, bottom + half];
  const [middleX, middleY] = [(left + right) / 2, (top + bottom) / 2];
  const crosses: Place[] = [
    ...xs.flatMap((x) => [...ys, middleY].map((y): Place => [x, y])),
    ...ys.map((y): Place => [middleX, y]),
  ];
  return [
    pdfPen(0.15, 0.6, [2, 2]),
    ...[left + PAPER.overlap, right - PAPER.overlap].map((x) =>
      pdfLine([
        [x, bottom],
        [x, top],
      ]),
    ),
    ...[top - PAPER.overlap, bottom + PAPER.overlap].map((y) =>
      pdfLine([
        [left, y],
        [right, y],
      ]),
    ),
    pdfPen(0.2, 0.3),
    ...crosses.flatMap(([x, y]) => [
      pdfLine([
        [x - MARK.cross, y],
        [x + MARK.cross, y],
      ]),
      pdfLine([
        [x, y - MARK.cross],
        [x, y + MARK.cross],
      ]),
    ]),
  ];
}

function pieceLines(piece: DrawnPiece, size: string): string[] {
  const line = (points: readonly FlatPoint[]) => pdfLine(points.map((point) => onSheet(piece, point)));
  return [
    pdfPen(0.35),
    ...piece.edges.map(({ points }) => line(points)),
    ...piece.notches.map(({ at, inwards }) => {
      const [x, y] = onSheet(piece, at);
      return pdfLine([
        [x, y],
        [x + MARK.notch * inwards[0], y + MARK.notch * inwards[1]],
      ]);
    }),
    pdfPen(0.25),
    line(piece.grain),
    line(arrowHead(piece.grain, MARK.arrow / 1000)),
    pdfText(
      [piece.name, size].join(' ').trim(),
      onSheet(piece, piece.title),
      mmFromMetres(piece.titleHeight),
    ),
    pdfPen(0.25, 0.35),
    ...piece.labels.map(({ text, at, anchor }) => pdfText(text, onSheet(piece, at), 4, anchor)),
    pdfPen(0.25, 0, [4, 2]),
    ...piece.lines.map(({ points }) => line(points)),
  ];
}
