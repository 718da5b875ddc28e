import { curveLength, lengthsAlong } from './arc-length.ts';
import { distanceBetween, nearestOn, turnBetween } from './flat-outline.ts';
import type { PanelNotch } from './imported-pattern.ts';
import type { FlatPoint, Panel, PatternCurve } from './pattern.ts';

/** A panel's side from corner to corner: one edge, or several that meet at notches. */
export interface PanelSide {
  readonly panel: string;
  readonly edges: readonly PatternCurve[];
  /** m. */
  readonly length: number;
  /** Fractions of its length at which notches lie, rising. */
  readonly notches: readonly number[];
}

/** A notch lies on a point or a line that it is this close to, m. */
const ON = 1e-4;
/** A sharper turn is a corner even where a notch stands, rad. */
const CORNER = Math.PI / 6;

/** The sides of a panel in the order of its edges. */
export function panelSides({ name, edges }: Panel, notches: readonly PanelNotch[]): PanelSide[] {
  const own = notches.filter(({ panel }) => panel === name).map(({ at }) => at);
  const begins = edges.map(({ points }, e) => {
    const before = edges.at(e - 1)!.points;
    const turn = turnBetween(before.at(-2)!, points[0]!, points[1]!);
    return Math.abs(turn) > CORNER || !own.some((at) => distanceBetween(at, points[0]!) < ON);
  });
  const first = Math.max(0, begins.indexOf(true));
  const runs: PatternCurve[][] = [];
  for (let k = 0; k < edges.length; k++) {
    const e = (first + k) % edges.length;
    if (begins[e] || k === 0) runs.push([]);
    runs.at(-1)!.push(edges[e]!);
  }
  return runs.map((run) => sideOf(name, run, own));
}

/** One edge as a side of its own, whatever its ends are. */
export const edgeAsSide = (panel: string, edge: PatternCurve): PanelSide => sideOf(panel, [edge], []);

function sideOf(panel: string, edges: readonly PatternCurve[], notches: readonly FlatPoint[]): PanelSide {
  const points = edges.flatMap((edge, e) => (e === 0 ? edge.points : edge.points.slice(1)));
  const length = curveLength(points);
  const along = lengthsAlong(points);
  const fractions = notches
    .map((at) => nearestOn(points, at))
    .filter(({ away }) => away < ON)
    .map(({ segment, share }) => along[segment]! + share * (along[segment + 1]! - along[segment]!))
    .filter((way) => way > ON && way < length - ON)
    .map((way) => way / length);
  return { panel, edges, length, notches: fractions.toSorted((one, other) => one - other) };
}
