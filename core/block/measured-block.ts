import type { Body } from '../body/body.ts';
import type { ClothLevel, GarmentLine } from '../garment/garment.ts';
import type { MeasuredGarment, RestGirth, RestMeasure } from '../garment/measured-garment.ts';
import {
  pairsOf,
  restEdges,
  restLength,
  restQuality,
  restRowAt,
  type RestEdges,
} from '../garment/rest-edges.ts';
import { verticesAlong } from '../pattern/panel-mesh.ts';
import { isSameEdge, seamOf, type EdgeOf, type FlatPoint } from '../pattern/pattern.ts';
import { chainOf } from '../pattern/sew-pattern.ts';
import { squareRow } from '../pattern/square-row.ts';
import { BLOCKS, type BlockSheet } from './blocks.ts';
import type { DraftedBlock } from './drafted-block.ts';
import type { LaidBlock, LaidParts } from './lay-block.ts';
import { guideOf, levelHeight, type Guide } from './level-ways.ts';

interface SheetEdge {
  readonly edge: string;
  /** Any panel that has such an edge if left out. */
  readonly panel?: string;
  /** How often it is in the measure; once if left out. */
  readonly times?: number;
}

/** What a sheet calls by another name than the pattern's edge. */
const EDGES: Readonly<Record<string, Readonly<Record<string, SheetEdge>>>> = {
  stocking: { B: { edge: 'ankle' }, D: { edge: 'top' }, length: { edge: 'outerBack' } },
  brief: {
    legOpening: { edge: 'leg' },
    frontLength: { panel: 'front', edge: 'centre' },
    gussetLength: { panel: 'gusset', edge: 'centre' },
    backLength: { panel: 'back', edge: 'centre' },
    gussetFront: { panel: 'gusset', edge: 'front', times: 2 },
    gussetBack: { panel: 'gusset', edge: 'back', times: 2 },
  },
};
/** A level that lies nearer to an opening than this is the opening, m: as the blocks with legs take an ankle. */
const AT_EDGE = 0.01;

interface Subject {
  readonly block: DraftedBlock;
  readonly sheet: BlockSheet;
  readonly body: Body;
  readonly cloth: ClothLevel;
  readonly lines: readonly GarmentLine[];
  readonly edges: RestEdges;
  readonly parts: LaidParts;
  readonly guide: Guide | null;
}

/**
 * Measures a laid block on its unstretched finest mesh, beside what its sheet asks for.
 *
 * Openings are measured along their mesh edges, lengths along the vertices of their seams. A row inside cut panels begins
 * where its level lies on the mesh's side seam and is trued: it meets seams and centre square, as an arc in the flat
 * panel. A row of a piece knit to shape is the level cut through the laid cloth, each triangle's share of it unstretched.
 */
export function measureBlock(
  block: DraftedBlock,
  sheet: BlockSheet,
  { garment, parts }: Pick<LaidBlock, 'garment' | 'parts'>,
  body: Body,
): MeasuredGarment {
  const cloth = garment.levels.at(-1)!;
  const lines = garment.lines ?? [];
  const edges = restEdges(cloth);
  const guide = guideOf(block.pattern, block.placing, body);
  const subject: Subject = { block, sheet, body, cloth, lines, edges, parts, guide };
  const { levels, lengths } = BLOCKS[sheet.block];
  return {
    girths: levels.map(({ name }) => girth(subject, name)),
    lengths: lengths.map(({ name }) => length(subject, name)),
    panels: parts.pattern.panels.map(({ name }, p) => ({
      name,
      area: cloth.restArea.reduce((sum, area, t) => (parts.panelOf[t] === p ? sum + area : sum), 0),
    })),
    quality: restQuality(edges, garment.levels),
    laid: lines.map(({ name, at }) => ({ name, at })),
  };
}

const edgeOf = ({ sheet }: Subject, name: string): SheetEdge => EDGES[sheet.block]?.[name] ?? { edge: name };

function girth(subject: Subject, name: string): RestGirth {
  const { sheet, body, lines, edges } = subject;
  const height = levelHeight(body, sheet, name);
  const given = { name, sheet: sheet.girths[name] ?? null };
  const line = lines.find((one) => one.name === edgeOf(subject, name).edge || isAt(one, height));
  if (line) return { ...given, at: line.at, relaxed: restLength(edges, line.segments) };
  return { ...given, at: height, relaxed: height === null ? null : row(subject, height) };
}

