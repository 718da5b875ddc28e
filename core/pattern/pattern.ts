/** A point in a panel's own plane: x across (the weft where nothing is turned), y along; m. */
export type FlatPoint = readonly [x: number, y: number];

/** One side of a panel from corner to corner, or a line drawn inside it: a polyline close enough to be taken as the curve. */
export interface PatternCurve {
  readonly name: string;
  /** At least two, no two neighbours the same. */
  readonly points: readonly FlatPoint[];
}

/** A flat piece of a garment as it is cut; without seam allowance. */
export interface Panel {
  readonly name: string;
  /** A closed loop, each edge beginning where the one before ends. */
  readonly edges: readonly PatternCurve[];
  /** Drawn inside, both ends on corners of the loop: where another material begins. */
  readonly lines?: readonly PatternCurve[];
  /** How far the warp is turned from y towards x, rad; 0 if left out. */
  readonly grain?: number;
  /** Which of the garment's fabrics; the first if left out. */
  readonly fabric?: number;
}

/** An edge of a panel. */
export interface EdgeOf {
  readonly panel: string;
  readonly edge: string;
}

/** Two edges sewn together by fraction of their length: unequal lengths are eased. */
export interface Seam {
  readonly name: string;
  readonly one: EdgeOf;
  readonly other: EdgeOf;
  /** Whether the start of one lies on the end of the other. */
  readonly turned: boolean;
}

/**
 * A garment as flat pieces and what is sewn to what. Every edge is sewn, lies on the centre, or is free; nothing else.
 */
export interface Pattern {
  readonly name: string;
  readonly panels: readonly Panel[];
  readonly seams: readonly Seam[];
  /**
   * Edges on the body's middle plane, where the pattern is drawn as the wearer's left half: a fold and a centre seam are the
   * same thing. None where both halves are drawn.
   */
  readonly centre: readonly EdgeOf[];
}

/** The panel and curve that an edge names. */
export function curveOf({ panels }: Pattern, { panel, edge }: EdgeOf): PatternCurve {
  const curve = panels.find(({ name }) => name === panel)?.edges.find(({ name }) => name === edge);
  if (!curve) throw new Error(`No edge ${edge} on a panel ${panel}.`);
  return curve;
}

/** One text for an edge, to look it up by. */
export const edgeKey = ({ panel, edge }: EdgeOf): string => `${panel}\n${edge}`;

export const isSameEdge = (one: EdgeOf, other: EdgeOf): boolean =>
  one.panel === other.panel && one.edge === other.edge;

/** Index of the seam that an edge is sewn in, or -1. */
export const seamOf = ({ seams }: Pattern, edge: EdgeOf): number =>
  seams.findIndex(({ one, other }) => isSameEdge(one, edge) || isSameEdge(other, edge));

/** Edges that are neither sewn nor on the centre, panel by panel. */
export function freeEdges({ panels, seams, centre }: Pattern): EdgeOf[] {
  const taken = new Set([...seams.flatMap(({ one, other }) => [one, other]), ...centre].map(edgeKey));
  return panels
    .flatMap(({ name, edges }) => edges.map((edge): EdgeOf => ({ panel: name, edge: edge.name })))
    .filter((edge) => !taken.has(edgeKey(edge)));
}
