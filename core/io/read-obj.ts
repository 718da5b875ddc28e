import { Fault } from '../fault/fault.ts';
import type { MeshScene, PassedOver } from '../mesh/mesh-scene.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { readCoordinate, shortened } from './mesh-number.ts';
import { LARGE_FACE, requireWithin } from './mesh-limits.ts';
import { partNames, splitIntoParts, type PartNames } from './scene-parts.ts';
import { splitFace } from './split-face.ts';
import { textLines } from './text-lines.ts';

/**
 * Reads the surface of an OBJ file: vertices in the file's own unit and axes, all faces of all groups as triangles.
 *
 * Faces of any number of corners, indices counted from the end (negative), texture and normal indices (left out), groups,
 * comments, continued lines and all three line ends are understood; points, lines, curves and materials are passed over.
 *
 * @param text - The decoded file.
 * @throws {Fault} `mesh/not-finite`, `mesh/decimal-comma`, `mesh/unreadable-line`, `mesh/bad-index`,
 *   `mesh/no-triangles`, `mesh/too-large`; each names the line, counted from 1.
 * @see Wavefront, Advanced Visualizer manual, appendix B1: object files (.obj).
 */
export function readObj(text: string): TriangleMesh {
  return surfaceOf(text).mesh;
}

/**
 * Reads an OBJ file as {@link readObj}, piece by piece: a piece is an object (`o`), a group (`g`), or a group in an object.
 *
 * @throws {Fault} as {@link readObj}.
 */
export function readObjScene(text: string): MeshScene {
  const { mesh, partOfTriangle, parts, passedOver } = surfaceOf(text);
  return {
    format: 'obj',
    parts: splitIntoParts(mesh, partOfTriangle, parts.names),
    unit: null,
    up: null,
    front: null,
    passedOver: [...passedOver],
  };
}

interface Surface {
  readonly mesh: TriangleMesh;
  /** T. */
  readonly partOfTriangle: readonly number[];
  readonly parts: PartNames;
  readonly passedOver: ReadonlySet<PassedOver>;
}

/** What has been read so far. */
interface Reading {
  readonly coordinates: number[];
  readonly triangles: number[];
  readonly partOfTriangle: number[];
  /** Faces that name vertices which come later. */
  readonly waiting: { readonly line: number; readonly part: number; readonly corners: readonly number[] }[];
  readonly parts: PartNames;
  readonly passedOver: Set<PassedOver>;
  largeCorners: number;
  object: string;
  group: string;
}

function surfaceOf(text: string): Surface {
  requireWithin('bytes', text.length);
  const reading: Reading = {
    coordinates: [],
    triangles: [],
    partOfTriangle: [],
    waiting: [],
    parts: partNames(),
    passedOver: new Set(),
    largeCorners: 0,
    object: '',
    group: '',
  };
  for (const statement of statements(text)) readStatement(statement, reading);
  const { coordinates, triangles, partOfTriangle, waiting, parts, passedOver } = reading;
  const vertexCount = coordinates.length / 3;
  for (const { line, part, corners } of waiting) {
    const beyond = corners.find((v) => v >= vertexCount);
    if (beyond !== undefined) {
      throw new Fault('mesh/bad-index', { line, triangle: null, value: String(beyond + 1), vertexCount });
    }
    addFace(corners, part, reading);
  }
  if (triangles.length === 0) throw new Fault('mesh/no-triangles', { vertexCount });
  const mesh = { positions: Float64Array.from(coordinates), triangles: Uint32Array.from(triangles) };
  return { mesh, partOfTriangle, parts, passedOver };
}

function readStatement({ line, words, content }: Statement, reading: Reading): void {
  switch (words[0] ?? '') {
    case 'v':
      readVertex(line, words, content, reading.coordinates);
      // One number more is a weight; three are a colour.
      if (words.length >= 7) reading.passedOver.add('colours');
      return;
    case 'f': {
      const corners = readFace(line, words, reading.coordinates.length / 3);
      const part = reading.parts.numberOf(pieceName(reading));
      const isAhead = corners.some((v) => v >= reading.coordinates.length / 3);
      if (isAhead) reading.waiting.push({ line, part, corners });
      else addFace(corners, part, reading);
      return;
    }
    case 'o':
      reading.object = words.slice(1).join(' ');
      reading.group = '';
      return;
    case 'g':
      reading.group = words.slice(1).join(' ');
      return;
    case 'vt':
      reading.passedOver.add('textures');
      return;
    case 'vn':
      reading.passedOver.add('normals');
      return;
    case 'p':
    case 'l':
      reading.passedOver.add('points or lines');
      return;
    default:
  }
}

