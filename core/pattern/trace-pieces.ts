import { Fault } from '../fault/fault.ts';
import type { Finding } from '../fault/finding.ts';
import { mmFromMetres } from '../units/units.ts';
import { curveLength } from './arc-length.ts';
import { boxOf, distanceBetween, liesWithin, nearestOn, signedArea } from './flat-outline.ts';
import { joinCurves, type OpenChain, type TracedCurve, type TracedLoop } from './join-curves.ts';
import type { FoldLine } from './mirrored-curve.ts';
import type { FlatPoint, PatternCurve } from './pattern.ts';

/** A line with a meaning of its own: grain or fold. */
export interface TracedLine extends FoldLine {
  readonly line: number;
}

/** A drawing of one or more pieces, before anybody knows what belongs to which; m. */
export interface TracedSheet {
  /** What a piece is called that has no name of its own. */
  readonly name: string;
  /** Names of groups of curves. */
  readonly groupNames: ReadonlyMap<string, string>;
  readonly curves: readonly TracedCurve[];
  /** Lines drawn inside. */
  readonly lines: readonly TracedCurve[];
  readonly grains: readonly TracedLine[];
  readonly folds: readonly TracedLine[];
  readonly notches: readonly FlatPoint[];
  /** Where edges begin; none where the drawing does not say. */
  readonly turns: readonly FlatPoint[];
  /** Text drawn inside a piece that has no other name becomes its name. */
  readonly texts: readonly { readonly at: FlatPoint; readonly text: string }[];
  /** Whether every curve has to be an outline: a stray open one is a fault, not passed over. */
  readonly isStrict: boolean;
}

/** One piece with everything that was drawn on it. */
export interface TracedPiece {
  readonly name: string;
  readonly loop: TracedLoop;
  readonly lines: readonly PatternCurve[];
  readonly grain: TracedLine | null;
  readonly fold: TracedLine | null;
  readonly notches: readonly FlatPoint[];
  readonly turns: readonly FlatPoint[];
}

/** Outlines are the same drawn twice where they differ by less, m. */
const SAME = 1e-4;
/** Points of a loop that are looked at to know where it lies. */
const SAMPLE = 64;
/** Marks this far outside still belong to a piece, m. */
const BESIDE = 0.03;
/** An open chain that lacks at most this share of its length was meant to close. */
const MEANT_TO_CLOSE = 0.25;

/**
 * Finds the pieces of a drawing: outlines that lie in no other, with the lines and marks in and on them.
 *
 * @throws {Fault} `pattern/outline-open` for an outline that does not close; `pattern/no-outline`.
 */
