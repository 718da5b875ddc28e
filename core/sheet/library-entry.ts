import type { BenchReadings } from '../fabric/bench-readings.ts';
import type { Fabric } from '../fabric/fabric.ts';
import { pullStrips, STRIP_ANGLE } from '../fabric/virtual-strip.ts';
import { Fault, type FaultCode, type FaultFacts } from '../fault/fault.ts';
import { gramsFromKilograms, kPaFromPascals, mmFromMetres } from '../units/units.ts';
import { STRIP_WIDTH } from './display-unit.ts';
import { fixed } from './number-format.ts';

/** What the library says of one fabric. SI. */
export interface LibraryEntry {
  readonly name: string;
  readonly lot: string;
  /** ISO date of the readings. */
  readonly date: string;
  readonly note: string | null;
  readonly invented: boolean;
  /** kg/m^2. */
  readonly arealDensity: number;
  /** m, under `thicknessPressure` (Pa). */
  readonly thickness: number;
  readonly thicknessPressure: number;
  /** Pull of a strip at 40 % per original width, off the fitted law, N/m. */
  readonly pull40: { readonly warp: number; readonly weft: number };
  /** True where the bench did not pull as far as 40 %. */
  readonly beyond40: { readonly warp: boolean; readonly weft: boolean };
  readonly remarkCount: number;
}

/** A fault without its stack, as it crosses from a worker. */
export type SheetFault = {
  [C in FaultCode]: { readonly code: C; readonly facts: FaultFacts[C] };
}[FaultCode];

/** What came of reading one sheet: a fabric, or why there is none. */
export type SheetReading =
  | { readonly kind: 'sound'; readonly entry: LibraryEntry }
  | { readonly kind: 'broken'; readonly fault: SheetFault };

/** The extension at which fabrics are compared in the library. */
const STRETCH_40 = 1.4;

/** One fabric's line in the library, off its readings and the law made of them. */
export function libraryEntry(readings: Pick<BenchReadings, 'note'>, fabric: Fabric): LibraryEntry {
  const law = fabric.laws.load;
  // Up in two steps: each strip starts where the last one ended.
  const pullOf = (direction: 'warp' | 'weft'): number =>
    pullStrips(law, STRIP_ANGLE[direction], [1.2, STRETCH_40])[1]!.tension;
  // The last reading at 40 % is a rounded 1.4.
  const isBeyond = (direction: 'warp' | 'weft'): boolean => law.measuredTo[direction] < STRETCH_40 - 1e-6;
  return {
    name: fabric.name,
    lot: fabric.lot,
    date: fabric.date,
    note: readings.note,
    invented: fabric.invented,
    arealDensity: fabric.arealDensity,
    thickness: fabric.thickness,
    thicknessPressure: fabric.thicknessPressure,
    pull40: { warp: pullOf('warp'), weft: pullOf('weft') },
    beyond40: { warp: isBeyond('warp'), weft: isBeyond('weft') },
    remarkCount: fabric.findings.length,
  };
}

/**
 * What came of reading one sheet. A broken sheet is an answer here, for the library lists it with its reason; a bug
 * stays one.
 *
 * @param read - Reads the sheet and makes its fabric.
 */
export function sheetReading(
  read: () => { readonly readings: Pick<BenchReadings, 'note'>; readonly fabric: Fabric },
): SheetReading {
  try {
    const { readings, fabric } = read();
    return { kind: 'sound', entry: libraryEntry(readings, fabric) };
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    const { code, facts } = error;
    return { kind: 'broken', fault: { code, facts } as SheetFault };
  }
}

/** An entry's numbers as they are printed; their units stand once, above the column. */
export interface EntryFigures {
  /** g/m². */
  readonly weight: string;
  /** mm. */
  readonly thickness: string;
  /** Of the foot, kPa. */
  readonly pressure: string;
  /** Pull of a 50 mm strip at 40 %, N. */
  readonly warp40: string;
  readonly weft40: string;
}

/** @see ISO 20932-1: the force of a strip 50 mm wide. */
export const entryFigures = (entry: LibraryEntry): EntryFigures => ({
  weight: fixed(gramsFromKilograms(entry.arealDensity), 0),
  thickness: fixed(mmFromMetres(entry.thickness), 2),
  pressure: fixed(kPaFromPascals(entry.thicknessPressure), 2),
  warp40: fixed(entry.pull40.warp * STRIP_WIDTH, 1),
  weft40: fixed(entry.pull40.weft * STRIP_WIDTH, 1),
});

const SHEET_ENDING = '.bench.json';

/** Whether a file is a bench sheet by its name. */
export const isSheetPath = ({ path }: { readonly path: string }): boolean =>
  path.toLowerCase().endsWith(SHEET_ENDING);

/**
 * The same sheet under another name and lot: every reading and the date stay as they are.
 *
 * @param text - JSON of a sheet that could be read.
 */
export function renamedSheet(
  text: string,
  { name, lot }: { readonly name: string; readonly lot: string },
): string {
  const sheet: unknown = JSON.parse(text.replace(/^\uFEFF/, ''));
  const readings = typeof sheet === 'object' ? sheet : null;
  return `${JSON.stringify({ ...readings, name, lot }, null, 2)}\n`;
}

/**
 * The file name of a fabric: name and lot in letters, digits and hyphens, as every system takes them.
 *
 * `Tern 210 (invented)`, `T-0417` -> `tern-210-invented-t-0417.bench.json`
 */
export function sheetFileName(name: string, lot: string): string {
  const stem = `${name} ${lot}`
    .normalize('NFC')
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{M}\p{N}]+/gu, '-')
    .replaceAll(/^-+|-+$/g, '');
  return `${Array.from(stem).slice(0, 60).join('').replace(/-+$/, '') || 'fabric'}${SHEET_ENDING}`;
}
