import { COUPLING_FADE } from './assemble-law.ts';
import type { AxisCurve } from './axis-curve.ts';
import { couplingShape } from './axis-table.ts';
import { bandFactors } from './coupling-band.ts';
import type { BandEvidence, BandFactors, CouplingBand, NextReading, RelativeBand } from './coupling-band.ts';

/** Stretch at which the bands are told. */
const EXTENSION = 0.2;
/** A reading that narrows the band by less than this share is not worth the cloth. */
const WORTH_WHILE = 0.95;
/** Share of the force that a reading is trusted to, and how far ln c may lie from reciprocity before looking. */
const FORCE_SHARE = 0.01;
const PRIOR_SPREAD = 0.7;

/** What the bench has and has not. */
export interface ReadSoFar {
  readonly warp: AxisCurve;
  readonly weft: AxisCurve;
  readonly band: CouplingBand;
  readonly evidence: BandEvidence;
  readonly measured: { readonly warp: boolean; readonly weft: boolean };
}

/**
 * Which one more reading would narrow the band of the crosswise tension most, in a panel stretched lengthwise by 20 %
 * with its width held (warp or weft lengthwise: the one that is less certain).
 *
 * Across: c h(x); along: tau(x) + c (h(x) - h(x - w)), with h = psi' / c, both times 1 / l.
 *
 * @returns Null where nothing is left to read that would narrow it.
 */
export function nextReading(read: ReadSoFar): NextReading | null {
  const extension = Math.min(EXTENSION, Math.expm1(read.warp.measuredTo), Math.expm1(read.weft.measuredTo));
  const { shown } = read.band;
  if (!(shown > 0)) return null;
  const now = { low: read.band.low / shown, high: read.band.high / shown };
  const panels = [read.warp, read.weft].map((curve) => panelBand(curve, shown, extension));
  const panel = spanOf(panels[0]!(now)) >= spanOf(panels[1]!(now)) ? panels[0]! : panels[1]!;
  const offers = candidates(read, extension).map(({ reading, factors }) => ({
    reading,
    after: panel({ low: Math.max(factors.low, now.low), high: Math.min(factors.high, now.high) }),
  }));
  const [best] = offers.toSorted((a, b) => spanOf(a.after) - spanOf(b.after));
  if (best === undefined || spanOf(best.after) > WORTH_WHILE * spanOf(panel(now))) return null;
  return { ...best, extension, now: panel(now) };
}

const spanOf = ({ low, high }: RelativeBand): number => high - low;

/** The band of the crosswise tension over the tension along, for factors on c. */
function panelBand(
  curve: AxisCurve,
  coupling: number,
  extension: number,
): (factors: BandFactors) => RelativeBand {
  const x = Math.log1p(extension);
  const across = coupling * couplingShape(x, COUPLING_FADE);
  const share = across / (curve.tau(x) + heldExcess(curve, coupling, x));
  return ({ low, high }) => ({ low: (low - 1) * share, high: (high - 1) * share });
}

/** What holding the width adds to tau, c (h(x) - h(x - w)). */
function heldExcess(curve: AxisCurve, coupling: number, x: number): number {
  const narrowed = curve.narrowing?.(x) ?? 0;
  return coupling * (couplingShape(x, COUPLING_FADE) - couplingShape(x - narrowed, COUPLING_FADE));
}

/** The readings still to be had, each with the band that it would leave. */
function candidates(
  { warp, weft, band, evidence, measured }: ReadSoFar,
  extension: number,
): { reading: NextReading['reading']; factors: BandFactors }[] {
  if (evidence.from === 'held width') return [];
  const found: { reading: NextReading['reading']; factors: BandFactors }[] = [];
  const agreeing = bandFactors({ from: 'reciprocity', disagreement: 1, lateStart: evidence.lateStart });
  if (!measured.warp && !measured.weft) found.push({ reading: 'both widths', factors: agreeing });
  else if (!measured.warp) found.push({ reading: 'warp width', factors: agreeing });
  else if (!measured.weft) found.push({ reading: 'weft width', factors: agreeing });
  // A held strip tells c times its own narrowing: without that width it tells nothing.
  for (const [direction, curve] of [
    ['warp', warp],
    ['weft', weft],
  ] as const) {
    if (!measured[direction]) continue;
    const factors = factorsAfterHeld(curve, band.shown, extension);
    found.push({ reading: `held-width ${direction}`, factors });
  }
  return found;
}

/** The held-width factors, wider where holding the width adds so little force that the reading's own error counts. */
function factorsAfterHeld(curve: AxisCurve, coupling: number, extension: number): BandFactors {
  const x = Math.log1p(extension);
  const excess = heldExcess(curve, coupling, x);
  const spread = (FORCE_SHARE * (curve.tau(x) + excess)) / excess;
  const known = 1 / Math.sqrt(1 / PRIOR_SPREAD ** 2 + 1 / spread ** 2);
  const base = bandFactors({ from: 'held width', disagreement: 1, lateStart: false });
  return {
    low: Math.exp(-Math.hypot(Math.log(base.low), known)),
    high: Math.exp(Math.hypot(Math.log(base.high), known)),
  };
}
