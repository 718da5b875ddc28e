import { Fault } from '../fault/fault.ts';
import type { Finding } from '../fault/finding.ts';
import { mmFromMetres } from '../units/units.ts';
import {
  cornersOf,
  cutAtPoint,
  cutAtWay,
  cutLoop,
  cutNear,
  edgesBetween,
  unusedName,
  withCuts,
  type CutLoop,
  type LoopCut,
} from './cut-loop.ts';
import { boxOf, distanceBetween, outlineOf, signedArea } from './flat-outline.ts';
import type { EdgeStart } from './join-curves.ts';
import { awayFrom, mirroredPoint } from './mirrored-curve.ts';
import { crossingOf } from './outline-crossing.ts';
import type { FlatPoint, Panel, PatternCurve } from './pattern.ts';
import { withoutRepeats, type TracedPiece } from './trace-pieces.ts';
import { unfoldedPanel } from './whole-pattern.ts';
import { runBack } from './wound-pattern.ts';

/** A mark on a panel's outline that meets its like on another: where seams may match. */
export interface PanelNotch {
  readonly panel: string;
  /** On the outline. */
  readonly at: FlatPoint;
}

/** Panels read from a file, not yet sewn; each runs counter-clockwise, both halves of the garment are there. */
export interface ImportedPattern {
  readonly name: string;
  readonly panels: readonly Panel[];
  readonly notches: readonly PanelNotch[];
  readonly findings: readonly Finding[];
}

/** One piece made a panel. */
export interface ImportedPiece {
  readonly panel: Panel;
  readonly notches: readonly PanelNotch[];
  readonly findings: readonly Finding[];
}

/** Points of one outline, at most. */
const MOST_POINTS = 10_000;
/** Edges of one panel, at most. */
const MOST_EDGES = 400;
/** No piece of a garment is smaller, m^2. */
const LEAST_AREA = 25e-6;
/** Nor larger without a word, m. */
const LARGE = 3;
/** How far off the outline things may be drawn that lie on it, m. */
const ON_OUTLINE = { turn: 5e-4, fold: 5e-4, line: 1e-3, notch: 0.025 };
/** A notch this near a corner does not cut the edge, m. */
const CLEAR_OF_CORNER = 2e-3;

/**
 * Makes a panel of a traced piece: its outline checked, cut into edges where the drawing says so or at corners over 30
 * degrees, and at notches unless the drawing names its edges; inner lines brought to the outline; a half unfolded.
 *
 * @param taken - Names that other panels have.
 * @throws {Fault} `pattern/too-large`, `pattern/outline-flat`, `pattern/outline-crosses`, `pattern/fold-off-outline`.
 */
export function importedPiece(traced: TracedPiece, taken: ReadonlySet<string>): ImportedPiece {
  const findings: Finding[] = [];
  const name = unusedName(traced.name, taken);
  const piece = { ...traced, name };
  const { points, starts } = soundLoop(piece);
  const loop = cutLoop(points);
  const lines = linesOnOutline(piece, loop, findings);
  const ends = lines.flatMap((line) => [line.first, line.last]);
  const marks = notchesOnOutline(piece, loop, findings);
  let cuts = withCuts(loop, ownCuts(piece, loop, starts), [...ends, ...foldEnds(piece, loop)], 1e-4);
  if (!starts?.some((start) => start.name !== null)) cuts = withCuts(loop, cuts, marks, CLEAR_OF_CORNER);
  requireFew('edges', name, cuts.length, MOST_EDGES);
  if (cuts.length < 2) {
    findings.push({ code: 'pattern/no-corners', facts: { piece: name } });
    const first = cuts[0] ?? cutAtPoint(loop, 0, null);
    cuts = [first, cutAtWay(loop, first.along + loop.whole / 2)];
  }
  const grain = grainOf(piece, findings);
  const inner = lines.map(({ curve }) => snappedEnds(curve, cuts));
  const drawn: Panel = {
    name,
    edges: edgesBetween(loop, cuts),
    ...(inner.length > 0 && { lines: inner }),
    ...(grain !== 0 && { grain }),
  };
  const wound = signedArea(points) < 0 ? numbered(runBack(drawn)) : drawn;
  const { panel, notches } = unfoldedPiece(
    piece,
    wound,
    marks.map(({ at }) => at),
    findings,
  );
  const box = boxOf(outlineOf(panel));
  const [width, height] = [box.right - box.left, box.top - box.bottom];
  if (Math.max(width, height) > LARGE) {
    const facts = { piece: name, widthMm: mmFromMetres(width), heightMm: mmFromMetres(height) };
    findings.push({ code: 'pattern/piece-large', facts });
  }
  return { panel, notches: notches.map((at) => ({ panel: name, at })), findings };
}

