import { joinedGroups } from '../units/joined-groups.ts';
import { curveLength } from './arc-length.ts';
import { meshPanel } from './mesh-panel.ts';
import { halvePanel, verticesAlong, type PanelMesh } from './panel-mesh.ts';
import { curveOf, seamOf, type EdgeOf, type Pattern } from './pattern.ts';

/** One level of a pattern sewn together: every panel keeps its own plane, vertices on seams are shared. */
export interface SewnLevel {
  /** In the pattern's order. */
  readonly panels: readonly PanelMesh[];
  /** Of each panel: its own vertices' numbers in the garment. */
  readonly joined: readonly Uint32Array[];
  readonly vertexCount: number;
  /** Vertices of the coarser level in whose middle each vertex lies; 2*V, empty on the coarsest. */
  readonly parents: Uint32Array;
}

/** Fewest segments of an edge: with one, two different seams could join the same two points. */
const FEWEST_SEGMENTS = 2;

/**
 * Meshes a pattern and sews it: sewn edges get the same number of segments and meet point by point, on every level.
 *
 * @param edge - Wanted edge length on the coarsest level, m.
 * @param halvings - How often each triangle is split in four.
 * @param edgeOf - Wanted edge length along one edge where it is finer than `edge` (narrow bands), m.
 */
export function sewPattern(
  pattern: Pattern,
  { edge, halvings, edgeOf = () => edge }: SewOptions,
): SewnLevel[] {
  const counts = segmentCounts(pattern, edgeOf);
  const panels = pattern.panels.map((panel, p) => meshPanel(panel, counts[p]!, edge));
  const levels = [joinedOnSeams(pattern, panels)];
  for (let l = 0; l < halvings; l++) levels.push(halved(pattern, levels[l]!));
  return levels;
}

export interface SewOptions {
  readonly edge: number;
  readonly halvings: number;
  readonly edgeOf?: (edge: EdgeOf) => number;
}

/** Vertices of the sewn garment along an edge, from its start to its end. */
export function chainOf(pattern: Pattern, { panels, joined }: SewnLevel, edge: EdgeOf): Uint32Array {
  const { p, e } = placeOf(pattern, edge);
  return Uint32Array.from(verticesAlong(panels[p]!, e), (v) => joined[p]![v]!);
}

/** 1 for each vertex on the body's middle plane; V. */
export function centreVertices(pattern: Pattern, level: SewnLevel): Uint8Array {
  const flags = new Uint8Array(level.vertexCount);
  for (const edge of pattern.centre) for (const v of chainOf(pattern, level, edge)) flags[v] = 1;
  return flags;
}

function placeOf({ panels }: Pattern, { panel, edge }: EdgeOf): { p: number; e: number } {
  const p = panels.findIndex(({ name }) => name === panel);
  const e = panels[p]?.edges.findIndex(({ name }) => name === edge) ?? -1;
  if (p < 0 || e < 0) throw new Error(`No edge ${edge} on a panel ${panel}.`);
  return { p, e };
}

/** Segments per edge of each panel; sewn edges share the count that their mean length asks for. */
function segmentCounts(pattern: Pattern, edgeOf: (edge: EdgeOf) => number): number[][] {
  const lengthOf = (edge: EdgeOf) => curveLength(curveOf(pattern, edge).points);
  const countOf = (edges: readonly EdgeOf[]): number => {
    const length = edges.reduce((sum, edge) => sum + lengthOf(edge), 0) / edges.length;
    return Math.max(FEWEST_SEGMENTS, Math.round(length / Math.min(...edges.map(edgeOf))));
  };
  return pattern.panels.map((panel) =>
    panel.edges.map(({ name }) => {
      const own = { panel: panel.name, edge: name };
      const seam = pattern.seams[seamOf(pattern, own)];
      return countOf(seam ? [seam.one, seam.other] : [own]);
    }),
  );
}

/** Gives one number to all vertices that seams bring together. */
function joinedOnSeams(pattern: Pattern, panels: readonly PanelMesh[]): SewnLevel {
  const first: number[] = [];
  let count = 0;
  for (const { flat } of panels) {
    first.push(count);
    count += flat.length / 2;
  }
  const { leadOf, join } = joinedGroups(count);
  const along = (edge: EdgeOf): number[] => {
    const { p, e } = placeOf(pattern, edge);
    return verticesAlong(panels[p]!, e).map((v) => first[p]! + v);
  };
  for (const { one, other, turned } of pattern.seams) {
    const these = along(one);
    const those = turned ? along(other).toReversed() : along(other);
    these.forEach((v, k) => join(v, those[k]!));
  }
  const numberOf = new Map<number, number>();
  const joined = panels.map(({ flat }, p) =>
    Uint32Array.from({ length: flat.length / 2 }, (_, v) => {
      const leader = leadOf(first[p]! + v);
      const known = numberOf.get(leader) ?? numberOf.size;
      numberOf.set(leader, known);
      return known;
    }),
  );
  return { panels, joined, vertexCount: numberOf.size, parents: new Uint32Array(0) };
}

/** Halves every panel; middles of a seam's segments are one vertex, all others belong to their panel. */
function halved(pattern: Pattern, coarse: SewnLevel): SewnLevel {
  const seams = pattern.panels.map((panel) =>
    panel.edges.map((edge) => seamOf(pattern, { panel: panel.name, edge: edge.name })),
  );
  const parents: number[] = [];
  for (let v = 0; v < coarse.vertexCount; v++) parents.push(v, v);
  const onSeams = new Map<string, number>();
  const fine = coarse.panels.map((mesh, p) => {
    const half = halvePanel(mesh, pattern.panels[p]!);
    const joined = new Uint32Array(half.mesh.flat.length / 2);
    const segmentCount = mesh.segments.length;
    const oldCount = mesh.flat.length / 2;
    for (let v = 0; v < joined.length; v++) {
      const a = coarse.joined[p]![half.parents[2 * v]!]!;
      const b = coarse.joined[p]![half.parents[2 * v + 1]!]!;
      if (v < oldCount) {
        joined[v] = a;
        continue;
      }
      // The middles of segments come first, in the segments' order.
      const s = v - oldCount;
      const seam = s < segmentCount ? (seams[p]![mesh.segments[s]!.curve] ?? -1) : -1;
      const key = seam < 0 ? null : `${seam} ${Math.min(a, b)} ${Math.max(a, b)}`;
      const known = key === null ? undefined : onSeams.get(key);
      joined[v] = known ?? parents.push(Math.min(a, b), Math.max(a, b)) / 2 - 1;
      if (key !== null) onSeams.set(key, joined[v]!);
    }
    return { mesh: half.mesh, joined };
  });
  return {
    panels: fine.map(({ mesh }) => mesh),
    joined: fine.map(({ joined }) => joined),
    vertexCount: parents.length / 2,
    parents: Uint32Array.from(parents),
  };
}
