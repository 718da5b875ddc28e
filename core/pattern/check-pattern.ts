import { Fault } from '../fault/fault.ts';
import type { Finding } from '../fault/finding.ts';
import { degreesFromRadians, mmFromMetres, percentFromRatio, radiansFromDegrees } from '../units/units.ts';
import { lengthsAlong } from './arc-length.ts';
import { outlineOf, signedArea, turnBetween } from './flat-outline.ts';
import { sewnCorners } from './panel-corners.ts';
import type { EdgeOf, Panel, Pattern, PatternCurve } from './pattern.ts';
import { seamEase } from './seam-ease.ts';

/** More ease than this is usually a slip of the draft. */
const MOST_EASE = 0.05;
/** An open edge runs on over a seam within this, degrees. */
const SQUARE = { sum: 180, off: 5 };
/** Cloth that meets in a point amid the garment, degrees. Common practice round a crotch: 380 to 440. */
const LIES = { least: 300, most: 440 };
/** More turn than this within so long a piece of edge, m and rad, is a corner rather than a curve. */
const TURN = { window: 0.03, most: radiansFromDegrees(60) };

/**
 * What a pattern cutter would look at before sewing: ease over 5 %, corners that are not square where a seam ends, points
 * where too much or too little cloth meets, sharp turns, edges sewn twice, panels and edges that are not sewn.
 *
 * @throws {Fault} `pattern/no-such-edge` for a seam whose edge is missing.
 */
export function checkPattern(pattern: Pattern): Finding[] {
  requireEdges(pattern);
  return [
    ...easeFindings(pattern),
    ...cornerFindings(pattern),
    ...pattern.panels.flatMap((panel) => panel.edges.flatMap((edge) => turnFinding(panel.name, edge) ?? [])),
    ...sewingFindings(pattern),
  ];
}

function requireEdges({ panels, seams, centre }: Pattern): void {
  const named = [
    ...seams.flatMap(({ name, one, other }) => [
      { seam: name, ...one },
      { seam: name, ...other },
    ]),
    ...centre.map((edge) => ({ seam: 'centre', ...edge })),
  ];
  for (const { seam, panel, edge } of named) {
    const own = panels.find(({ name }) => name === panel);
    if (!own?.edges.some(({ name }) => name === edge))
      throw new Fault('pattern/no-such-edge', { seam, panel, edge });
  }
}

const wordsFor = ({ panel, edge }: EdgeOf): string => `${panel} ${edge}`;

function easeFindings(pattern: Pattern): Finding[] {
  return pattern.seams.flatMap((seam): Finding[] => {
    const { one, other, ratio } = seamEase(pattern, seam);
    if (Math.abs(ratio) <= MOST_EASE) return [];
    const lengths = { oneMm: mmFromMetres(one), otherMm: mmFromMetres(other) };
    const edges = { one: wordsFor(seam.one), other: wordsFor(seam.other) };
    const percent = percentFromRatio(Math.abs(ratio));
    return [{ code: 'pattern/ease-large', facts: { seam: seam.name, ...edges, ...lengths, percent } }];
  });
}

interface Corner {
  readonly words: string;
  /** Angle inside the panel, rad. */
  readonly angle: number;
  readonly isOpen: boolean;
  readonly onCentre: boolean;
}

function cornerFindings(pattern: Pattern): Finding[] {
  const corners = cornersOf(pattern);
  const sewn = sewnCorners(pattern.panels);
  for (const seam of pattern.seams) sewn.sew(seam);
  const points = new Map<number, Corner[]>();
  corners.forEach((corner, c) => {
    const lead = sewn.leadOf(c);
    points.set(lead, [...(points.get(lead) ?? []), corner]);
  });
  return [...points.values()].flatMap((meeting): Finding[] => {
    const onCentre = meeting.some((corner) => corner.onCentre);
    // A corner that no seam reaches is the draft's own affair.
    if (meeting.length === 1 && !onCentre) return [];
    const half = meeting.reduce((sum, { angle }) => sum + angle, 0);
    const degrees = degreesFromRadians(onCentre ? 2 * half : half);
    const facts = { place: meeting.map(({ words }) => words).join(' and '), degrees };
    if (!meeting.some(({ isOpen }) => isOpen)) {
      const lies = degrees >= LIES.least && degrees <= LIES.most;
      return lies ? [] : [{ code: 'pattern/point-not-flat', facts }];
    }
    return Math.abs(degrees - SQUARE.sum) <= SQUARE.off ? [] : [{ code: 'pattern/corner-not-square', facts }];
  });
}

