import { Fault } from '../fault/fault.ts';
import type { Finding } from '../fault/finding.ts';
import {
  after,
  growthOf,
  scaled,
  transformed,
  UNCHANGED,
  type FlatTransform,
} from '../pattern/flat-transform.ts';
import type { TracedCurve } from '../pattern/join-curves.ts';
import type { FlatPoint } from '../pattern/pattern.ts';
import type { TracedLine, TracedSheet } from '../pattern/trace-pieces.ts';
import { requirePatternWithin } from './pattern-limits.ts';
import { isHidden, svgName, svgRole, type SvgRole } from './pattern-svg-names.ts';
import { svgLength, svgNumber, svgNumbers, svgTransform } from './pattern-svg-numbers.ts';
import { SVG_SHAPES, svgStrokes, type SvgShape } from './pattern-svg-shapes.ts';
import { xmlParts, type XmlPart } from './pattern-xml.ts';
import { shortened } from './mesh-number.ts';

/** Elements whose content is not drawn where it stands. */
const NOT_DRAWN: ReadonlySet<string> = new Set([
  'defs',
  'symbol',
  'clipPath',
  'mask',
  'pattern',
  'marker',
  'metadata',
  'style',
  'script',
  'title',
  'desc',
]);
/** Elements that draw something which is not read. */
const PASSED_OVER: ReadonlySet<string> = new Set(['use', 'image', 'foreignObject', 'svg']);
/** How far chords may lie off curves, m. */
const TOLERANCE = 5e-6;
/** No drawing is larger, m. */
const LARGEST = 100;

type Open = Extract<XmlPart, { kind: 'open' }>;

/** What holds for everything in an element. */
interface Frame {
  readonly element: string;
  /** To m, y up. */
  readonly place: FlatTransform;
  readonly group: string;
  readonly role: SvgRole | null;
  readonly isSkipped: boolean;
}

interface Reading {
  readonly curves: TracedCurve[];
  readonly lines: TracedCurve[];
  readonly grains: TracedLine[];
  readonly folds: TracedLine[];
  readonly notches: FlatPoint[];
  readonly texts: { at: FlatPoint; text: string }[];
  readonly groupNames: Map<string, string>;
  readonly passed: { count: number; line: number };
  pointCount: number;
  groupCount: number;
  title: string;
}

/** A drawing with the length of its own unit. */
export interface TracedSvg {
  readonly sheet: TracedSheet;
  /** Of the whole drawing; empty for none. */
  readonly title: string;
  readonly findings: readonly Finding[];
  readonly mmPerUnit: number;
}

/**
 * Everything drawn in an SVG file, in m with y up.
 *
 * @param mmPerUnit - Of the drawing's own units, where it is known better than the file says it.
 * @throws {Fault} `pattern/...`.
 */
export function tracedSvgSheet(text: string, mmPerUnit: number | null): TracedSvg {
  requirePatternWithin('characters', text.length);
  const findings: Finding[] = [];
  const reading: Reading = {
    curves: [],
    lines: [],
    grains: [],
    folds: [],
    notches: [],
    texts: [],
    groupNames: new Map(),
    passed: { count: 0, line: 0 },
    pointCount: 0,
    groupCount: 0,
    title: '',
  };
  const frames: Frame[] = [];
  let scale: number | null = null;
  let elementCount = 0;
  for (const part of xmlParts(text)) {
    if (part.kind === 'close') frames.pop();
    else if (part.kind === 'text') readText(part.text, frames, reading);
    else {
      requirePatternWithin('drawn things', ++elementCount);
      if (scale === null) {
        scale = mmPerUnit ?? scaleOf(part, findings);
        frames.push(rootFrame(part, scale));
      } else frames.push(readElement(part, frames.at(-1)!, reading));
    }
  }
  if (scale === null) {
    throw new Fault('pattern/not-svg', {
      line: 1,
      value: shortened(text.trim()),
      expected: 'an svg element',
    });
  }
  const { passed, title, curves, lines, grains, folds, notches, texts, groupNames } = reading;
  if (passed.count > 0) {
    findings.push({ code: 'pattern/passed-over', facts: { what: 'copies and pictures', ...passed } });
  }
  const drawn = { curves, lines, grains, folds, notches, texts, groupNames };
  const sheet = { name: 'piece', turns: [], isStrict: false, ...drawn };
  return { sheet, title, findings, mmPerUnit: scale };
}

const localName = (name: string): string => name.replace(/^svg:/, '');