/** A level below the knee that lies on the hem has the hem's girth. */
const isAt = ({ name, at }: GarmentLine, height: number | null): boolean =>
  name === 'hem' && height !== null && height < at + AT_EDGE;

/** The relaxed row at a height of the body; none where the cloth does not reach all round. */
function row(subject: Subject, height: number): number | null {
  const { block, body, cloth, guide } = subject;
  const way = guide?.wayOf(height) ?? null;
  if (!guide || way === null) return null;
  const crotch = body.landmarks.crotch?.point[1] ?? -Infinity;
  const isTrunk = height > crotch;
  if (!block.moulded) return flatRow(subject, { guide, way, isTrunk });
  const { positions, triangles } = cloth.mesh;
  return restRowAt(
    cloth,
    height,
    (t) => isTrunk || positions[3 * triangles[3 * t]!]! + positions[3 * triangles[3 * t + 1]!]! > 0,
  );
}

interface RowPlace {
  readonly guide: Guide;
  readonly way: number;
  readonly isTrunk: boolean;
}

/** Across every panel that the guiding seam is sewn to; twice where it ends on the centre, as rows of a trunk do. */
function flatRow({ parts }: Subject, { guide, way, isTrunk }: RowPlace): number | null {
  const { pattern } = parts;
  const endsOnCentre = isTrunk && pattern.centre.length > 0;
  let whole = 0;
  for (const panel of guide.panels) {
    const seam = upwards(flatChain(parts, { panel, edge: guide.edge }));
    const names = pattern.panels.find(({ name }) => name === panel)!.edges.map(({ name }) => name);
    const across = names
      .map((edge): EdgeOf => ({ panel, edge }))
      .filter(
        (edge) => edge.edge !== guide.edge && (endsOnCentre ? isCentre(parts, edge) : isSewn(parts, edge)),
      )
      .flatMap((edge) => {
        const found = squareRow({ points: seam, way }, flatChain(parts, edge));
        return found ? [found.length] : [];
      });
    if (across.length === 0) return null;
    whole += (endsOnCentre ? 2 : 1) * Math.min(...across);
  }
  return whole;
}

const isCentre = ({ pattern }: LaidParts, edge: EdgeOf): boolean =>
  pattern.centre.some((one) => isSameEdge(one, edge));

const isSewn = ({ pattern }: LaidParts, edge: EdgeOf): boolean => seamOf(pattern, edge) >= 0;

/** An edge as the finest mesh has it in the panel's plane. */
function flatChain({ pattern, sewn }: LaidParts, edge: EdgeOf): FlatPoint[] {
  const p = pattern.panels.findIndex(({ name }) => name === edge.panel);
  const e = pattern.panels[p]!.edges.findIndex(({ name }) => name === edge.edge);
  const { flat } = sewn.panels[p]!;
  return verticesAlong(sewn.panels[p]!, e).map((v): FlatPoint => [flat[2 * v]!, flat[2 * v + 1]!]);
}

const upwards = (points: FlatPoint[]): FlatPoint[] =>
  points.at(-1)![1] < points[0]![1] ? points.toReversed() : points;

/** A length along a seam; where two panels are sewn there, of the one that is farther from the sheet. */
function length(subject: Subject, name: string): RestMeasure {
  const { sheet, parts, edges } = subject;
  const asked = sheet.lengths[name] ?? null;
  const own = edgeOf(subject, name);
  const found = parts.pattern.panels.flatMap((panel, p) =>
    panel.edges
      .filter(
        ({ name: edge }) =>
          (edge === own.edge && (own.panel ?? panel.name) === panel.name) ||
          `${panel.name}${capital(edge)}` === own.edge,
      )
      .map(({ name: edge }) => {
        const chain = chainOf(parts.pattern, parts.sewn, { panel: panel.name, edge }).map(
          (v) => parts.drawn[v]!,
        );
        return (own.times ?? 1) * restLength(edges, pairsOf(chain), (t) => parts.panelOf[t] === p);
      }),
  );
  const off = (relaxed: number): number => Math.abs(relaxed - (asked ?? relaxed));
  return { name, sheet: asked, relaxed: found.toSorted((one, other) => off(other) - off(one))[0] ?? null };
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
