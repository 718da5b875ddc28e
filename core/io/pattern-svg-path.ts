import { Fault } from '../fault/fault.ts';
import type { FlatPoint } from '../pattern/pattern.ts';
import { arcSteps, cubicPoints } from './pattern-arcs.ts';
import { LARGEST_PATTERN_NUMBER, requirePatternWithin } from './pattern-limits.ts';
import { shortened } from './mesh-number.ts';

/** One stroke of a path; the first point of a closed one is not repeated. */
export interface SvgStroke {
  readonly points: readonly FlatPoint[];
  readonly closed: boolean;
}

/** How many numbers each command takes at a time. */
const TAKES: Readonly<Record<string, number>> = {
  M: 2,
  L: 2,
  H: 1,
  V: 1,
  C: 6,
  S: 4,
  Q: 4,
  T: 2,
  A: 7,
  Z: 0,
};

/** Where the pen stands. */
interface Pen {
  readonly strokes: SvgStroke[];
  points: FlatPoint[];
  /** Where Z goes back to. */
  start: FlatPoint;
  at: FlatPoint;
  /** The last handle of a C or S, of a Q or T. */
  cubic: FlatPoint | null;
  quadratic: FlatPoint | null;
  readonly tolerance: number;
}

/**
 * The strokes of a path, curves as polylines within `tolerance`: all commands, absolute and relative.
 *
 * @param line - Of the element, for faults.
 * @throws {Fault} `pattern/bad-path`, `pattern/too-large`.
 * @see W3C, SVG 1.1 (second edition), 8.3 Path data.
 */
export function svgPath(data: string, tolerance: number, line: number): SvgStroke[] {
  const pen: Pen = {
    strokes: [],
    points: [],
    start: [0, 0],
    at: [0, 0],
    cubic: null,
    quadratic: null,
    tolerance,
  };
  let count = 0;
  for (const { command, numbers } of commands(data, line)) {
    const before = pen.points.length;
    const isRelative = command !== command.toUpperCase();
    draw(pen, command.toUpperCase(), isRelative ? relativeTo(pen.at, command, numbers) : numbers);
    count += Math.max(1, pen.points.length - before);
    requirePatternWithin('points', count);
  }
  lift(pen, false);
  return pen.strokes;
}

interface Command {
  readonly command: string;
  readonly numbers: readonly number[];
}

