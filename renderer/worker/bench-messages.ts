import type { Direction } from '../../core/fabric/fabric.ts';
import type { HeldWidthEvidence, StripEvidence } from '../../core/fabric/strip-evidence.ts';
import type { Finding } from '../../core/fault/finding.ts';
import type { BenchSheet, ExtensionUnit, ForceUnit, Pair, WidthUnit } from '../../core/io/bench-sheet.ts';
import type { TableWish, TensileTable } from '../../core/io/tensile-table.ts';
import type { FabricCard } from '../../core/sheet/fabric-card.ts';
import type { SheetReading } from '../../core/sheet/library-entry.ts';
import type { PostedFault } from './messages.ts';

/** The parts of a sheet that have been read so far. */
export type SheetParts = {
  readonly [P in 'strip' | 'thickness' | 'stretch' | 'bending']: BenchSheet[P] | null;
};

/** What comes out of the parts that need no fit; null where a part is not there yet. SI. */
export interface PartNumbers {
  /** kg/m². */
  readonly arealDensity: number | null;
  /** m. */
  readonly thickness: number | null;
  /** N·m. */
  readonly bendingRigidity: Readonly<Record<Direction, number>> | null;
}

/** A fabric as the bench shows it. */
export interface FittedFabric {
  readonly sheet: BenchSheet;
  /** Every number with what it rests on, and what is to be remarked. */
  readonly card: FabricCard;
  /** Readings and fitted strips; null where the fabric has none. */
  readonly strips: Readonly<Record<Direction, StripEvidence>> | null;
  readonly held: HeldWidthEvidence | null;
}

/** How a sheet came out. */
export type FitOutcome =
  | { readonly kind: 'fabric'; readonly fabric: FittedFabric }
  | { readonly kind: 'fault'; readonly fault: PostedFault }
  /** Parts are missing. */
  | { readonly kind: 'unfinished' };

/** Which curves of a tester's table go into which strip of the bench. */
export interface StripWish {
  /** As the table says; null for curves whose direction it does not say. */
  readonly from: Direction | null;
  readonly into: Direction | 'held';
  readonly cycle: number;
  readonly specimens: readonly number[];
}

/** What the bench's tables are in, and the test piece where it was said. */
export interface TakenUnits {
  readonly extension: ExtensionUnit;
  readonly force: ForceUnit;
  readonly width: WidthUnit;
  readonly test: 'strip' | 'loop';
  readonly gaugeMm: number | null;
  readonly widthMm: number | null;
  readonly circumferenceMm: number | null;
}

/** One strip's specimens as they go into the bench's tables. */
export interface TakenStrip {
  readonly into: Direction | 'held';
  readonly load: readonly (readonly Pair[])[];
  readonly return: readonly (readonly Pair[])[];
  readonly width: readonly (readonly Pair[])[];
  /** Of the unstretched strip, mm; null where nobody said. */
  readonly widthMm: number | null;
  readonly findings: readonly Finding[];
}

export type ToBench =
  /** Answered by `fitted` of the same turn. */
  | {
      readonly kind: 'fit';
      readonly turn: number;
      readonly parts: SheetParts;
      readonly sheet: BenchSheet | null;
    }
  /** A sheet's text to be read; answered by `sheet` or `refused`. */
  | { readonly kind: 'readSheet'; readonly turn: number; readonly name: string; readonly text: string }
  /** A sheet's text to be fitted as well; answered by `beside` or `refused`. */
  | { readonly kind: 'fitBeside'; readonly turn: number; readonly name: string; readonly text: string }
  /** Sheets for the library's lines; answered by `inspected`. */
  | { readonly kind: 'inspect'; readonly turn: number; readonly texts: readonly string[] }
  /** A tester's table; answered by `table` or `refused`. */
  | {
      readonly kind: 'readTable';
      readonly turn: number;
      readonly name: string;
      readonly text: string;
      readonly wish: TableWish;
    }
  /** Strips of that table; answered by `strips` or `refused`. */
  | {
      readonly kind: 'takeStrips';
      readonly turn: number;
      readonly name: string;
      readonly text: string;
      readonly wish: TableWish;
      readonly strips: readonly StripWish[];
      readonly units: TakenUnits;
    }
  /** Answered by `sheetText`. */
  | { readonly kind: 'writeSheet'; readonly turn: number; readonly sheet: BenchSheet };

export type FromBench =
  | {
      readonly kind: 'fitted';
      readonly turn: number;
      readonly numbers: PartNumbers;
      readonly outcome: FitOutcome;
    }
  | { readonly kind: 'sheet'; readonly turn: number; readonly name: string; readonly sheet: BenchSheet }
  | { readonly kind: 'beside'; readonly turn: number; readonly fabric: FittedFabric }
  | { readonly kind: 'inspected'; readonly turn: number; readonly readings: readonly SheetReading[] }
  | { readonly kind: 'table'; readonly turn: number; readonly table: TensileTable }
  | { readonly kind: 'strips'; readonly turn: number; readonly strips: readonly TakenStrip[] }
  | { readonly kind: 'sheetText'; readonly turn: number; readonly text: string }
  | { readonly kind: 'refused'; readonly turn: number; readonly fault: PostedFault }
  | { readonly kind: 'bug'; readonly turn: number | null; readonly message: string };
