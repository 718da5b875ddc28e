import { BufferUtils } from '@gltf-transform/core';
import { Fault } from '../fault/fault.ts';
import { shortened } from './mesh-number.ts';
import type { PlyElement, PlyHeader, PlyProperty, PlyType } from './ply-header.ts';

/** Reads the numbers of a PLY file one after another. */
export interface PlyValues {
  readonly next: (type: PlyType) => number;
  /** Of the line being read, from 1; null in a binary file. */
  readonly line: () => number | null;
  /** The number last read as it stands in the file. */
  readonly asWritten: () => string;
  /** Bytes, or characters of text, that are left. */
  readonly left: () => number;
}

const BYTES: Readonly<Record<PlyType, number>> = { i1: 1, u1: 1, i2: 2, u2: 2, i4: 4, u4: 4, f4: 4, f8: 8 };

/** The least bytes that one entry of a table can take. */
export const leastBytes = ({ properties }: PlyElement, coding: PlyHeader['coding']): number =>
  properties.reduce(
    (sum, { type, countType }: PlyProperty) =>
      // In text a digit and a blank.
      sum + (coding === 'text' ? 2 : BYTES[countType ?? type]),
    0,
  );

/** The numbers after the header. */
export const plyValues = (bytes: Uint8Array, header: PlyHeader): PlyValues =>
  header.coding === 'text' ? textValues(bytes, header) : binaryValues(bytes, header);

/** What runs past the end is told by whoever knows what it was. */
export class EndOfPly extends Error {}

function binaryValues(bytes: Uint8Array, { coding, end }: PlyHeader): PlyValues {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const isLittle = coding === 'little';
  let at = end;
  let last = 0;
  const read: Readonly<Record<PlyType, () => number>> = {
    i1: () => view.getInt8(at),
    u1: () => view.getUint8(at),
    i2: () => view.getInt16(at, isLittle),
    u2: () => view.getUint16(at, isLittle),
    i4: () => view.getInt32(at, isLittle),
    u4: () => view.getUint32(at, isLittle),
    f4: () => view.getFloat32(at, isLittle),
    f8: () => view.getFloat64(at, isLittle),
  };
  return {
    next: (type) => {
      if (at + BYTES[type] > bytes.length) throw new EndOfPly();
      last = read[type]();
      at += BYTES[type];
      return last;
    },
    line: () => null,
    asWritten: () => String(last),
    left: () => bytes.length - at,
  };
}

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;
const NO_NUMBER = /^[+-]?(1\.#)?(nan|inf|ind|infinity)/i;

const isBlank = (code: number): boolean => code === 32 || (code >= 9 && code <= 13);

/** Words between blanks and line ends. */
function textValues(bytes: Uint8Array, { end, endLine }: PlyHeader): PlyValues {
  const text = BufferUtils.decodeText(bytes.slice(end));
  let at = 0;
  let line = endLine;
  let word = '';
  const skip = (): void => {
    for (; at < text.length && isBlank(text.charCodeAt(at)); at++) {
      const code = text.charCodeAt(at);
      if (code === 10 || (code === 13 && text.charCodeAt(at + 1) !== 10)) line++;
    }
  };
  return {
    next: (type) => {
      skip();
      const from = at;
      while (at < text.length && !isBlank(text.charCodeAt(at))) at++;
      if (from === at) throw new EndOfPly();
      word = text.slice(from, at);
      const value = NUMBER.test(word) ? Number(word) : NaN;
      const isWhole = type.startsWith('f') || Number.isInteger(value);
      if (isWhole && (NUMBER.test(word) || (type.startsWith('f') && NO_NUMBER.test(word)))) return value;
      if (/^[+-]?\d*,\d+(e[+-]?\d+)?$/i.test(word)) {
        throw new Fault('mesh/decimal-comma', { line, value: shortened(word) });
      }
      throw new Fault('mesh/unreadable-line', {
        line,
        text: shortened(word),
        expected: type.startsWith('f') ? 'a number' : 'a whole number',
      });
    },
    line: () => line,
    asWritten: () => word.slice(0, 40),
    left: () => text.length - at,
  };
}
