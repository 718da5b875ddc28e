import { Fault } from '../fault/fault.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { requireWithin } from './mesh-limits.ts';
import { splitFace } from './split-face.ts';

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
  requireWithin('bytes', text.length);
  const coordinates: number[] = [];
  const faces: { readonly line: number; readonly corners: readonly number[] }[] = [];
  for (const { line, words, content } of statements(text)) {
    if (words[0] === 'v') readVertex(line, words, content, coordinates);
    else if (words[0] === 'f') faces.push({ line, corners: readFace(line, words, coordinates.length / 3) });
  }
  const vertexCount = coordinates.length / 3;
  const triangles: number[] = [];
  for (const { line, corners } of faces) {
    const beyond = corners.find((v) => v >= vertexCount);
    if (beyond !== undefined) {
      throw new Fault('mesh/bad-index', { line, triangle: null, value: String(beyond + 1), vertexCount });
    }
    const distinct = corners.filter((v, i) => v !== corners[(i + 1) % corners.length]);
    if (distinct.length >= 3) splitFace(distinct, coordinates, triangles);
    requireWithin('triangles', triangles.length / 3);
  }
  if (triangles.length === 0) throw new Fault('mesh/no-triangles', { vertexCount });
  return { positions: Float64Array.from(coordinates), triangles: Uint32Array.from(triangles) };
}

interface Statement {
  /** Of its first line, from 1. */
  readonly line: number;
  readonly words: readonly string[];
  readonly content: string;
}

/** Lines without comments; one that ends in a backslash goes on in the next. */
function* statements(text: string): Generator<Statement> {
  const lines = text.split(/\r\n|\n|\r/);
  for (let i = 0; i < lines.length; i++) {
    const line = i + 1;
    let content = lines[i]!;
    while (content.endsWith('\\') && i + 1 < lines.length) content = `${content.slice(0, -1)} ${lines[++i]!}`;
    // Within a word # is none: some programs write NaN as 1.#IND.
    const comment = content.search(/(^|\s)#/);
    if (comment >= 0) content = content.slice(0, comment);
    const words = content.trim().split(/\s+/);
    if (words[0] !== '') yield { line, words, content: content.trim() };
  }
}

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;
const NO_NUMBER = /^[+-]?(1\.#)?(nan|inf|ind|infinity)/i;

/** `v x y z`, with a weight or a colour behind it that is left out. */
function readVertex(line: number, words: readonly string[], content: string, coordinates: number[]): void {
  const vertex = coordinates.length / 3 + 1;
  requireWithin('vertices', vertex);
  for (const word of words.slice(1)) {
    if (/^[+-]?\d*,\d+(e[+-]?\d+)?$/i.test(word))
      throw new Fault('mesh/decimal-comma', { line, value: word });
  }
  if (words.length < 4) throw unreadable(line, content, 'v and three coordinates');
  for (let k = 1; k <= 3; k++) {
    const word = words[k]!;
    const value = NUMBER.test(word) ? Number(word) : NaN;
    if (Number.isFinite(value)) coordinates.push(value);
    else if (NUMBER.test(word) || NO_NUMBER.test(word)) {
      throw new Fault('mesh/not-finite', { vertex, line, value: word.slice(0, 40) });
    } else throw unreadable(line, content, 'v and three coordinates');
  }
}

/** Corners of `f a b c ...`, each as a, a/t, a//n or a/t/n; indices from 0, those ahead of the vertices checked later. */
function readFace(line: number, words: readonly string[], vertexCount: number): number[] {
  requireWithin('corners of one face', words.length - 1);
  const corners = words.slice(1).map((word) => {
    const reference = /^([+-]?\d+)(\/[+-]?\d*){0,2}$/.exec(word)?.[1];
    if (reference === undefined) throw unreadable(line, words.join(' '), 'f and the numbers of its vertices');
    const number = Number(reference);
    if (number > 0 && number <= 0xffffffff) return number - 1;
    if (number < 0 && -number <= vertexCount) return vertexCount + number;
    throw new Fault('mesh/bad-index', { line, triangle: null, value: reference.slice(0, 40), vertexCount });
  });
  if (corners.length < 3) throw unreadable(line, words.join(' '), 'f and at least three vertices');
  return corners;
}

const unreadable = (line: number, content: string, expected: string): Fault<'mesh/unreadable-line'> =>
  new Fault('mesh/unreadable-line', {
    line,
    text: content.length > 60 ? `${content.slice(0, 60)}...` : content,
    expected,
  });
