import { importedPiece, type ImportedPattern } from '../pattern/imported-pattern.ts';
import { tracePieces } from '../pattern/trace-pieces.ts';
import { requirePatternWithin } from './pattern-limits.ts';
import { tracedSvgSheet } from './pattern-svg-sheet.ts';

export interface SvgReading {
  /** mm per unit of the drawing, where the file does not say it, or says it wrongly. */
  readonly mmPerUnit?: number;
}

/** A pattern read from a drawing. */
export interface SvgPattern extends ImportedPattern {
  /** What the drawing's units were taken as. */
  readonly mmPerUnit: number;
}

/**
 * Reads a pattern from SVG: every closed outline that lies in no other is a panel.
 *
 * Paths with all commands, polygons, polylines, lines, rectangles, circles and ellipses, transformed as they may be. Open
 * lines of one group are joined to outlines; those with a name or the class `edge` are edges from corner to corner. By
 * class or id: `grain`, `notch`, `fold`; by class `line` (an inner line) and `mark` (nothing). Names from `data-name`, label,
 * id or a text inside. Units from width, height and viewBox.
 *
 * @param text - The decoded file.
 * @throws {Fault} `pattern/...`; each names the line, from 1.
 * @see W3C, Scalable Vector Graphics (SVG) 1.1 (second edition).
 */
export function readPatternSvg(text: string, { mmPerUnit }: SvgReading = {}): SvgPattern {
  const { sheet, title, findings, mmPerUnit: scale } = tracedSvgSheet(text, mmPerUnit ?? null);
  const named = { ...sheet, texts: sheet.texts.filter((one) => one.text !== '') };
  const traced = tracePieces(named);
  requirePatternWithin('pieces', traced.pieces.length);
  const taken = new Set<string>();
  const pieces = traced.pieces.map((piece) => {
    const one = importedPiece(piece, taken);
    taken.add(one.panel.name);
    return one;
  });
  return {
    name: title || 'pattern',
    panels: pieces.map(({ panel }) => panel),
    notches: pieces.flatMap(({ notches }) => notches),
    findings: [...findings, ...traced.findings, ...pieces.flatMap((piece) => piece.findings)],
    mmPerUnit: scale,
  };
}
