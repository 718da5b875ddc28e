import { drawnPattern, type DrawnPiece } from '../pattern/drawn-pattern.ts';
import { arrowHead } from '../pattern/grain-line.ts';
import type { FlatPoint, Pattern } from '../pattern/pattern.ts';
import { mmFromMetres } from '../units/units.ts';

/** Lengths of marks, m. */
const NOTCH = 0.005;
const ARROW = 0.012;

/** Lines and letters in mm, as the drawing is. */
const STYLE = [
  'path, line { fill: none; stroke: #000; stroke-width: 0.35; stroke-linejoin: round }',
  '.line { stroke-dasharray: 4 2 }',
  '.grain, .arrow { stroke-width: 0.25 }',
  'text { font-family: sans-serif; font-size: 8px }',
  '.edge-name { font-size: 4px; fill: #555 }',
].join('\n');

/**
 * A pattern as SVG in mm, both halves: one group per piece with its name, one path per edge with an id, grain line, notches.
 *
 * Names stand in `data-name` as they are, and in ids as far as these allow.
 *
 * @param size - Such as 38 or M; written behind each name; empty for none.
 */
export function writePatternSvg(pattern: Pattern, size = ''): string {
  const { name, pieces, width, height } = drawnPattern(pattern);
  const [w, h] = [number(width), number(height)];
  const ids = uniqueIds();
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${w}mm" height="${h}mm" viewBox="0 0 ${w} ${h}">`,
    `<title>${escaped(name)}</title>`,
    `<style>${STYLE}</style>`,
    ...pieces.flatMap((piece) => group(piece, { height, ids, size })),
    '</svg>',
    '',
  ].join('\n');
}

interface Paper {
  /** m. */
  readonly height: number;
  readonly ids: (wanted: string) => string;
  readonly size: string;
}

function group(piece: DrawnPiece, { height, ids, size }: Paper): string[] {
  const place = ([x, y]: FlatPoint): string =>
    `${number(x + piece.offset[0])} ${number(height - y - piece.offset[1])}`;
  const path = (points: readonly FlatPoint[]): string => `M${points.map(place).join(' L')}`;
  const line = (kind: string, from: FlatPoint, to: FlatPoint): string => {
    const [x1, y1] = place(from).split(' ');
    const [x2, y2] = place(to).split(' ');
    return `<line class="${kind}" x1="${x1}" y1="${y1}" x2="${x2}" y2="${y2}"/>`;
  };
  const text = (kind: string, at: FlatPoint, words: string, style = ''): string => {
    const [x, y] = place(at).split(' ');
    return `<text class="${kind}" x="${x}" y="${y}"${style}>${escaped(words)}</text>`;
  };
  const id = ids(piece.name);
  const named = (kind: string, name: string): string =>
    `id="${ids(`${id}.${name}`)}" class="${kind}" data-name="${escaped(name)}"`;
  return [
    `<g id="${id}" class="panel" data-name="${escaped(piece.name)}">`,
    ...piece.edges.map(({ name, points }) => `<path ${named('edge', name)} d="${path(points)}"/>`),
    ...piece.lines.map(({ name, points }) => `<path ${named('line', name)} d="${path(points)}"/>`),
    line('grain', ...piece.grain),
    `<path class="arrow" d="${path(arrowHead(piece.grain, ARROW))}"/>`,
    ...piece.notches.map(({ at, inwards }) =>
      line('notch', at, [at[0] + NOTCH * inwards[0], at[1] + NOTCH * inwards[1]]),
    ),
    text(
      'name',
      piece.title,
      [piece.name, size].join(' ').trim(),
      ` style="font-size: ${number(piece.titleHeight)}px"`,
    ),
    ...piece.labels.map(({ text: words, at, anchor }) =>
      text('edge-name', at, words, ` style="text-anchor: ${anchor}"`),
    ),
    '</g>',
  ];
}

/** mm to a tenth of a micrometre. */
const number = (metres: number): string => String(Number(mmFromMetres(metres).toFixed(4)) + 0);

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** Text as XML holds it; characters that it cannot hold are left out. */
const escaped = (text: string): string =>
  text
    .replaceAll(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '')
    .replaceAll(/[&<>"]/g, (character) => ENTITIES[character]!);

/** Makes ids of names, no two alike. */
function uniqueIds(): (wanted: string) => string {
  const taken = new Set<string>();
  return (wanted) => {
    const plain = wanted.replaceAll(/[^\w.-]+/g, '-').replace(/^(?![a-z_])/i, '_');
    let id = plain;
    for (let n = 2; taken.has(id); n++) id = `${plain}-${n}`;
    taken.add(id);
    return id;
  };
}