/** mm per unit of the drawing, from its size on paper and what part of the drawing this shows. */
function scaleOf({ name, attributes, line }: Open, findings: Finding[]): number {
  if (localName(name) !== 'svg') {
    throw new Fault('pattern/not-svg', { line, value: shortened(`<${name}`), expected: 'an svg element' });
  }
  const view = attributes.get('viewBox');
  const box = view === undefined ? null : svgNumbers(view, 'viewBox', line);
  const perUnit = (['width', 'height'] as const).flatMap((key, k) => {
    const length = attributes.has(key) ? svgLength(attributes.get(key)!, key, line) : null;
    const shown = box?.[2 + k] ?? 0;
    if (!length || length.mm === null || length.mm <= 0 || shown <= 0) return [];
    return [{ mm: length.mm / shown, isPaper: length.unit !== '' && length.unit !== 'px' }];
  });
  // What is shown is fitted into the paper as a whole.
  const mm = perUnit.length > 0 ? Math.min(...perUnit.map((one) => one.mm)) : 25.4 / 96;
  if (!perUnit.some(({ isPaper }) => isPaper)) {
    findings.push({ code: 'pattern/scale-assumed', facts: { mmPerUnit: mm } });
  }
  return mm;
}

const rootFrame = ({ attributes, line }: Open, scale: number): Frame => ({
  element: 'svg',
  place: after(scaled(scale / 1000, -scale / 1000), svgTransform(attributes.get('transform') ?? '', line)),
  group: '',
  role: null,
  isSkipped: isHidden(attributes),
});

function readElement(part: Open, outer: Frame, reading: Reading): Frame {
  const { attributes, line } = part;
  const element = localName(part.name);
  if (isPassedOver(part, element, outer, reading)) return { ...outer, element, isSkipped: true };
  const own = attributes.has('transform') ? svgTransform(attributes.get('transform')!, line) : UNCHANGED;
  const frame: Frame = {
    element,
    place: after(outer.place, own),
    group: outer.group,
    role: svgRole(attributes) ?? outer.role,
    isSkipped: false,
  };
  if (element === 'g') return { ...frame, group: openGroup(part, reading) };
  if (SVG_SHAPES.has(element)) readShape({ name: element, attributes, line }, frame, reading);
  else if (element === 'text' || element === 'tspan') openText(part, frame, reading);
  return frame;
}

function isPassedOver(
  { attributes, line }: Open,
  element: string,
  outer: Frame,
  { passed }: Reading,
): boolean {
  if (outer.isSkipped || NOT_DRAWN.has(element) || isHidden(attributes)) return true;
  if (!PASSED_OVER.has(element)) return false;
  passed.count++;
  passed.line ||= line;
  return true;
}

function openGroup({ attributes }: Open, reading: Reading): string {
  const group = String(++reading.groupCount);
  const name = svgName(attributes);
  if (name !== null) reading.groupNames.set(group, name);
  return group;
}

function readShape(shape: SvgShape, { place, group, role }: Frame, reading: Reading): void {
  const { attributes, line } = shape;
  const tolerance = TOLERANCE / Math.max(growthOf(place), 1e-12);
  for (const { points: own, closed } of svgStrokes(shape, tolerance)) {
    const points = own.map((at) => inMetres(place, at, line));
    reading.pointCount += points.length;
    requirePatternWithin('points', reading.pointCount);
    const ends = { from: points[0]!, to: points.at(-1)!, line };
    const name = svgName(attributes);
    const isEdge = !closed && (role === 'edge' || name !== null);
    const curve = { points, closed, name, isEdge, group, line };
    switch (role) {
      case 'grain':
        reading.grains.push(ends);
        break;
      case 'fold':
        reading.folds.push(ends);
        break;
      case 'notch':
        reading.notches.push(points[0]!);
        break;
      case 'line':
        reading.lines.push(curve);
        break;
      case 'mark':
        break;
      case 'edge':
      case null:
        reading.curves.push(curve);
        break;
    }
  }
  requirePatternWithin('open lines', reading.curves.length + reading.lines.length);
  requirePatternWithin('notches, turn points and texts', reading.notches.length + reading.texts.length);
}

function inMetres(place: FlatTransform, at: FlatPoint, line: number): FlatPoint {
  const point = transformed(place, at);
  if (Math.hypot(...point) <= LARGEST) return point;
  throw new Fault('pattern/bad-number', { line, what: 'a point', value: `${at[0]}, ${at[1]}` });
}

/** Texts begin where their element says; words are added as they come. */
function openText({ attributes, line }: Open, { element, place }: Frame, reading: Reading): void {
  if (element === 'tspan' && !attributes.has('x')) return;
  const first = (key: string) =>
    svgNumber(
      attributes
        .get(key)
        ?.trim()
        .split(/[\s,]+/)[0],
      key,
      line,
    );
  const at = inMetres(place, [first('x'), first('y')], line);
  if (element === 'tspan' && reading.texts.at(-1)?.text === '') reading.texts.pop();
  reading.texts.push({ at, text: '' });
  requirePatternWithin('notches, turn points and texts', reading.notches.length + reading.texts.length);
}

function readText(text: string, frames: readonly Frame[], reading: Reading): void {
  const { texts } = reading;
  const frame = frames.at(-1);
  if (frame?.element === 'title' && frames.length === 2) reading.title = text.trim().slice(0, 60);
  const last = texts.at(-1);
  if (!frame || !last || frame.isSkipped || (frame.element !== 'text' && frame.element !== 'tspan')) return;
  last.text = `${last.text} ${text}`.replaceAll(/\s+/g, ' ').trim().slice(0, 60);
}