export function tracePieces(sheet: TracedSheet): {
  readonly pieces: readonly TracedPiece[];
  readonly findings: readonly Finding[];
} {
  const findings: Finding[] = [];
  const joined = joinCurves(sheet.curves);
  const { outlines, cutOuts } = outermost(sheet, joined.loops, findings);
  const inner = [...sheet.lines.map(openPoints), ...strayLines(sheet, outlines, joined.open, findings)];
  if (outlines.length === 0)
    throw new Fault('pattern/no-outline', { what: sheet.isStrict ? sheet.name : 'The drawing' });
  const owner = ownerOf(outlines);
  const pieces = outlines.map((loop, o): TracedPiece => {
    const owns = (at: FlatPoint) => owner(at) === o;
    const ownsLine = ({ from, to }: TracedLine) => owns([(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]);
    return {
      name: nameOf(sheet, loop, owns, outlines),
      loop,
      lines: inner.filter(({ points }) => owns(points[Math.floor(points.length / 2)]!)),
      grain: sheet.grains.find(ownsLine) ?? null,
      fold: sheet.folds.find(ownsLine) ?? null,
      notches: sheet.notches.filter(owns),
      turns: sheet.turns.filter(owns),
    };
  });
  pieces.forEach(({ name, loop }, o) => {
    const { count, most } = loop.gaps;
    if (count > 0) {
      const facts = { piece: name, line: loop.line, count, gapMm: mmFromMetres(most) };
      findings.push({ code: 'pattern/gap-closed', facts });
    }
    const holes = cutOuts.filter((at) => owner(at) === o).length;
    if (holes > 0)
      findings.push({ code: 'pattern/cut-outs-passed-over', facts: { piece: name, count: holes } });
  });
  return { pieces, findings };
}

const openPoints = ({ name, points, closed, line }: TracedCurve): PatternCurve => ({
  name: name ?? `line ${line}`,
  points: closed ? [...points, points[0]!] : points,
});

function nameOf(
  { name, groupNames, texts }: TracedSheet,
  loop: TracedLoop,
  owns: (at: FlatPoint) => boolean,
  all: readonly TracedLoop[],
): string {
  const groupName = groupNames.get(loop.group);
  const isAlone = all.every((other) => other === loop || other.group !== loop.group);
  if (groupName !== undefined && isAlone) return groupName;
  return loop.name ?? texts.find(({ at }) => owns(at))?.text ?? groupName ?? name;
}

/** Loops that lie in no other, each once; of the others a point each. */
function outermost(
  { name }: TracedSheet,
  loops: readonly TracedLoop[],
  findings: Finding[],
): { readonly outlines: readonly TracedLoop[]; readonly cutOuts: readonly FlatPoint[] } {
  const bySize = loops.toSorted(
    (one, other) => Math.abs(signedArea(other.points)) - Math.abs(signedArea(one.points)),
  );
  const outlines: TracedLoop[] = [];
  const cutOuts: FlatPoint[] = [];
  for (const loop of bySize) {
    if (outlines.some((outline) => isSame(outline, loop))) {
      findings.push({
        code: 'pattern/duplicate-dropped',
        facts: { piece: loop.name ?? name, line: loop.line },
      });
    } else if (outlines.some((outline) => liesInside(loop, outline))) cutOuts.push(loop.points[0]!);
    else outlines.push(loop);
  }
  // In the drawing's own order.
  const order = new Map(loops.map((loop, i) => [loop, i]));
  return { outlines: outlines.toSorted((a, b) => order.get(a)! - order.get(b)!), cutOuts };
}

/** Inside all round: pieces that only overlap are two. */
function liesInside({ points }: TracedLoop, outline: TracedLoop): boolean {
  const [inner, outer] = [boxOf(points), boxOf(outline.points)];
  if (inner.left < outer.left || inner.right > outer.right) return false;
  if (inner.bottom < outer.bottom || inner.top > outer.top) return false;
  return sampleOf(points).every((point) => liesWithin(point, outline.points));
}

/** Points of a loop that stand for all. */
const sampleOf = (points: readonly FlatPoint[]): FlatPoint[] => {
  const step = Math.ceil(points.length / SAMPLE);
  return points.filter((_, i) => i % step === 0);
};

function isSame(one: TracedLoop, other: TracedLoop): boolean {
  const [a, b] = [boxOf(one.points), boxOf(other.points)];
  const far = (['left', 'right', 'bottom', 'top'] as const).some((k) => Math.abs(a[k] - b[k]) > SAME);
  if (far) return false;
  const closed = [...one.points, one.points[0]!];
  return sampleOf(other.points).every((point) => nearestOn(closed, point).away <= SAME);
}

/** Open chains within pieces are inner lines; elsewhere they are either meant as outlines, which is a fault, or strays. */
function strayLines(
  { name, groupNames, isStrict }: TracedSheet,
  outlines: readonly TracedLoop[],
  open: readonly OpenChain[],
  findings: Finding[],
): PatternCurve[] {
  const inner: PatternCurve[] = [];
  const strays: OpenChain[] = [];
  for (const chain of open) {
    const middle = chain.points[Math.floor(chain.points.length / 2)]!;
    const isInner = outlines.some(({ points }) => liesWithin(middle, points));
    if (isInner && !isStrict) {
      inner.push({ name: chain.name ?? `line ${chain.line}`, points: chain.points });
      continue;
    }
    const isAlone = outlines.every(({ group }) => group !== chain.group);
    const length = curveLength(chain.points);
    if (length > 0 && (isStrict || (isAlone && chain.gap < MEANT_TO_CLOSE * length))) {
      const piece = groupNames.get(chain.group) ?? chain.name ?? name;
      const [x, y] = chain.points.at(-1)!;
      const place = { gapMm: mmFromMetres(chain.gap), xMm: mmFromMetres(x), yMm: mmFromMetres(y) };
      throw new Fault('pattern/outline-open', { piece, line: chain.line, ...place });
    }
    strays.push(chain);
  }
  if (strays.length > 0) {
    const facts = { what: 'lines', count: strays.length, line: strays[0]!.line };
    findings.push({ code: 'pattern/passed-over', facts });
  }
  return inner;
}

/** Which piece a mark belongs to: the one that it lies in or, a little outside, the nearest; -1 for none. */
function ownerOf(outlines: readonly TracedLoop[]): (at: FlatPoint) => number {
  const closed = outlines.map(({ points }) => [...points, points[0]!]);
  const known = new Map<FlatPoint, number>();
  const find = (at: FlatPoint): number => {
    const within = outlines.findIndex(({ points }) => liesWithin(at, points));
    if (within >= 0) return within;
    let [nearest, least] = [-1, BESIDE];
    closed.forEach((points, o) => {
      const { away } = nearestOn(points, at);
      if (away < least) [nearest, least] = [o, away];
    });
    return nearest;
  };
  return (at) => {
    const owner = known.get(at) ?? find(at);
    known.set(at, owner);
    return owner;
  };
}

/** Drops points that repeat the one before, closer than `least`; m. */
export function withoutRepeats(points: readonly FlatPoint[], least = 1e-7): FlatPoint[] {
  const kept: FlatPoint[] = [];
  for (const point of points) {
    if (kept.length === 0 || distanceBetween(kept.at(-1)!, point) > least) kept.push(point);
  }
  return kept;
}