/** The outline without repeated points. */
function soundLoop({ name, loop }: TracedPiece): {
  points: FlatPoint[];
  starts: readonly EdgeStart[] | null;
} {
  const { line } = loop;
  const points = withoutRepeats(loop.points);
  while (points.length > 1 && distanceBetween(points[0]!, points.at(-1)!) <= 1e-7) points.pop();
  requireFew('points', name, points.length, MOST_POINTS);
  const crossing = crossingOf(points);
  if (crossing && points.length > 2) {
    const [xMm, yMm] = [mmFromMetres(crossing[0]), mmFromMetres(crossing[1])];
    throw new Fault('pattern/outline-crosses', { piece: name, line, xMm, yMm });
  }
  const area = Math.abs(signedArea(points));
  if (points.length < 3 || !(area >= LEAST_AREA)) {
    throw new Fault('pattern/outline-flat', { piece: name, line, areaMm2: area * 1e6 });
  }
  return { points, starts: loop.starts && startsOn(points, loop.points, loop.starts) };
}

function requireFew(what: string, piece: string, found: number, limit: number): void {
  if (found > limit)
    throw new Fault('pattern/too-large', { what: `${what} in the outline of ${piece}`, found, limit });
}

/** Starts of edges, counted anew after repeated points have gone. */
const startsOn = (
  points: readonly FlatPoint[],
  before: readonly FlatPoint[],
  starts: readonly EdgeStart[],
): EdgeStart[] =>
  starts.map(({ at, name }) => {
    const [x, y] = before[at]!;
    let [nearest, least] = [0, Infinity];
    points.forEach(([px, py], i) => {
      const away = Math.hypot(px - x, py - y);
      if (away < least) [nearest, least] = [i, away];
    });
    return { at: nearest, name };
  });

/** Where the drawing itself says that edges begin; where it does not name them, at turn points and corners. */
function ownCuts(piece: TracedPiece, loop: CutLoop, starts: readonly EdgeStart[] | null): LoopCut[] {
  requireFew('edges', piece.name, starts?.length ?? piece.turns.length, MOST_EDGES);
  if (starts)
    return withCuts(
      loop,
      [],
      starts.map(({ at, name }) => cutAtPoint(loop, at, name)),
      0,
    );
  const turns = piece.turns.map((at) => cutNear(loop, at)).filter(({ away }) => away <= ON_OUTLINE.turn);
  const corners = cornersOf(loop);
  requireFew('corners', piece.name, corners.length, MOST_EDGES);
  return withCuts(
    loop,
    corners,
    turns.map(({ cut }) => cut),
    1e-4,
  );
}

interface LineOnOutline {
  readonly curve: PatternCurve;
  readonly first: LoopCut;
  readonly last: LoopCut;
}

/** Inner lines that run from edge to edge. */
function linesOnOutline({ name, lines }: TracedPiece, loop: CutLoop, findings: Finding[]): LineOnOutline[] {
  const names = new Set<string>();
  return lines.flatMap((line) => {
    const points = withoutRepeats(line.points);
    const first = cutNear(loop, points[0]!);
    const last = cutNear(loop, points.at(-1)!);
    const isApart = points.length > 1 && Math.abs(first.cut.along - last.cut.along) > CLEAR_OF_CORNER;
    if (!isApart || first.away > ON_OUTLINE.line || last.away > ON_OUTLINE.line) {
      findings.push({ code: 'pattern/line-passed-over', facts: { piece: name, line: line.name } });
      return [];
    }
    const own = unusedName(line.name, names);
    names.add(own);
    return [{ curve: { name: own, points }, first: first.cut, last: last.cut }];
  });
}

