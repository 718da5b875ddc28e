import { drawnPattern, type DrawnPiece } from '../pattern/drawn-pattern.ts';
import { outlineOf } from '../pattern/flat-outline.ts';
import type { FlatPoint, Pattern } from '../pattern/pattern.ts';
import { mmFromMetres } from '../units/units.ts';
import { plainAscii } from './pattern-plain-text.ts';

/** Layers of ASTM D6673 that are written; what each holds is its name. */
const LAYER = { boundary: 1, turns: 2, curves: 3, notches: 4, grain: 7, inner: 8, sewing: 14 } as const;
/** How deep a notch is cut, mm. */
const NOTCH_DEPTH = 5;
const TEXT_HEIGHT = 10;
/** Characters of a piece name, at most. */
const NAME_LENGTH = 20;

export interface DxfWish {
  /** METRIC are mm with 2 decimals, ENGLISH are inches with 4. */
  readonly units: 'METRIC' | 'ENGLISH';
  /** Such as 38 or M; empty for none. */
  readonly size: string;
  /** One name per fabric of the garment, where they have any. */
  readonly fabrics?: readonly string[];
}

/**
 * A pattern as text DXF in the arrangement of ASTM D6673: both halves, one block per piece, layers as the standard numbers
 * them. Panels have no seam allowance: boundary and sew lines are the same lines.
 *
 * @see ASTM D6673-10, Standard practice for sewn products pattern data interchange: layers as read in public reader
 *   manuals; depth and angle of notches (groups 30 and 50) from memory.
 */
export function writePatternDxf(pattern: Pattern, wish: DxfWish = { units: 'METRIC', size: '' }): string {
  const drawn = drawnPattern(pattern);
  const names = shortNames(drawn.pieces.map(({ name }) => name));
  // The oldest readers take neither spaces nor points in the name of a block.
  const blockNames = shortNames(names.map((name) => name.replaceAll(/[^\w$-]/g, '_')));
  const text = dxfText(wish.units);
  const blocks = drawn.pieces.map((piece, p) =>
    block(text, piece, { name: names[p]!, blockName: blockNames[p]! }, wish),
  );
  const head = [
    'ASTM/D13Proposal 1 Version: D 6673-04',
    `Style Name: ${plainAscii(drawn.name)}`,
    `Sample Size: ${plainAscii(wish.size)}`,
    'Grade Rule Table:',
    `Units: ${wish.units}`,
  ];
  const inserts = drawn.pieces.map(({ offset }, p) =>
    text.lines([[0, 'INSERT'], [8, 1], [2, blockNames[p]!], ...text.place(offset)]),
  );
  return [
    text.lines([
      [0, 'SECTION'],
      [2, 'HEADER'],
      [9, '$ACADVER'],
      [1, 'AC1009'],
      [0, 'ENDSEC'],
    ]),
    text.lines([
      [0, 'SECTION'],
      [2, 'BLOCKS'],
    ]),
    ...blocks,
    text.lines([
      [0, 'ENDSEC'],
      [0, 'SECTION'],
      [2, 'ENTITIES'],
    ]),
    ...inserts,
    ...head.map((line, i) => text.note(line, [0, -0.02 * (i + 1)])),
    text.lines([
      [0, 'ENDSEC'],
      [0, 'EOF'],
    ]),
  ].join('');
}

type Pair = readonly [code: number, value: string | number];

interface DxfText {
  readonly lines: (pairs: readonly Pair[]) => string;
  readonly place: (at: FlatPoint, x?: number) => readonly Pair[];
  readonly note: (value: string, at: FlatPoint) => string;
  readonly polyline: (layer: number, points: readonly FlatPoint[], closed: boolean) => string;
}

const lines = (pairs: readonly Pair[]): string =>
  pairs.map(([code, value]) => `${code}\n${value}\n`).join('');

function dxfText(units: DxfWish['units']): DxfText {
  const unit = units === 'METRIC' ? { perMm: 1, decimals: 2 } : { perMm: 1 / 25.4, decimals: 4 };
  const number = (metres: number) => {
    const text = (mmFromMetres(metres) * unit.perMm).toFixed(unit.decimals);
    return Number(text) === 0 ? (0).toFixed(unit.decimals) : text;
  };
  const place = ([x, y]: FlatPoint, first = 10): readonly Pair[] => [
    [first, number(x)],
    [first + 10, number(y)],
  ];
  return {
    lines,
    place,
    note: (value, at) =>
      lines([
        [0, 'TEXT'],
        [8, LAYER.boundary],
        ...place(at),
        [40, (TEXT_HEIGHT * unit.perMm).toFixed(2)],
        [1, value],
      ]),
    polyline: (layer, points, closed) =>
      [
        lines([
          [0, 'POLYLINE'],
          [8, layer],
          [66, 1],
          [70, closed ? 1 : 0],
        ]),
        ...points.map((at) => lines([[0, 'VERTEX'], [8, layer], ...place(at)])),
        lines([
          [0, 'SEQEND'],
          [8, layer],
        ]),
      ].join(''),
  };
}

function block(
  text: DxfText,
  piece: DrawnPiece,
  { name, blockName }: { readonly name: string; readonly blockName: string },
  { size, fabrics = [] }: DxfWish,
): string {
  const { edges, sewn, lines, grain, notches, title } = piece;
  const point = (layer: number, at: FlatPoint) => text.lines([[0, 'POINT'], [8, layer], ...text.place(at)]);
  const notes = [
    `Piece Name: ${name}`,
    ...(size === '' ? [] : [`Size: ${plainAscii(size)}`]),
    'Quantity: 1,0',
    ...(fabrics[piece.fabric] === undefined ? [] : [`Material: ${plainAscii(fabrics[piece.fabric]!)}`]),
  ];
  return [
    text.lines([[0, 'BLOCK'], [8, 1], [2, blockName], [70, 64], ...text.place([0, 0])]),
    text.polyline(LAYER.boundary, outlineOf(piece), true),
    ...edges.map(({ points }) => point(LAYER.turns, points[0]!)),
    ...edges.flatMap(({ points }) => points.slice(1, -1)).map((at) => point(LAYER.curves, at)),
    ...notches.map(({ at, inwards }) =>
      text.lines([
        [0, 'POINT'],
        [8, LAYER.notches],
        ...text.place(at),
        [30, NOTCH_DEPTH.toFixed(2)],
        [50, ((180 / Math.PI) * Math.atan2(inwards[1], inwards[0])).toFixed(2)],
      ]),
    ),
    text.lines([[0, 'LINE'], [8, LAYER.grain], ...text.place(grain[0]), ...text.place(grain[1], 11)]),
    ...lines.map(({ points }) => text.polyline(LAYER.inner, points, false)),
    ...edges
      .filter((edge) => sewn.has(edge.name))
      .map(({ points }) => text.polyline(LAYER.sewing, points, false)),
    ...notes.map((note, i) => text.note(note, [title[0], title[1] - 0.015 * i])),
    text.lines([
      [0, 'ENDBLK'],
      [8, 1],
    ]),
  ].join('');
}

/** Names that a piece may have, no two alike. */
function shortNames(names: readonly string[]): string[] {
  const taken = new Set<string>();
  return names.map((name) => {
    const plain = plainAscii(name);
    let short = plain.slice(0, NAME_LENGTH);
    for (let number = 2; taken.has(short); number++) {
      const suffix = `-${number}`;
      short = plain.slice(0, NAME_LENGTH - suffix.length) + suffix;
    }
    taken.add(short);
    return short;
  });
}
