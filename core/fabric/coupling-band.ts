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
