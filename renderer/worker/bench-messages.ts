import type { Direction } from '../../core/fabric/fabric.ts';
import type { StripEvidence } from '../../core/fabric/strip-evidence.ts';
import type { BenchSheet } from '../../core/io/bench-sheet.ts';
import type { FabricCard } from '../../core/sheet/fabric-card.ts';
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
}

/** How a sheet came out. */
export type FitOutcome =
  | { readonly kind: 'fabric'; readonly fabric: FittedFabric }
  | { readonly kind: 'fault'; readonly fault: PostedFault }
  /** Parts are missing. */
  | { readonly kind: 'unfinished' };

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
  | { readonly kind: 'sheetText'; readonly turn: number; readonly text: string }
  | { readonly kind: 'refused'; readonly turn: number; readonly fault: PostedFault }
  | { readonly kind: 'bug'; readonly message: string };
