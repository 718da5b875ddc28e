import type { TubeSheet } from '../garment/tube-sheet.ts';
import type { BlockSheet } from './blocks.ts';

/** A garment as its spec sheet gives it: a tube, or a block drafted to panels. */
export type GarmentSheet = TubeSheet | BlockSheet;

export const isBlock = (sheet: GarmentSheet): sheet is BlockSheet => 'block' in sheet;

/** Relaxed girths of a sheet, in its own order, m. */
export const relaxedGirths = (sheet: GarmentSheet): readonly number[] =>
  isBlock(sheet) ? Object.values(sheet.girths) : sheet.girths.map(({ relaxed }) => relaxed);

/** Which yarn direction runs along the body: panels are cut with their warp along. */
export const warpOf = (sheet: GarmentSheet): TubeSheet['warp'] => (isBlock(sheet) ? 'along' : sheet.warp);
