import type { Body, Box } from '../body/body.ts';
import type { DistanceField } from '../body/distance-field.ts';
import type { Garment, GarmentEdge, GarmentLine } from '../garment/garment.ts';
import { mouldedLevels } from '../garment/moulded-rest.ts';
import { panelCloth, type PanelCloth } from '../garment/panel-cloth.ts';
import { layPattern } from '../garment/place-pattern.ts';
import { pairsOf } from '../garment/rest-edges.ts';
import { curveLength } from '../pattern/arc-length.ts';
import { curveOf, freeEdges, type EdgeOf, type Pattern } from '../pattern/pattern.ts';
import { centreVertices, chainOf, sewPattern, type SewnLevel } from '../pattern/sew-pattern.ts';
import type { DraftedBlock } from './drafted-block.ts';

/** A cut garment laid on a body, and the smooth skin it lies on. */
export interface LaidBlock {
  readonly garment: Garment;
  readonly skin: DistanceField;
  /** Triangles of the coarsest level that lie inside out; none in a sound garment. */
  readonly inward: number;
  /** Where the parts of its pattern are to be found in the finest mesh. */
  readonly parts: LaidParts;
}

/** Panels of a laid block. */
export interface LaidParts {
  readonly pattern: Pattern;
  readonly sewn: SewnLevel;
  /** Of each vertex of `sewn`: its number in the garment. */
  readonly drawn: Uint32Array;
  /** Index of each triangle's panel, the mirrored half after the drawn one; T. */
  readonly panelOf: Uint8Array;
}

/** Coarsest edges are near this, m: fine enough for the shape, coarse enough to be laid quickly. */
const COARSE_EDGE = 0.034;
/** Fewest edges round an opening on the coarsest level: with seven, the end of a legging was laid with folds. */
const FEWEST_ROUND = 10;
/** Bodies bulge beyond their landmarks by no more than this, m. */
const ROOM = 0.05;

/**
 * Meshes a drafted block, sews it and lays it on the body.
 *
 * @param edge - Wanted edge length of the finest mesh, m.
 */
export function* layBlock(
  { pattern, placing, scaling, fine = {}, moulded }: DraftedBlock,
  body: Pick<Body, 'contactField'>,
  edge: number,
): Generator<void, LaidBlock> {
  const halvings = Math.max(1, Math.round(Math.log2(COARSE_EDGE / edge)));
  const coarse = edge * 2 ** halvings;
  const openings = new Map(openingsOf(pattern).map(({ name, half }) => [name, half]));
  const sewn = sewPattern(pattern, {
    edge: coarse,
    halvings,
    edgeOf: ({ panel, edge: name }) =>
      Math.min(coarse, fine[panel] ?? Infinity, (openings.get(name) ?? Infinity) / FEWEST_ROUND),
  });
  yield;
  const skin = body.contactField(boxOf(placing.points.map((point) => point.body)));
  yield;
  const laid = yield* layPattern(pattern, sewn, skin, placing);
  const cloth = panelCloth(pattern, sewn, laid, skin);
  const lines = linesOf(pattern, sewn.at(-1)!, cloth);
  return {
    garment: {
      levels: moulded ? mouldedLevels(cloth.levels, scaling) : cloth.levels,
      warp: 'along',
      rings: [],
      columnCount: 0,
      lines,
      pattern,
      edges: edgesOf(pattern, sewn.at(-1)!, cloth),
      findings: [],
    },
    skin,
    inward: laid.inward,
    parts: { pattern, sewn: sewn.at(-1)!, drawn: cloth.numbers.at(-1)!.drawn, panelOf: cloth.panelOf },
  };
}

/** The box of all placed points and their mirror images, with room for what bulges beyond them. */
function boxOf(points: readonly (readonly [number, number, number])[]): Box {
  const range = (k: 0 | 1 | 2) => {
    const values = points.map((point) => point[k]);
    return [Math.min(...values), Math.max(...values)] as const;
  };
  const [, right] = range(0);
  const [low, high] = range(1);
  const [back, front] = range(2);
  const half = right + ROOM;
  return { low: [-half, low, back - ROOM], high: [half, high, front + ROOM] };
}

/**
 * The free edges of a garment, each as one line: an edge that ends on the centre goes on in its mirror image; any other is
 * one of a pair, of which the drawn one is taken.
 */
function linesOf(pattern: Pattern, level: SewnLevel, cloth: PanelCloth): GarmentLine[] {
  const { drawn, mirrored } = cloth.numbers.at(-1)!;
  const { positions } = cloth.levels.at(-1)!.mesh;
  const onCentre = centreVertices(pattern, level);
  return openingsOf(pattern).map(({ name, edges, half }) => {
    const chains = edges.map((edge) => chainOf(pattern, level, edge));
    const isWhole = chains.some((chain) => onCentre[chain[0]!] === 1 || onCentre[chain.at(-1)!] === 1);
    const numbers = isWhole && pattern.centre.length > 0 ? [drawn, mirrored] : [drawn];
    const segments = numbers.flatMap((number) =>
      chains.flatMap((chain) => pairsOf(chain.map((v) => number[v]!))),
    );
    let laid = 0;
    let height = 0;
    for (let s = 0; s < segments.length; s += 2) {
      const [a, b] = [3 * segments[s]!, 3 * segments[s + 1]!];
      laid += Math.hypot(...[0, 1, 2].map((k) => positions[b + k]! - positions[a + k]!));
      height += (positions[a + 1]! * 2) / segments.length;
    }
    return { name, at: height, laid, relaxed: numbers.length * half, segments: Uint32Array.from(segments) };
  });
}

/** Every edge of the pattern as it lies on the finest mesh, its mirror image too. */
function edgesOf(pattern: Pattern, level: SewnLevel, cloth: PanelCloth): GarmentEdge[] {
  const { drawn, mirrored } = cloth.numbers.at(-1)!;
  const numbers = pattern.centre.length > 0 ? [drawn, mirrored] : [drawn];
  return pattern.panels.flatMap(({ name: panel, edges }) =>
    edges.map(({ name: edge }): GarmentEdge => {
      const chain = chainOf(pattern, level, { panel, edge });
      const segments = numbers.flatMap((number) => pairsOf(chain.map((v) => number[v]!)));
      return { panel, edge, segments: Uint32Array.from(segments) };
    }),
  );
}

/** Free edges of one name: together an opening, or the drawn half of one that the centre divides. */
interface Opening {
  readonly name: string;
  readonly edges: readonly EdgeOf[];
  /** Relaxed length as drawn, m. */
  readonly half: number;
}

function openingsOf(pattern: Pattern): Opening[] {
  const free = freeEdges(pattern);
  return [...new Set(free.map(({ edge }) => edge))].map((name) => {
    const edges = free.filter(({ edge }) => edge === name);
    const half = edges.reduce((sum, edge) => sum + curveLength(curveOf(pattern, edge).points), 0);
    return { name, edges, half };
  });
}
