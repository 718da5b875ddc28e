import { Fault } from '../fault/fault.ts';
import type { Finding } from '../fault/finding.ts';
import { nearestOn } from '../pattern/flat-outline.ts';
import { joinCurves, type TracedCurve, type TracedLoop } from '../pattern/join-curves.ts';
import type { FlatPoint } from '../pattern/pattern.ts';
import type { TracedLine, TracedSheet } from '../pattern/trace-pieces.ts';
import { dxfCurve, dxfPoint, type PlacedEntity } from './pattern-dxf-shapes.ts';
import { shortened } from './mesh-number.ts';
import { requirePatternWithin } from './pattern-limits.ts';

/** Layers of ASTM D6673 that are read. */
const LAYERS = {
  boundary: ['1'],
  turns: ['2'],
  notches: ['4', '80', '81', '82', '83'],
  fold: ['6'],
  grain: ['7'],
  inner: ['8'],
  cutOuts: ['11'],
  sewing: ['14'],
} as const;
/** Kinds of things that are read, or say nothing of an outline. */
const KNOWN: ReadonlySet<string> = new Set([
  'POLYLINE',
  'LWPOLYLINE',
  'LINE',
  'ARC',
  'CIRCLE',
  'POINT',
  'TEXT',
  'MTEXT',
  'ATTDEF',
  'ATTRIB',
]);
/** How far chords may lie off arcs, m. */
const TOLERANCE = 1e-5;
/** A sew line no farther from the boundary than this is the boundary, m. */
const SAME = 1e-4;
/** No drawing is larger, m. */
const LARGEST = 100;

/**
 * One block as a drawing in m.
 *
 * @param unit - m per unit of the file.
 * @throws {Fault} `pattern/bad-number`, `pattern/too-large`.
 */
export function tracedDxfSheet(
  name: string,
  entities: readonly PlacedEntity[],
  unit: number,
): { readonly sheet: TracedSheet; readonly findings: readonly Finding[] } {
  const findings: Finding[] = [];
  const on = (layers: readonly string[]) => entities.filter(({ entity }) => layers.includes(entity.layer));
  const curves = (layers: readonly string[]) => curvesOf(on(layers), unit);
  const marks = (layers: readonly string[]): FlatPoint[] => {
    const points = on(layers).filter(({ entity }) => entity.type === 'POINT');
    requirePatternWithin('notches, turn points and texts', points.length);
    return points.map((point) => inMetres(dxfPoint(point), unit, point));
  };
  const lines = (layers: readonly string[]) => curves(layers).map(straightened);
  const holes = curves(LAYERS.cutOuts).length;
  if (holes > 0)
    findings.push({ code: 'pattern/cut-outs-passed-over', facts: { piece: name, count: holes } });
  const drawn = [...LAYERS.boundary, ...LAYERS.inner, ...LAYERS.sewing];
  findings.push(...unknownKinds(on(drawn)));
  const boundary = curves(LAYERS.boundary);
  const sheet: TracedSheet = {
    name,
    groupNames: new Map(),
    curves: sewnOutline(name, boundary, curves(LAYERS.sewing), findings) ?? boundary,
    lines: curves(LAYERS.inner),
    grains: lines(LAYERS.grain),
    folds: lines(LAYERS.fold),
    notches: marks(LAYERS.notches),
    turns: marks(LAYERS.turns),
    texts: [],
    isStrict: true,
  };
  return { sheet, findings };
}

/** What is drawn by means that the standard does not have. */
function unknownKinds(entities: readonly PlacedEntity[]): Finding[] {
  const unknown = entities.filter(({ entity: { type } }) => !KNOWN.has(type));
  const kinds = [...new Set(unknown.map(({ entity }) => entity.type))];
  return kinds.map((kind) => {
    const own = unknown.filter(({ entity }) => entity.type === kind);
    const facts = {
      what: `things of the kind ${shortened(kind)}`,
      count: own.length,
      line: own[0]!.entity.line,
    };
    return { code: 'pattern/passed-over', facts };
  });
}

function curvesOf(entities: readonly PlacedEntity[], unit: number): TracedCurve[] {
  let [count, open] = [0, 0];
  return entities.flatMap((placed): TracedCurve[] => {
    const curve = dxfCurve(placed, TOLERANCE / unit);
    if (!curve) return [];
    count += curve.points.length;
    if (!curve.closed) open++;
    requirePatternWithin('points', count);
    requirePatternWithin('open lines', open);
    const points = curve.points.map((at) => inMetres(at, unit, placed));
    const { line } = placed.entity;
    return [{ points, closed: curve.closed, name: null, isEdge: false, group: '', line }];
  });
}

function inMetres([x, y]: FlatPoint, unit: number, { entity }: PlacedEntity): FlatPoint {
  const at: FlatPoint = [unit * x, unit * y];
  if (Math.hypot(...at) <= LARGEST) return at;
  const what = `a point of a ${entity.type}`;
  throw new Fault('pattern/bad-number', { line: entity.line, what, value: `${x}, ${y}` });
}

const straightened = ({ points, line }: TracedCurve): TracedLine => ({
  from: points[0]!,
  to: points.at(-1)!,
  line,
});

/** The sew lines as outline, where they close to another one than the boundary; null where the boundary counts. */
function sewnOutline(
  name: string,
  boundary: readonly TracedCurve[],
  sewing: readonly TracedCurve[],
  findings: Finding[],
): readonly TracedCurve[] | null {
  if (sewing.length === 0) return null;
  const cut = joinCurves(boundary).loops.map(closedPoints);
  if (sewing.every(({ points }) => cut.some((loop) => liesOn(points, loop)))) return null;
  const { loops, open } = joinCurves(sewing);
  if (loops.length !== 1) {
    findings.push({
      code: 'pattern/sew-line-open',
      facts: { piece: name, count: open.length || loops.length },
    });
    return null;
  }
  findings.push({ code: 'pattern/sew-line-taken', facts: { piece: name } });
  const { points, line } = loops[0]!;
  return [{ points, closed: true, name: null, isEdge: false, group: '', line }];
}

const closedPoints = ({ points }: TracedLoop): FlatPoint[] => [...points, points[0]!];

const liesOn = (points: readonly FlatPoint[], loop: readonly FlatPoint[]): boolean =>
  points.every((point) => nearestOn(loop, point).away <= SAME);
