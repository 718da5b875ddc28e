import { Fault } from '../fault/fault.ts';
import { after, moved, scaled, turnedBy, UNCHANGED, type FlatTransform } from '../pattern/flat-transform.ts';
import { LARGEST_PATTERN_NUMBER } from './pattern-limits.ts';
import { shortened } from './mesh-number.ts';

/** mm per unit of length; px after CSS. @see W3C, CSS Values and Units 4, 5.2 absolute lengths: 1in = 96px = 72pt = 6pc. */
const MM_PER: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  q: 0.25,
  in: 25.4,
  pt: 25.4 / 72,
  pc: 25.4 / 6,
  px: 25.4 / 96,
  '': 25.4 / 96,
};

/** A length as written: how many of which unit. */
export interface SvgLength {
  readonly value: number;
  readonly unit: string;
  /** mm; null for per cent and units that depend on letters. */
  readonly mm: number | null;
}

/**
 * Reads a length such as `210mm`.
 *
 * @throws {Fault} `pattern/bad-number`.
 */
export function svgLength(text: string, what: string, line: number): SvgLength {
  const [, number, unit] = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*([a-z%]*)\s*$/i.exec(text) ?? [];
  const value = Number(number);
  const isSound = number !== undefined && Math.abs(value) <= LARGEST_PATTERN_NUMBER;
  if (!isSound) throw new Fault('pattern/bad-number', { line, what, value: shortened(text) });
  const perUnit = MM_PER[unit!.toLowerCase()];
  return { value, unit: unit!.toLowerCase(), mm: perUnit === undefined ? null : value * perUnit };
}

/**
 * A number of user units, `missing` where the attribute is not there.
 *
 * @throws {Fault} `pattern/bad-number`, also for per cent.
 */
export function svgNumber(text: string | undefined, what: string, line: number, missing = 0): number {
  if (text === undefined) return missing;
  const { value, unit, mm } = svgLength(text, what, line);
  if (unit === '') return value;
  if (mm === null) throw new Fault('pattern/bad-number', { line, what, value: shortened(text) });
  return mm / MM_PER['px']!;
}

/**
 * All numbers of a list.
 *
 * @throws {Fault} `pattern/bad-number`.
 */
export function svgNumbers(text: string, what: string, line: number): number[] {
  return text
    .split(/[\s,]+/)
    .filter((word) => word !== '')
    .map((word) => svgNumber(word, what, line));
}

/**
 * Reads a list of transformations, the last one working first.
 *
 * @throws {Fault} `pattern/bad-transform`.
 * @see W3C, SVG 1.1 (second edition), 7.6 The transform attribute.
 */
export function svgTransform(text: string, line: number): FlatTransform {
  const fault = () => new Fault('pattern/bad-transform', { line, value: shortened(text.trim()) });
  let all = UNCHANGED;
  let rest = text.trim();
  while (rest !== '') {
    const [whole, name, inner] = /^([a-z]+)\s*\(([^()]*)\)[\s,]*/i.exec(rest) ?? [];
    if (whole === undefined) throw fault();
    const numbers = inner!
      .split(/[\s,]+/)
      .filter((word) => word !== '')
      .map(Number);
    const one = numbers.every((n) => Math.abs(n) <= LARGEST_PATTERN_NUMBER)
      ? transformOf(name!, numbers)
      : null;
    if (!one) throw fault();
    all = after(all, one);
    rest = rest.slice(whole.length);
  }
  return all;
}

function transformOf(name: string, n: readonly number[]): FlatTransform | null {
  const degrees = Math.PI / 180;
  const turn = n.length > 0 ? turnedBy(degrees * n[0]!) : UNCHANGED;
  switch (`${name} ${n.length}`) {
    case 'matrix 6':
      return { a: n[0]!, b: n[1]!, c: n[2]!, d: n[3]!, e: n[4]!, f: n[5]! };
    case 'translate 1':
      return moved(n[0]!, 0);
    case 'translate 2':
      return moved(n[0]!, n[1]!);
    case 'scale 1':
      return scaled(n[0]!, n[0]!);
    case 'scale 2':
      return scaled(n[0]!, n[1]!);
    case 'rotate 1':
      return turn;
    case 'rotate 3':
      return after(moved(n[1]!, n[2]!), after(turn, moved(-n[1]!, -n[2]!)));
    case 'skewX 1':
      return { ...UNCHANGED, c: Math.tan(degrees * n[0]!) };
    case 'skewY 1':
      return { ...UNCHANGED, b: Math.tan(degrees * n[0]!) };
    default:
      return null;
  }
}