const isIn = (edges: readonly EdgeOf[], panel: string, { name }: PatternCurve): boolean =>
  edges.some((edge) => edge.panel === panel && edge.edge === name);

/** The corners of all panels in the order of their edges, each where its edge starts. */
function cornersOf({ panels, seams, centre }: Pattern): Corner[] {
  const sewn = seams.flatMap(({ one, other }) => [one, other]);
  return panels.flatMap((panel: Panel) => {
    const way = Math.sign(signedArea(outlineOf(panel)));
    return panel.edges.map((edge, e): Corner => {
      const before = panel.edges.at(e - 1)!;
      const turn = turnBetween(before.points.at(-2)!, edge.points[0]!, edge.points[1]!);
      const both = [before, edge];
      return {
        words: `${panel.name} (${before.name}, ${edge.name})`,
        angle: Math.PI - way * turn,
        isOpen: both.some((one) => !isIn(sewn, panel.name, one) && !isIn(centre, panel.name, one)),
        onCentre: both.some((one) => isIn(centre, panel.name, one)),
      };
    });
  });
}

/** The sharpest turn of an edge within the window, where it is too sharp. */
function turnFinding(panel: string, { name, points }: PatternCurve): Finding | null {
  const along = lengthsAlong(points);
  const turns = points.map((at, i) =>
    i === 0 || i === points.length - 1 ? 0 : Math.abs(turnBetween(points[i - 1]!, at, points[i + 1]!)),
  );
  let [sum, first, most, atMost] = [0, 0, 0, 0];
  turns.forEach((turn, i) => {
    sum += turn;
    while (along[i]! - along[first]! > TURN.window) sum -= turns[first++]!;
    if (sum > most) [most, atMost] = [sum, (along[first]! + along[i]!) / 2];
  });
  if (most <= TURN.most) return null;
  const facts = { panel, edge: name, atMm: mmFromMetres(atMost), degrees: degreesFromRadians(most) };
  return { code: 'pattern/turns-sharply', facts };
}

/** Edges sewn more than once, panels that no seam reaches, and what stays open. */
function sewingFindings({ panels, seams, centre }: Pattern): Finding[] {
  const findings: Finding[] = [];
  const open: string[] = [];
  for (const { name: panel, edges } of panels) {
    const isOwn = (edge: EdgeOf) => edge.panel === panel;
    const joins = seams.some(({ one, other }) => isOwn(one) || isOwn(other));
    if (!joins && panels.length > 1) findings.push({ code: 'pattern/panel-unsewn', facts: { panel } });
    for (const { name: edge } of edges) {
      const isThis = (one: EdgeOf) => isOwn(one) && one.edge === edge;
      const own = seams.flatMap(({ name, one, other }) => [one, other].filter(isThis).map(() => name));
      const onCentre = centre.some(isThis);
      if (own.length + Number(onCentre) > 1) {
        const all = [...own, ...(onCentre ? ['centre'] : [])].join(', ');
        findings.push({ code: 'pattern/sewn-twice', facts: { panel, edge, seams: all } });
      }
      if (own.length === 0 && !onCentre) open.push(wordsFor({ panel, edge }));
    }
  }
  if (open.length > 0) {
    findings.push({ code: 'pattern/edges-free', facts: { edges: open.join(', '), count: open.length } });
  }
  return findings;
}
