import { useEffect, useSyncExternalStore, type ReactElement } from 'react';
import type { PanelPicture, PictureEdge, PicturePiece } from '../../../core/sheet/panel-picture.ts';
import { edgeText, pieceText, SPEC_WORDS } from '../../../core/words/spec-words.ts';
import { useTable } from '../../table.ts';
import { useBoxSize } from '../bench/use-box-size.ts';

/** Before it has been measured, px. */
const FIRST = { width: 300, height: 130 };
/** Room for names under the panels, px. */
const NAMES = 14;
/** Narrower than this, a panel is not named: the words would run into its neighbour's, px. */
const NAMED = 72;

/** The panels as they lie on the table; the edge that is pointed at is marked here and on the form. */
export function PanelsFlat({ picture }: { readonly picture: PanelPicture }): ReactElement {
  const [box, size] = useBoxSize(FIRST);
  const [marked, mark] = useMarkedEdge();
  const edges = picture.pieces.flatMap((piece) => piece.edges);
  const shown = edges.find(({ key }) => key === marked);
  const scale = Math.min(size.width / picture.width, (size.height - NAMES) / picture.height);
  const isNamed = (picture.width * scale) / picture.pieces.length >= NAMED;
  const parts = { scale, marked, mark, isNamed };
  return (
    <figure className="panels-flat">
      <div ref={box} className="panels-place">
        <svg
          width={picture.width * scale}
          height={picture.height * scale + NAMES}
          role="group"
          aria-label={SPEC_WORDS.picture}
        >
          {picture.pieces.map((piece) => (
            <Piece key={piece.name} piece={piece} {...parts} />
          ))}
        </svg>
      </div>
      <figcaption aria-live="polite">{shown ? edgeText(shown) : SPEC_WORDS.pointAt}</figcaption>
    </figure>
  );
}

interface Drawing {
  /** px per m. */
  readonly scale: number;
  readonly marked: string | null;
  readonly mark: (key: string | null) => void;
  readonly isNamed: boolean;
}

/** Head of the grain arrow, px. */
const HEAD = 7;

function Piece({
  piece,
  scale,
  isNamed,
  ...edges
}: { readonly piece: PicturePiece } & Drawing): ReactElement {
  const outline = piece.edges.map(({ points }) => pathOf(points, scale).slice(1)).join('L');
  const [tail, head] = piece.grain.map(([x, y]) => [scale * x, scale * y] as const);
  const length = Math.hypot(head![0] - tail![0], head![1] - tail![1]) || 1;
  const [dx, dy] = [(head![0] - tail![0]) / length, (head![1] - tail![1]) / length];
  const barb = (side: number): string =>
    `${head![0] - HEAD * dx + (side * HEAD * dy) / 2.5},${head![1] - HEAD * dy - (side * HEAD * dx) / 2.5}`;
  return (
    <g>
      <path className="panel-cloth" d={`M${outline}Z`} />
      <path className="panel-grain" d={`M${tail![0]},${tail![1]}L${head![0]},${head![1]}`} />
      <path className="panel-grain" d={`M${barb(1)}L${head![0]},${head![1]}L${barb(-1)}`} />
      {isNamed && (
        <text x={scale * piece.foot[0]} y={scale * piece.foot[1] + NAMES}>
          {pieceText(piece.name, piece.count)}
        </text>
      )}
      {piece.edges.map((edge, index) => (
        <Edge key={index} edge={edge} scale={scale} {...edges} />
      ))}
    </g>
  );
}

function Edge({
  edge,
  scale,
  marked,
  mark,
}: { readonly edge: PictureEdge } & Omit<Drawing, 'isNamed'>): ReactElement {
  const d = pathOf(edge.points, scale);
  const isMarked = edge.key === marked;
  return (
    <g
      className={`panel-edge ${edge.sewnTo === null ? 'free' : ''} ${isMarked ? 'marked' : ''}`}
      role="button"
      tabIndex={0}
      aria-label={edgeText(edge)}
      aria-pressed={isMarked}
      onPointerEnter={() => mark(edge.key)}
      onPointerLeave={() => mark(null)}
      onFocus={() => mark(edge.key)}
      onBlur={() => mark(null)}
      onClick={() => mark(edge.key)}
    >
      <path className="panel-reach" d={d} />
      <path className="panel-line" d={d} />
    </g>
  );
}

const pathOf = (points: PictureEdge['points'], scale: number): string =>
  `M${points.map(([x, y]) => `${(scale * x).toFixed(1)},${(scale * y).toFixed(1)}`).join('L')}`;

/** The edge that is pointed at, wherever it is; none when the leaf is closed. */
function useMarkedEdge(): readonly [string | null, (key: string | null) => void] {
  const { edge } = useTable().signals;
  const marked = useSyncExternalStore(edge.listen, edge.get, edge.get);
  useEffect(() => () => edge.set(null), [edge]);
  return [marked, edge.set];
}
