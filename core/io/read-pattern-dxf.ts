import { Fault } from '../fault/fault.ts';
import type { Finding } from '../fault/finding.ts';
import { importedPiece, type ImportedPattern, type ImportedPiece } from '../pattern/imported-pattern.ts';
import { unusedName } from '../pattern/cut-loop.ts';
import { tracePieces, type TracedPiece } from '../pattern/trace-pieces.ts';
import { runBack, turnedOver } from '../pattern/wound-pattern.ts';
import { dxfFile, type DxfFile } from './pattern-dxf-file.ts';
import { cutCount, dxfNotes, type CutCount } from './pattern-dxf-notes.ts';
import { blockOf, insertPlace, placedEntities, type PlacedEntity } from './pattern-dxf-shapes.ts';
import { tracedDxfSheet } from './pattern-dxf-sheet.ts';
import { requirePatternWithin } from './pattern-limits.ts';
import { shortened } from './mesh-number.ts';
import { after } from '../pattern/flat-transform.ts';

export interface DxfReading {
  /** Where the file does not say, or says it wrongly. */
  readonly units?: 'METRIC' | 'ENGLISH';
  /** Which of several sizes. */
  readonly size?: string;
}

/** m per unit of the file. */
const UNIT = { METRIC: 1e-3, ENGLISH: 0.0254 } as const;

/**
 * Reads a pattern from text DXF as ASTM D6673 and its forerunners arrange it: one block per piece, its boundary on layer 1
 * as closed polyline (bulges too) or chain of lines, turn points 2, notches 4 and 80 to 83, fold line 6, grain line 7,
 * inner lines 8, cut-outs 11, sew lines 14; units, sizes and names from its texts.
 *
 * A sew line inside the boundary becomes the panel's outline, a half on its fold is unfolded, a pair gets its mirror image.
 *
 * @param text - The decoded file.
 * @throws {Fault} `pattern/...`; each names the line, from 1.
 * @see ASTM D6673-10; layers as read in public reader manuals.
 */
export function readPatternDxf(text: string, wish: DxfReading = {}): ImportedPattern {
  const file = dxfFile(text);
  const sheets = sheetsOf(file);
  const style = dxfNotes(placedEntities(file.entities, file.blocks));
  const findings: Finding[] = [];
  const unit = UNIT[unitsOf(style, wish, findings)];
  const traced = sheets.flatMap((sheet) => tracedPieces(sheet, unit, findings));
  if (traced.length === 0) throw new Fault('pattern/no-outline', { what: 'The file' });
  requirePatternWithin('pieces', traced.length);
  const chosen = ofOneSize(traced, wish.size ?? style.get('samplesize') ?? '', findings);
  const taken = new Set<string>();
  const pieces = chosen.flatMap(({ piece, cut }): ImportedPiece[] => {
    const one = importedPiece(piece, taken);
    taken.add(one.panel.name);
    const both = withPair(one, cut, taken, findings);
    for (const { panel } of both) taken.add(panel.name);
    return both;
  });
  return {
    name: style.get('stylename') || 'pattern',
    panels: pieces.map(({ panel }) => panel),
    notches: pieces.flatMap(({ notches }) => notches),
    findings: [...findings, ...pieces.flatMap((piece) => piece.findings)],
  };
}

interface DxfSheet {
  readonly name: string;
  readonly entities: readonly PlacedEntity[];
}

/** One per placed block; where nothing is placed, one per block; and what is drawn beside the blocks. */
function sheetsOf({ blocks, entities }: DxfFile): DxfSheet[] {
  const inserts = entities.filter(({ type }) => type === 'INSERT');
  let count = 0;
  const sheet = (name: string, placed: readonly PlacedEntity[]): DxfSheet => {
    count += placed.length;
    requirePatternWithin('drawn things', count);
    return { name, entities: placed };
  };
  const placed = inserts.map((insert) => {
    const block = blockOf(insert, blocks);
    const place = insertPlace(insert, block);
    const own = placedEntities(block.entities, blocks);
    return sheet(
      block.name,
      own.map(({ entity, place: inner }) => ({ entity, place: after(place, inner) })),
    );
  });
  const unplaced =
    inserts.length > 0
      ? []
      : [...blocks.values()]
          .filter(({ name }) => !name.startsWith('*'))
          .map((block) => sheet(block.name, placedEntities(block.entities, blocks)));
  const direct = entities.filter(({ type }) => type !== 'INSERT');
  return [...placed, ...unplaced, sheet('piece', placedEntities(direct, blocks))].filter(
    ({ entities: own }) => own.some(({ entity }) => entity.layer === '1' && !isMark(entity.type)),
  );
}

const isMark = (type: string): boolean => ['POINT', 'TEXT', 'MTEXT', 'ATTDEF', 'ATTRIB'].includes(type);

function unitsOf(
  style: ReadonlyMap<string, string>,
  { units }: DxfReading,
  findings: Finding[],
): keyof typeof UNIT {
  if (units) return units;
  const said = style.get('units')?.toUpperCase() ?? '';
  if (said === 'METRIC' || said === 'ENGLISH') return said;
  findings.push({ code: 'pattern/unit-assumed', facts: { unit: 'mm' } });
  return 'METRIC';
}

interface DxfPiece {
  readonly piece: TracedPiece;
  readonly size: string;
  readonly cut: CutCount;
}

function tracedPieces({ name, entities }: DxfSheet, unit: number, findings: Finding[]): DxfPiece[] {
  const notes = dxfNotes(entities);
  const called = notes.get('piecename') || name;
  const { sheet, findings: own } = tracedDxfSheet(called, entities, unit);
  const traced = tracePieces(sheet);
  findings.push(...own, ...traced.findings);
  const size = notes.get('size') ?? '';
  return traced.pieces.map((piece) => ({ piece, size, cut: cutCount(notes.get('quantity')) }));
}

/** Pieces without a size belong to all. */
function ofOneSize(pieces: readonly DxfPiece[], wished: string, findings: Finding[]): readonly DxfPiece[] {
  const sizes = [...new Set(pieces.map(({ size }) => size).filter((size) => size !== ''))];
  if (sizes.length < 2) return pieces;
  const taken = sizes.includes(wished) ? wished : sizes[0]!;
  const facts = { sizes: shortened(sizes.join(', ')), taken };
  findings.push({ code: 'pattern/several-sizes', facts });
  return pieces.filter(({ size }) => size === '' || size === taken);
}

/** The piece and, where it is cut as a pair, its mirror image. */
function withPair(
  one: ImportedPiece,
  { right, left }: CutCount,
  taken: ReadonlySet<string>,
  findings: Finding[],
): ImportedPiece[] {
  const { name } = one.panel;
  const count = Math.max(right, left);
  if (count > 1) findings.push({ code: 'pattern/cut-several-times', facts: { piece: name, count } });
  if (Math.min(right, left) === 0) return [one];
  const mirrored = unusedName(`${name} mirrored`, taken);
  findings.push({ code: 'pattern/pair-added', facts: { piece: name, mirrored } });
  const panel = runBack({ ...turnedOver(one.panel), name: mirrored });
  const notches = one.notches.map(({ at: [x, y] }) => ({ panel: mirrored, at: [-x, y] as const }));
  return [one, { panel, notches, findings: [] }];
}
