import type { BenchFindings } from './bench-findings.ts';
import type { BlockFindings } from './block-findings.ts';
import type { BodyFindings } from './body-findings.ts';
import type { FitFindings } from './fit-findings.ts';
import type { GarmentFindings } from './garment-findings.ts';
import type { PatternFindings } from './pattern-findings.ts';
import type { TableFindings } from './table-findings.ts';
import type { TapeFindings } from './tape-findings.ts';
import type { WornFindings } from './worn-findings.ts';

/** Computed, but the reader must know: code -> what there is to know. Drawn beside the numbers. */
export interface FindingFacts
  extends
    BenchFindings,
    BlockFindings,
    BodyFindings,
    FitFindings,
    GarmentFindings,
    PatternFindings,
    WornFindings,
    TableFindings,
    TapeFindings {}

export type FindingCode = keyof FindingFacts;

export type Finding = {
  [C in FindingCode]: { readonly code: C; readonly facts: FindingFacts[C] };
}[FindingCode];
