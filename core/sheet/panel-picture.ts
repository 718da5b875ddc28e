import { drawnPattern, type DrawnPiece } from '../pattern/drawn-pattern.ts';
import { curveLength } from '../pattern/arc-length.ts';
import { boxOf, outlineOf } from '../pattern/flat-outline.ts';
import type { EdgeOf, FlatPoint, Pattern } from '../pattern/pattern.ts';
import type { Garment } from '../garment/garment.ts';

/** The panels of a garment side by side as a small picture; m, y down from the upper edge. */
export interface PanelPicture {
  readonly pieces: readonly PicturePiece[];
  readonly width: number;
  readonly height: number;
}

/** One panel; of a pair of mirror images the left one. */
export interface PicturePiece {
  /** As the pattern calls it. */
  readonly name: string;
  /** How many are cut: two where the right one is its mirror image. */
  readonly count: 1 | 2;
  readonly edges: readonly PictureEdge[];
  /** Along the warp, from its tail to its head. */
  readonly grain: readonly [FlatPoint, FlatPoint];
  /** In the middle of its lower edge. */
  readonly foot: FlatPoint;
}

/** One edge of a panel, and where the sewn cloth has it. */
export interface PictureEdge extends EdgeOf {
  readonly key: string;
  readonly points: readonly FlatPoint[];
  /** In the flat panel, m. */
  readonly length: number;
  /** What it is sewn to: another edge, its own mirror image, or nothing where it is free. */
  readonly sewnTo: EdgeOf | 'mirror' | null;
}

/** Where each edge of a pattern lies: pairs of the finest mesh's vertices, by the edge's key. */
export type EdgeSegments = Readonly<Record<string, Uint32Array>>;

/** Between panels and round them, m. */
const GAP = 0.02;
const SIDE = / (left|right)$/;

export const edgeKey = ({ panel, edge }: EdgeOf): string => `${panel} / ${edge}`;

/** A pattern's panels in one row, all standing on one line. */
export function panelPicture(pattern: Pattern): PanelPicture {
  const isHalf = pattern.centre.length > 0;
  const drawn = drawnPattern(pattern).pieces.filter(({ name }) => !isHalf || !name.endsWith(' right'));
  const boxes = drawn.map((piece) => boxOf(outlineOf(piece)));
  const height = Math.max(...boxes.map(({ top, bottom }) => top - bottom)) + 2 * GAP;
  let x = GAP;
  const pieces = drawn.map((piece, p): PicturePiece => {
    const { left, right, bottom } = boxes[p]!;
    const foot: FlatPoint = [x + (right - left) / 2, height - GAP];
    const from = x;
    x += right - left + GAP;
    const place = ([px, py]: FlatPoint): FlatPoint => [from + px - left, height - GAP - (py - bottom)];
    return { ...placedPiece(piece, pattern, place), foot };
  });
  return { pieces, width: x, height };
}

function placedPiece(
  { name: drawnName, edges, grain }: DrawnPiece,
  pattern: Pattern,
  place: (point: FlatPoint) => FlatPoint,
): Omit<PicturePiece, 'foot'> {
  const isWhole = pattern.panels.some(({ name }) => name === drawnName);
  const name = isWhole ? drawnName : drawnName.replace(SIDE, '');
  // A piece cut on the fold has each edge twice.
  const own = new Set(pattern.panels.find((panel) => panel.name === name)?.edges.map((edge) => edge.name));
  return {
    name,
    count: isWhole ? 1 : 2,
    edges: edges.map((curve): PictureEdge => {
      const edge = own.has(curve.name) ? curve.name : curve.name.replace(SIDE, '');
      const of = { panel: name, edge };
      return {
        ...of,
        key: edgeKey(of),
        points: curve.points.map(place),
        length: curveLength(curve.points),
        sewnTo: sewnTo(pattern, of),
      };
    }),
    grain: [place(grain[0]), place(grain[1])],
  };
}

function sewnTo({ seams, centre }: Pattern, of: EdgeOf): PictureEdge['sewnTo'] {
  const isIt = (other: EdgeOf): boolean => other.panel === of.panel && other.edge === of.edge;
  if (centre.some(isIt)) return 'mirror';
  for (const { one, other } of seams) {
    if (isIt(one)) return other;
    if (isIt(other)) return one;
  }
  return null;
}

/** Where the edges of the picture lie on the sewn cloth. */
export const edgeSegments = ({ edges = [] }: Pick<Garment, 'edges'>): EdgeSegments =>
  Object.fromEntries(edges.map((edge) => [edgeKey(edge), edge.segments]));