/** An object's one group is often called like it. */
const pieceName = ({ object, group }: Reading): string =>
  object === '' || group === '' || object === group ? object || group : `${object} / ${group}`;

function addFace(corners: readonly number[], part: number, reading: Reading): void {
  const { coordinates, triangles, partOfTriangle } = reading;
  const distinct = corners.filter((v, i) => v !== corners[(i + 1) % corners.length]);
  if (distinct.length < 3) return;
  if (distinct.length > LARGE_FACE) {
    requireWithin('corners of large faces', (reading.largeCorners += distinct.length));
  }
  splitFace(distinct, coordinates, triangles);
  while (partOfTriangle.length < triangles.length / 3) partOfTriangle.push(part);
  requireWithin('triangles', triangles.length / 3);
}

interface Statement {
  /** Of its first line, from 1. */
  readonly line: number;
  readonly words: readonly string[];
  readonly content: string;
}

/** Lines without comments; one that ends in a backslash goes on in the next. */
function* statements(text: string): Generator<Statement> {
  const lines = textLines(text);
  for (let next = lines.next(); !next.done; next = lines.next()) {
    const { line } = next.value;
    let content = next.value.content;
    if (content.endsWith('\\')) content = joined(content, lines);
    // Within a word # is none: some programs write NaN as 1.#IND.
    if (content.includes('#')) {
      const comment = content.search(/(^|\s)#/);
      if (comment >= 0) content = content.slice(0, comment);
    }
    content = content.trim();
    if (content !== '') yield { line, words: content.split(/\s+/), content };
  }
}

/** A line and all those that it goes on in. */
function joined(first: string, lines: ReturnType<typeof textLines>): string {
  const pieces = [];
  let content = first;
  while (content.endsWith('\\')) {
    pieces.push(content.slice(0, -1));
    const next = lines.next();
    if (next.done) return [...pieces.slice(0, -1), content].join(' ');
    content = next.value.content;
  }
  return [...pieces, content].join(' ');
}

/** `v x y z`, with a weight or a colour behind it that is left out. */
function readVertex(line: number, words: readonly string[], content: string, coordinates: number[]): void {
  const vertex = coordinates.length / 3 + 1;
  requireWithin('vertices', vertex);
  if (content.includes(',')) {
    const comma = words.find((word) => /^[+-]?\d*,\d+(e[+-]?\d+)?$/i.test(word));
    if (comma !== undefined) throw new Fault('mesh/decimal-comma', { line, value: comma });
  }
  if (words.length < 4) throw unreadable(line, content, 'v and three coordinates');
  for (let k = 1; k <= 3; k++) {
    const value = readCoordinate(words[k]!, { line, vertex });
    if (value === null) throw unreadable(line, content, 'v and three coordinates');
    coordinates.push(value);
  }
}

/** Corners of `f a b c ...`, each as a, a/t, a//n or a/t/n; indices from 0, those ahead of the vertices checked later. */
function readFace(line: number, words: readonly string[], vertexCount: number): number[] {
  requireWithin('corners of one face', words.length - 1);
  if (words.length < 4) throw unreadable(line, words.join(' '), 'f and at least three vertices');
  const corners: number[] = [];
  for (let k = 1; k < words.length; k++) {
    const reference = /^([+-]?\d+)(\/[+-]?\d*){0,2}$/.exec(words[k]!)?.[1];
    if (reference === undefined) throw unreadable(line, words.join(' '), 'f and the numbers of its vertices');
    const number = Number(reference);
    if (number > 0 && number <= 0xffffffff) corners.push(number - 1);
    else if (number < 0 && -number <= vertexCount) corners.push(vertexCount + number);
    else {
      throw new Fault('mesh/bad-index', { line, triangle: null, value: reference.slice(0, 40), vertexCount });
    }
  }
  return corners;
}

const unreadable = (line: number, content: string, expected: string): Fault<'mesh/unreadable-line'> =>
  new Fault('mesh/unreadable-line', { line, text: shortened(content), expected });
