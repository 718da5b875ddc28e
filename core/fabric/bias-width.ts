import type { Finding } from '../fault/finding.ts';
import { percentFromRatio } from '../units/units.ts';
import { COUPLING_FADE } from './assemble-law.ts';
import { couplingShape } from './axis-table.ts';
import type { WidthReading } from './bench-readings.ts';
import type { Direction } from './fabric.ts';
import type { ForceCurve } from './strip-curves.ts';
import type { WidthCurve } from './width-curve.ts';

/** The load curves that the bias strip's width is held against. */
export interface BiasWidthInput {
  /** The bias strip's widths, and the width of the unstretched strip, m. */
  readonly readings: readonly WidthReading[];
  readonly stripWidth: number;
  readonly warp: ForceCurve;
  readonly weft: ForceCurve;
  readonly bias: ForceCurve;
  readonly widths: Readonly<Record<Direction, WidthCurve>>;
  /** c in use, N/m. */
  readonly coupling: number;
}

/** Only a width that explains the bias force this well is worth hearing. */
const RESIDUAL_TO_HEAR = 0.04;
const RATIO_TO_PASS = [0.75, 1.33] as const;

/**
 * Holds the bias strip's measured width against the coupling in use. Where warp and weft are about alike,
 *
 * phi_u'(ln s) + phi_v'(ln s) + 2 psi'(ln l1 l2) = T l1, s^2 = (l1^2 + l2^2)/2,
 *
 * whatever the shear; with phi' = tau - psi'(x - w) it is linear in c. A cross-check only: it asks for widths good to
 * 0.3 %, finer than a ruler gives.
 *
 * @returns With c in N/m where the width is worth hearing and asks for another one; else null.
 */
export function checkBiasWidth(input: BiasWidthInput): { findings: Finding[]; coupling: number | null } {
  const silent = { findings: [], coupling: null };
  if (!input.widths.bias.measured || input.coupling <= 0) return silent;
  const start = input.readings.find(({ extension }) => extension === 0)?.width ?? input.stripWidth;
  const rows = input.readings.flatMap(({ extension, width }) => {
    const l1 = 1 + extension;
    const l2 = width / start;
    const x = Math.log((l1 * l1 + l2 * l2) / 2) / 2;
    if (extension <= 0 || x <= 0 || Math.log(l1) > input.bias.measuredTo) return [];
    return [{ ...rowAt(input, x, Math.log(l1 * l2)), tau: input.bias.tau(Math.log(l1)) }];
  });
  const squares = rows.reduce((sum, { gain, tau }) => sum + (gain / tau) ** 2, 0);
  if (rows.length < 2 || squares === 0) return silent;
  const c = rows.reduce((sum, { gain, own, tau }) => sum + (gain / tau) * ((tau - own) / tau), 0) / squares;
  const residual = Math.max(...rows.map(({ gain, own, tau }) => Math.abs((own + c * gain) / tau - 1)));
  const ratio = c / input.coupling;
  if (!(residual <= RESIDUAL_TO_HEAR) || (ratio >= RATIO_TO_PASS[0] && ratio <= RATIO_TO_PASS[1]))
    return silent;
  const facts = { ratio, residualPercent: percentFromRatio(residual) };
  return { findings: [{ code: 'bench/bias-width-differs', facts }], coupling: c };
}

const shape = (at: number): number => couplingShape(at, COUPLING_FADE);

/** What the axes give without coupling, and what each unit of c adds. */
function rowAt({ warp, weft, widths }: BiasWidthInput, x: number, z: number): { own: number; gain: number } {
  return {
    own: warp.tau(x) + weft.tau(x),
    gain: 2 * shape(z) - shape(x - widths.warp.narrowing(x)) - shape(x - widths.weft.narrowing(x)),
  };
}