const SPACE = /[\s,]*/y;
const NUMBER = /[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?/iy;
const FLAG = /[01]/y;

/** One set of numbers after another, each with its command; further pairs of a M are L. */
function* commands(data: string, line: number): Generator<Command> {
  const scanner = pathScanner(data, line);
  let command = scanner.command();
  if (command !== null && command.toUpperCase() !== 'M') throw scanner.fault('M, which begins every path,');
  for (; command !== null; command = scanner.command()) {
    yield { command, numbers: scanner.numbers(command) };
    if (command.toUpperCase() === 'Z') continue;
    const next = command === 'M' ? 'L' : command === 'm' ? 'l' : command;
    while (scanner.isAtNumber()) yield { command: next, numbers: scanner.numbers(next) };
  }
}

/** Reads a path from left to right. */
function pathScanner(data: string, line: number) {
  let at = 0;
  const take = (pattern: RegExp): string | null => {
    pattern.lastIndex = at;
    const found = pattern.exec(data);
    if (found) at += found[0].length;
    return found?.[0] ?? null;
  };
  const fault = (expected: string) =>
    new Fault('pattern/bad-path', {
      line,
      value: shortened(data.slice(at, at + 20).trim() || 'its end'),
      expected,
    });
  const number = (isFlag: boolean): number => {
    take(SPACE);
    const start = at;
    const value = Number(take(isFlag ? FLAG : NUMBER) ?? NaN);
    if (Math.abs(value) <= LARGEST_PATTERN_NUMBER) return value;
    at = start;
    throw fault(isFlag ? '0 or 1' : 'a number');
  };
  return {
    fault,
    /** null at the end. */
    command: (): string | null => {
      take(SPACE);
      if (at >= data.length) return null;
      if (TAKES[data[at]!.toUpperCase()] === undefined) throw fault('a path command');
      return data[at++]!;
    },
    numbers: (command: string): number[] => {
      const kind = command.toUpperCase();
      return Array.from({ length: TAKES[kind]! }, (_, k) => number(kind === 'A' && (k === 3 || k === 4)));
    },
    isAtNumber: (): boolean => {
      take(SPACE);
      return /[\d+.-]/.test(data[at] ?? '');
    },
  };
}

function relativeTo([x, y]: FlatPoint, command: string, numbers: readonly number[]): number[] {
  if (command === 'v') return [numbers[0]! + y];
  if (command === 'a') return [...numbers.slice(0, 5), numbers[5]! + x, numbers[6]! + y];
  return numbers.map((number, k) => number + (k % 2 === 0 ? x : y));
}

/** Draws one command whose numbers are absolute. */
function draw(pen: Pen, command: string, n: readonly number[]): void {
  const { cubic, quadratic } = pen;
  pen.cubic = null;
  pen.quadratic = null;
  switch (command) {
    case 'M':
      lift(pen, false);
      pen.start = [n[0]!, n[1]!];
      pen.at = pen.start;
      return;
    case 'Z':
      lift(pen, true);
      pen.at = pen.start;
      return;
    case 'L':
      return go(pen, [[n[0]!, n[1]!]]);
    case 'H':
      return go(pen, [[n[0]!, pen.at[1]]]);
    case 'V':
      return go(pen, [[pen.at[0], n[0]!]]);
    case 'C':
      return goCubic(pen, [n[0]!, n[1]!], [n[2]!, n[3]!], [n[4]!, n[5]!]);
    case 'S':
      return goCubic(pen, mirrored(pen.at, cubic), [n[0]!, n[1]!], [n[2]!, n[3]!]);
    case 'Q':
      return goQuadratic(pen, [n[0]!, n[1]!], [n[2]!, n[3]!]);
    case 'T':
      return goQuadratic(pen, mirrored(pen.at, quadratic), [n[0]!, n[1]!]);
    default:
      return go(pen, ellipticArc(pen.at, n, pen.tolerance));
  }
}

function go(pen: Pen, points: readonly FlatPoint[]): void {
  if (pen.points.length === 0) pen.points.push(pen.at);
  for (const point of points) pen.points.push(point);
  pen.at = points.at(-1)!;
}

function goCubic(pen: Pen, b: FlatPoint, c: FlatPoint, d: FlatPoint): void {
  go(pen, cubicPoints([pen.at, b, c, d], pen.tolerance));
  pen.cubic = c;
}

/** A parabola is the cubic with its handles at two thirds of the way to the one handle. */
function goQuadratic(pen: Pen, handle: FlatPoint, to: FlatPoint): void {
  const toHandle = ([x, y]: FlatPoint): FlatPoint => [
    x + (2 / 3) * (handle[0] - x),
    y + (2 / 3) * (handle[1] - y),
  ];
  go(pen, cubicPoints([pen.at, toHandle(pen.at), toHandle(to), to], pen.tolerance));
  pen.quadratic = handle;
}

const mirrored = (at: FlatPoint, handle: FlatPoint | null): FlatPoint =>
  handle ? [2 * at[0] - handle[0], 2 * at[1] - handle[1]] : at;

/** Ends a stroke. */
function lift(pen: Pen, closed: boolean): void {
  if (pen.points.length > 1) {
    const [first, last] = [pen.points[0]!, pen.points.at(-1)!];
    const isRepeated = closed && first[0] === last[0] && first[1] === last[1];
    pen.strokes.push({ points: isRepeated ? pen.points.slice(0, -1) : pen.points, closed });
  }
  pen.points = [];
}

/**
 * An elliptic arc from its two ends, as a polyline; the first point left out.
 *
 * x1' = R(-phi) (p1 - p2)/2; c' = +-sqrt((rx2 ry2 - rx2 y1'2 - ry2 x1'2)/(rx2 y1'2 + ry2 x1'2)) (rx y1'/ry, -ry x1'/rx);
 * radii too small for the chord grow by sqrt(x1'2/rx2 + y1'2/ry2).
 *
 * @see W3C, SVG 1.1 (second edition), appendix F.6 Elliptical arc implementation notes.
 */
export function ellipticArc(from: FlatPoint, n: readonly number[], tolerance: number): FlatPoint[] {
  const to: FlatPoint = [n[5]!, n[6]!];
  let [rx, ry] = [Math.abs(n[0]!), Math.abs(n[1]!)];
  const isSame = from[0] === to[0] && from[1] === to[1];
  if (rx === 0 || ry === 0 || isSame) return [to];
  const phi = (Math.PI / 180) * n[2]!;
  const [sin, cos] = [Math.sin(phi), Math.cos(phi)];
  const [hx, hy] = [(from[0] - to[0]) / 2, (from[1] - to[1]) / 2];
  const [x, y] = [cos * hx + sin * hy, cos * hy - sin * hx];
  const growth = Math.sqrt((x / rx) ** 2 + (y / ry) ** 2);
  if (growth > 1) [rx, ry] = [growth * rx, growth * ry];
  const off = (x / rx) ** 2 + (y / ry) ** 2;
  const size = (n[3] === n[4] ? -1 : 1) * Math.sqrt(Math.max(0, 1 / off - 1));
  const [cx, cy] = [(size * rx * y) / ry, (-size * ry * x) / rx];
  const [startX, startY] = [(x - cx) / rx, (y - cy) / ry];
  const start = Math.atan2(startY, startX);
  let sweep = Math.atan2((-y - cy) / ry, (-x - cx) / rx) - start;
  if (n[4] === 0 && sweep > 0) sweep -= 2 * Math.PI;
  if (n[4] === 1 && sweep < 0) sweep += 2 * Math.PI;
  const steps = arcSteps(Math.max(rx, ry), sweep, tolerance);
  const middle: FlatPoint = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  return Array.from({ length: steps }, (_, i): FlatPoint => {
    if (i === steps - 1) return to;
    const angle = start + (sweep * (i + 1)) / steps;
    const [ex, ey] = [rx * Math.cos(angle) + cx, ry * Math.sin(angle) + cy];
    return [cos * ex - sin * ey + middle[0], sin * ex + cos * ey + middle[1]];
  });
}
