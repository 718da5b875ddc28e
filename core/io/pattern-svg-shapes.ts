import { Fault } from '../fault/fault.ts';
import type { FlatPoint } from '../pattern/pattern.ts';
import { svgNumber, svgNumbers } from './pattern-svg-numbers.ts';
import { svgPath, type SvgStroke } from './pattern-svg-path.ts';
import { requirePatternWithin } from './pattern-limits.ts';
import { shortened } from './mesh-number.ts';

/** Elements that draw lines. */
export const SVG_SHAPES: ReadonlySet<string> = new Set([
  'path',
  'polygon',
  'polyline',
  'line',
  'rect',
  'circle',
  'ellipse',
]);

export interface SvgShape {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly line: number;
}

/**
 * The strokes of a shape, in its own units.
 *
 * @throws {Fault} `pattern/bad-path`, `pattern/bad-number`, `pattern/too-large`.
 * @see W3C, SVG 1.1 (second edition), 9 Basic shapes: rounded and round shapes are paths of arcs.
 */
export function svgStrokes({ name, attributes, line }: SvgShape, tolerance: number): SvgStroke[] {
  const number = (key: string, missing = 0) =>
    svgNumber(attributes.get(key), `${key} of a ${name}`, line, missing);
  switch (name) {
    case 'path':
      return svgPath(attributes.get('d') ?? '', tolerance, line);
    case 'polygon':
    case 'polyline':
      return pointList(attributes.get('points') ?? '', name, line);
    case 'line':
      return [
        {
          points: [
            [number('x1'), number('y1')],
            [number('x2'), number('y2')],
          ],
          closed: false,
        },
      ];
    case 'rect':
      return svgPath(rectPath(number), tolerance, line);
    case 'circle':
      return svgPath(roundPath(number, number('r'), number('r')), tolerance, line);
    case 'ellipse':
      return svgPath(roundPath(number, number('rx'), number('ry')), tolerance, line);
    default:
      return [];
  }
}

function pointList(text: string, name: string, line: number): SvgStroke[] {
  const numbers = svgNumbers(text, `a point of a ${name}`, line);
  requirePatternWithin('points', numbers.length / 2);
  if (numbers.length % 2 === 1) {
    const value = shortened(String(numbers.at(-1)));
    throw new Fault('pattern/bad-path', { line, value, expected: `a pair of numbers of a ${name}` });
  }
  const points = Array.from({ length: numbers.length / 2 }, (_, i): FlatPoint => [
    numbers[2 * i]!,
    numbers[2 * i + 1]!,
  ]);
  return points.length < 2 ? [] : [{ points, closed: name === 'polygon' }];
}

type Numbers = (key: string, missing?: number) => number;

function roundPath(number: Numbers, rx: number, ry: number): string {
  if (rx <= 0 || ry <= 0) return '';
  const [cx, cy] = [number('cx'), number('cy')];
  const half = `A${rx} ${ry} 0 0 1`;
  return `M${cx + rx} ${cy} ${half} ${cx - rx} ${cy} ${half} ${cx + rx} ${cy} Z`;
}

function rectPath(number: Numbers): string {
  const [x, y, width, height] = [number('x'), number('y'), number('width'), number('height')];
  if (width <= 0 || height <= 0) return '';
  const [rx, ry] = [number('rx', number('ry')), number('ry', number('rx'))];
  const [right, bottom] = [x + width, y + height];
  if (rx <= 0 || ry <= 0) return `M${x} ${y} H${right} V${bottom} H${x} Z`;
  const [a, b] = [Math.min(rx, width / 2), Math.min(ry, height / 2)];
  const corner = (toX: number, toY: number) => `A${a} ${b} 0 0 1 ${toX} ${toY}`;
  return [
    `M${x + a} ${y} H${right - a}`,
    `${corner(right, y + b)} V${bottom - b}`,
    `${corner(right - a, bottom)} H${x + a}`,
    `${corner(x, bottom - b)} V${y + b}`,
    `${corner(x + a, y)} Z`,
  ].join(' ');
}
