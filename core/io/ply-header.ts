import { Fault } from '../fault/fault.ts';
import { asciiText } from './ascii-text.ts';
import { shortened } from './mesh-number.ts';
import { textLines } from './text-lines.ts';

/** How a number is stored. */
export type PlyType = 'i1' | 'u1' | 'i2' | 'u2' | 'i4' | 'u4' | 'f4' | 'f8';

/** One property of an element: a number, or a list led by its length. */
export interface PlyProperty {
  readonly name: string;
  readonly type: PlyType;
  /** Of the length of a list; null for a single number. */
  readonly countType: PlyType | null;
}

/** A table of a PLY file. */
export interface PlyElement {
  readonly name: string;
  readonly count: number;
  readonly properties: readonly PlyProperty[];
}

export interface PlyHeader {
  readonly coding: 'text' | 'little' | 'big';
  readonly elements: readonly PlyElement[];
  /** The byte at which the tables begin, and the line, from 1. */
  readonly end: number;
  readonly endLine: number;
}

const TYPES: Readonly<Record<string, PlyType>> = {
  char: 'i1',
  int8: 'i1',
  uchar: 'u1',
  uint8: 'u1',
  short: 'i2',
  int16: 'i2',
  ushort: 'u2',
  uint16: 'u2',
  int: 'i4',
  int32: 'i4',
  uint: 'u4',
  uint32: 'u4',
  float: 'f4',
  float32: 'f4',
  double: 'f8',
  float64: 'f8',
};

const CODINGS: Readonly<Record<string, PlyHeader['coding']>> = {
  ascii: 'text',
  binary_little_endian: 'little',
  binary_big_endian: 'big',
};

/** A header is a few lines; this much is looked at. */
const LONGEST_HEADER = 1 << 16;

/**
 * Reads the header of a PLY file.
 *
 * @throws {Fault} `mesh/not-its-kind`, `mesh/unreadable-line`.
 * @see Turk, The PLY polygon file format (1994), from memory.
 */
export function readPlyHeader(bytes: Uint8Array): PlyHeader {
  const text = asciiText(bytes.subarray(0, LONGEST_HEADER));
  if (!/^ply\s/.test(text)) {
    throw new Fault('mesh/not-its-kind', { kind: 'PLY', problem: 'it does not begin with "ply"' });
  }
  const found = /(^|[\r\n])end_header[ \t]*(\r\n|\n|\r)/.exec(text);
  if (found === null) {
    throw new Fault('mesh/not-its-kind', { kind: 'PLY', problem: 'its header has no "end_header"' });
  }
  let coding: PlyHeader['coding'] | null = null;
  const elements: { name: string; count: number; properties: PlyProperty[] }[] = [];
  let endLine = 1;
  for (const { line, content } of textLines(text.slice(0, found.index))) {
    endLine = line + 2;
    const words = content.trim().split(/\s+/);
    const refuse = (expected: string): Fault =>
      new Fault('mesh/unreadable-line', { line, text: shortened(content.trim()), expected });
    if (words[0] === 'format') coding = codingOf(words, refuse);
    else if (words[0] === 'element') elements.push(elementOf(words, refuse));
    else if (words[0] === 'property') {
      const element = elements.at(-1);
      if (element === undefined) throw refuse('an element before its properties');
      element.properties.push(propertyOf(words, refuse));
    } else if (!['ply', 'comment', 'obj_info', ''].includes(words[0]!)) {
      throw refuse('format, comment, element, property or end_header');
    }
  }
  if (coding === null) {
    throw new Fault('mesh/not-its-kind', { kind: 'PLY', problem: 'its header names no format' });
  }
  return { coding, elements, end: found.index + found[0].length, endLine };
}

type Refuse = (expected: string) => Fault;

function codingOf(words: readonly string[], refuse: Refuse): PlyHeader['coding'] {
  const coding = Object.hasOwn(CODINGS, words[1] ?? '') ? CODINGS[words[1]!] : undefined;
  if (coding === undefined || words[2] !== '1.0') {
    throw refuse('format ascii, binary_little_endian or binary_big_endian 1.0');
  }
  return coding;
}

function elementOf(
  words: readonly string[],
  refuse: Refuse,
): { name: string; count: number; properties: PlyProperty[] } {
  const count = /^\d{1,10}$/.test(words[2] ?? '') ? Number(words[2]) : NaN;
  if (words.length !== 3 || !Number.isFinite(count)) throw refuse('element, its name and how many there are');
  return { name: words[1]!, count, properties: [] };
}

function propertyOf(words: readonly string[], refuse: Refuse): PlyProperty {
  const isList = words[1] === 'list';
  const typeAt = (i: number): PlyType => {
    const word = words[i] ?? '';
    if (!Object.hasOwn(TYPES, word)) throw refuse('property, a type such as float or uchar, and a name');
    return TYPES[word]!;
  };
  if (words.length !== (isList ? 5 : 3)) throw refuse('property, its type and its name');
  if (!isList) return { name: words[2]!, type: typeAt(1), countType: null };
  const countType = typeAt(2);
  if (countType.startsWith('f')) throw refuse('a list whose length is a whole number');
  return { name: words[4]!, type: typeAt(3), countType };
}
