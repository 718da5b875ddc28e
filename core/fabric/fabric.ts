import type { Finding } from '../fault/finding.ts';
import type { CouplingBand, NextReading } from './coupling-band.ts';
import type { CouplingEvidence } from './coupling.ts';
import type { HeldWidthEvidence, StripEvidence } from './strip-evidence.ts';
import type { TensionLaw } from './tension-law.ts';

/** The three directions in which strips are cut. */
export type Direction = 'warp' | 'weft' | 'bias';

/** Which way the strip was going: pulled out, or let back from the bench's peak stretch. */
export type Branch = 'load' | 'return';

/** The laws at the low and at the high end of the coupling's band. */
export interface LawPair {
  readonly low: TensionLaw;
  readonly high: TensionLaw;
}

/** A fabric as the bench found it. SI throughout. */
export interface Fabric {
  readonly name: string;
  readonly lot: string;
  /** ISO date of the readings. */
  readonly date: string;
  /** True where the readings are made up and must be shown as such. */
  readonly invented: boolean;
  /** kg/m^2. */
  readonly arealDensity: number;
  /** m, under `thicknessPressure` (Pa). */
  readonly thickness: number;
  readonly thicknessPressure: number;
  /** Bending rigidity per unit width, N*m. */
  readonly bendingRigidity: Readonly<Record<Direction, number>>;
  /** Tension against stretch for each branch measured; `return` is null where no return was read. */
  readonly laws: { readonly load: TensionLaw; readonly return: TensionLaw | null };
  /** How sure the coupling of warp and weft is; left out where the law did not come from readings. */
  readonly coupling?: CouplingEvidence;
  /** The band of the coupling, and the laws at its two ends (same strips, other coupling). */
  readonly band?: CouplingBand;
  readonly bandLaws?: { readonly load: LawPair; readonly return: LawPair | null };
  /** Which reading would narrow the band most; null where nothing is left to read. */
  readonly nextReading?: NextReading | null;
  /** What was read in each direction, and how well the law gives it back. */
  readonly strips?: Readonly<Record<Direction, StripEvidence>>;
  /** The same of a strip whose width was held; null where none was read. */
  readonly heldWidth?: HeldWidthEvidence | null;
  /** The direction said to stretch most; null where nobody said. */
  readonly greatestStretch?: Direction | null;
  readonly findings: readonly Finding[];
}