/** An inner line whose ends lie exactly on cuts, as the mesh needs it. */
function snappedEnds({ name, points }: PatternCurve, cuts: readonly LoopCut[]): PatternCurve {
  const nearest = (to: FlatPoint): FlatPoint =>
    cuts.reduce(
      (best, { at }) => (distanceBetween(at, to) < distanceBetween(best, to) ? at : best),
      cuts[0]!.at,
    );
  return { name, points: [nearest(points[0]!), ...points.slice(1, -1), nearest(points.at(-1)!)] };
}

function notchesOnOutline({ name, notches }: TracedPiece, loop: CutLoop, findings: Finding[]): LoopCut[] {
  return notches.flatMap((notch) => {
    const { cut, away } = cutNear(loop, notch);
    if (away <= ON_OUTLINE.notch) return [cut];
    const facts = { piece: name, xMm: mmFromMetres(notch[0]), yMm: mmFromMetres(notch[1]) };
    findings.push({ code: 'pattern/notch-off', facts: { ...facts, awayMm: mmFromMetres(away) } });
    return [];
  });
}

const foldEnds = ({ fold }: TracedPiece, loop: CutLoop): LoopCut[] =>
  fold === null
    ? []
    : loop.points.flatMap((_, i) => {
        const count = loop.points.length;
        const isOn = (k: number) => awayFrom(fold, loop.points[(k + count) % count]!) <= ON_OUTLINE.fold;
        return isOn(i) && isOn(i - 1) !== isOn(i + 1) ? [cutAtPoint(loop, i, null)] : [];
      });

/** How far the warp is turned from y towards x, from -90 to 90 degrees; rad. */
function grainOf({ name, grain }: TracedPiece, findings: Finding[]): number {
  if (!grain || distanceBetween(grain.from, grain.to) < 1e-6) {
    findings.push({ code: 'pattern/no-grain', facts: { piece: name } });
    return 0;
  }
  const angle = Math.atan2(grain.to[0] - grain.from[0], grain.to[1] - grain.from[1]);
  const folded = angle - Math.PI * Math.round(angle / Math.PI);
  // Rounding of the file's numbers is no turn.
  return Math.abs(folded) < 1e-4 ? 0 : folded;
}

/** Names `edge1`... in the order of the edges where nothing else was given. */
const numbered = (panel: Panel): Panel =>
  panel.edges.every(({ name }) => /^edge\d+$/.test(name))
    ? { ...panel, edges: panel.edges.map(({ points }, e) => ({ name: `edge${e + 1}`, points })) }
    : panel;

function unfoldedPiece(
  { name, fold }: TracedPiece,
  panel: Panel,
  notches: readonly FlatPoint[],
  findings: Finding[],
): { readonly panel: Panel; readonly notches: readonly FlatPoint[] } {
  if (!fold) return { panel, notches };
  const farthest = (points: readonly FlatPoint[]) => Math.max(...points.map((at) => awayFrom(fold, at)));
  const isOn = ({ points }: PatternCurve) => farthest(points) <= ON_OUTLINE.fold;
  const centre = panel.edges.filter(isOn).map((edge) => ({ panel: panel.name, edge: edge.name }));
  const whole = centre.length > 0 ? unfoldedPanel(panel, centre) : null;
  if (!whole) {
    const away = Math.min(...panel.edges.map(({ points }) => farthest(points)));
    throw new Fault('pattern/fold-off-outline', {
      piece: name,
      line: fold.line,
      awayMm: mmFromMetres(away),
    });
  }
  findings.push({ code: 'pattern/unfolded', facts: { piece: name } });
  const off = notches.filter((at) => awayFrom(fold, at) > ON_OUTLINE.fold);
  return { panel: whole, notches: [...notches, ...off.map((at) => mirroredPoint(fold, at))] };
}
