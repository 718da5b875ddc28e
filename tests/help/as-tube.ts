import { isBlock, type GarmentSheet } from '../../core/block/garment-sheet.ts';
import type { TubeSheet } from '../../core/garment/tube-sheet.ts';

/** A garment that is known to be a tube. */
export function asTube(sheet: GarmentSheet): TubeSheet {
  if (isBlock(sheet)) throw new Error('a tube was expected, not a block');
  return sheet;
}
