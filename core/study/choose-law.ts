import type { Branch, Fabric, LawPair } from '../fabric/fabric.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import type { Finding } from '../fault/finding.ts';

/** The law to settle with, and what goes with it. */
export interface ChosenLaw {
  readonly law: TensionLaw;
  /** The same strips at both ends of the coupling's band; null where the fabric bears none. */
  readonly ends: LawPair | null;
  readonly findings: Finding[];
}

/**
 * Below this share of the coupling shown, settling at the low end gives another shape: at 0.3 a waist shaper on the fit
 * body lay up to 17 % of the mean pressure outside a band taken at one shape, at 0.6 up to 5 % (tests/core/study).
 */
const LEAST_SHARE = 0.5;

/** The law of the branch asked for; where no return was read, the load law and a finding that says so. */
export function chooseLaw(fabric: Fabric, branch: Branch): ChosenLaw {
  const { laws, bandLaws } = fabric;
  if (branch === 'return' && laws.return)
    return { law: laws.return, ends: bandLaws?.return ?? null, findings: wideBand(fabric) };
  return {
    law: laws.load,
    ends: bandLaws?.load ?? null,
    findings: [
      ...(branch === 'load'
        ? []
        : [{ code: 'worn/return-not-measured' as const, facts: { fabric: fabric.name } }]),
      ...wideBand(fabric),
    ],
  };
}

function wideBand({ name, band }: Fabric): Finding[] {
  if (band === undefined || band.low >= LEAST_SHARE * band.shown) return [];
  return [{ code: 'worn/band-wide', facts: { fabric: name, low: band.low, high: band.high } }];
}
