import { metresFromMm, NEWTON_PER_KGF, ratioFromPercent } from '../units/units.ts';
import type { ExtensionUnit, ForceUnit, WidthUnit } from './bench-sheet.ts';

/** The strip or loop that readings were taken on; m. */
export interface TestPiece {
  readonly test: 'strip' | 'loop';
  readonly gauge: number;
  readonly width: number;
  /** Of a loop. */
  readonly circumference: number | null;
}

/**
 * Extension as a ratio. In mm it is the elongation of the gauge on a strip, the travel of the grips on a loop: both of
 * its legs lengthen, E = 2 L / C.
 *
 * @see ASTM D4964: L = E C / 200 with E in per cent (from memory).
 */
export function extensionFrom(value: number, unit: ExtensionUnit, piece: TestPiece): number {
  switch (unit) {
    case '%':
      return ratioFromPercent(value);
    case 'ratio':
      return value;
    case 'mm':
      if (piece.test === 'loop' && piece.circumference !== null)
        return (2 * metresFromMm(value)) / piece.circumference;
      return metresFromMm(value) / piece.gauge;
  }
}

/**
 * Force on one thickness of strip over its whole width, N. A machine pulls both legs of a loop and shows their sum,
 * in whatever unit: one leg bears half of it.
 */
export function newtonsFrom(value: number, unit: ForceUnit, piece: TestPiece): number {
  const shown = value * newtonsPer(unit, piece.width);
  return piece.test === 'loop' ? shown / 2 : shown;
}

/** Width of a stretched strip in m; as a share it counts from the unstretched width. */
export function widthFrom(value: number, unit: WidthUnit, piece: TestPiece): number {
  switch (unit) {
    case 'mm':
      return metresFromMm(value);
    case '%':
      return ratioFromPercent(value) * piece.width;
    case 'ratio':
      return value * piece.width;
  }
}

/** How many N over the whole width one unit is. */
function newtonsPer(unit: ForceUnit, width: number): number {
  switch (unit) {
    case 'N':
      return 1;
    case 'cN':
      return 0.01;
    case 'gf':
      return NEWTON_PER_KGF / 1000;
    case 'kgf':
      return NEWTON_PER_KGF;
    case 'N/m':
      return width;
    case 'N/5 cm':
      return width / 0.05;
    case 'gf/cm':
      return (NEWTON_PER_KGF / 1000) * (width / 0.01);
  }
}
