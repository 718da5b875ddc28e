import type { Finding } from '../fault/finding.ts';
import type { CouplingEvidence } from './coupling.ts';
import type { TensionLaw } from './tension-law.ts';

/** The three directions in which strips are cut. */
export type Direction = 'warp' | 'weft' | 'bias';

/** Which way the strip was going: pulled out, or let back from the bench's peak stretch. */
export type Branch = 'load' | 'return';

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
  readonly findings: readonly Finding[];
}
