import { Fault } from '../fault/fault.ts';

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;
const DECIMAL_COMMA = /^[+-]?\d*,\d+(e[+-]?\d+)?$/i;
const NO_NUMBER = /^[+-]?(1\.#)?(nan|inf|ind|infinity)/i;

/**
 * A coordinate as written in a text file; null for a word that is none.
 *
 * @param place - Line and vertex, from 1.
 * @throws {Fault} `mesh/not-finite` for nan, inf and numbers beyond all bounds; `mesh/decimal-comma`.
 */
export function readCoordinate(
  word: string,
  place: { readonly line: number; readonly vertex: number },
): number | null {
  const isNumber = NUMBER.test(word);
  const value = isNumber ? Number(word) : NaN;
  if (isUsableCoordinate(value)) return value;
  if (DECIMAL_COMMA.test(word)) throw new Fault('mesh/decimal-comma', { line: place.line, value: word });
  if (!isNumber && !NO_NUMBER.test(word)) return null;
  throw new Fault('mesh/not-finite', { ...place, value: word.slice(0, 40) });
}

/** Beyond this, squares and volumes of coordinates leave the range of numbers; no unit makes a body so large. */
const LARGEST_COORDINATE = 1e12;

/** Finite, and small enough to compute with. */
export const isUsableCoordinate = (value: number): boolean => Math.abs(value) <= LARGEST_COORDINATE;

/**
 * Makes sure that all coordinates of a binary file are numbers that can be computed with.
 *
 * @throws {Fault} `mesh/not-finite`.
 */
export function requireUsableCoordinates(positions: ArrayLike<number>): void {
  for (let i = 0; i < positions.length; i++) {
    if (isUsableCoordinate(positions[i]!)) continue;
    throw new Fault('mesh/not-finite', {
      vertex: Math.floor(i / 3) + 1,
      line: null,
      value: String(positions[i]),
    });
  }
}

/** Text from a file, short enough for a sentence. */
export const shortened = (text: string): string => (text.length > 60 ? `${text.slice(0, 60)}...` : text);
