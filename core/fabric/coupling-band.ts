/**
 * Strips alone do not determine how warp and weft pull together; the coupling c is known within a band only.
 */
export interface CouplingBand {
  /** c at the low end, as used, and at the high end, N/m. */
  readonly low: number;
  readonly shown: number;
  readonly high: number;
  /** What the band rests on, best first. */
  readonly from: 'held width' | 'reciprocity' | 'assumed width';
}

/** Share by which a number lies below and above the one shown: -0.2 and 0.1. */
export interface RelativeBand {
  readonly low: number;
  readonly high: number;
}

/** The one more reading that would narrow the band most, told by a panel whose width is held. */
export interface NextReading {
  readonly reading: 'warp width' | 'weft width' | 'both widths' | 'held-width warp' | 'held-width weft';
  /** Stretch at which the bands are told, extension ratio. */
  readonly extension: number;
  /** Band of the crosswise tension, in shares of the tension along, now and with that reading. */
  readonly now: RelativeBand;
  readonly after: RelativeBand;
}

/**
 * What the law's form itself may miss, whatever its coupling, as a share of the greater tension at a place.
 *
 * @see Kawabata, Matsuda, Tei & Kawai, Macromolecules 14 (1981), 154-162: fitted on the uniaxial rows alone the law misses
 *   the biaxial ones by 1.6 % (along) and 5.5 % (across) rms up to a stretch ratio of 1.3 (`core/proof/biaxial-rubber.ts`).
 */
export const STRUCTURAL_SHARE = 0.05;

/** Factors on c at the two ends of a band. */
export interface BandFactors {
  readonly low: number;
  readonly high: number;
}

/**
 * How far the true coupling may lie from the one in use. Judged from 12 measured knits and from made-up knits whose
 * biaxial answer is known (elastane that acts both ways: truth at 0.87 to 1.3 of the coupling by reciprocity; elastane
 * that acts in tension only: 0.05 to 0.6): the low end reaches further, since reciprocity tends to overshoot.
 */
const FACTORS = {
  /** A strip whose width was held was read. */
  heldWidth: { low: 0.8, high: 1.25 },
  /** Both widths were read from the start on, and agree. */
  agreeing: { low: 0.6, high: 1.2 },
  /** Widths disagree, or the first 5 % was not read. */
  disagreeing: { low: 0.3, high: 1.2 },
  /**
   * A width was assumed. With one or both widths of 12 knits (Singal et al. 2023) replaced by the assumed one and panels
   * of held width pulled to 10, 20 and 30 %: 0.1 and 3.5 put 59 to 68 of 68 crosswise tensions inside the band; it then
   * reaches on average from 15 points (of the tension along) below to 41 above. Tests hold the count.
   */
  assumedWidth: { low: 0.1, high: 3.5 },
} as const satisfies Record<string, BandFactors>;

/** Warp and weft widths agree up to this factor. */
export const AGREEING = 1.35;

/** What is known of the coupling of one branch. */
export interface BandEvidence {
  readonly from: CouplingBand['from'];
  /** Factor by which warp and weft widths disagree, >= 1. */
  readonly disagreement: number;
  /** True where the first force was read beyond 5 %, or the strip hardly pulled before. */
  readonly lateStart: boolean;
}

/** How far the ends of the band lie from the coupling in use. */
export function bandFactors({ from, disagreement, lateStart }: BandEvidence): BandFactors {
  if (from === 'held width') return FACTORS.heldWidth;
  if (from === 'assumed width') return FACTORS.assumedWidth;
  return disagreement <= AGREEING && !lateStart ? FACTORS.agreeing : FACTORS.disagreeing;
}

/**
 * The band of the coupling. A bias strip's width that asks for another coupling widens it so far as to span both, unless
 * a held width was read, which says more.
 *
 * @param shown - c in use, N/m.
 * @param biasCoupling - c that the bias strip's width asks for, N/m; null where it has nothing to say.
 */
export function couplingBand(
  shown: number,
  evidence: BandEvidence,
  biasCoupling: number | null,
): CouplingBand {
  const factors = bandFactors(evidence);
  const bias = Math.min(
    Math.max(
      evidence.from === 'held width' ? shown : (biasCoupling ?? shown),
      FACTORS.assumedWidth.low * shown,
    ),
    FACTORS.assumedWidth.high * shown,
  );
  return {
    low: Math.min(factors.low * shown, bias),
    shown,
    high: Math.max(factors.high * shown, bias),
    from: evidence.from,
  };
}
