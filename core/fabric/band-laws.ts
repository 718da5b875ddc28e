import type { Finding } from '../fault/finding.ts';
import { percentFromRatio } from '../units/units.ts';
import type { CouplingBand } from './coupling-band.ts';
import type { Branch, LawPair } from './fabric.ts';
import { lawTowards } from './stable-law.ts';
import type { LawSource } from './stable-law.ts';
import type { TensionLaw } from './tension-law.ts';

/** An end that was moved by a smaller share is not worth a word. */
const MOVE_TO_NAME = 0.05;

/** One branch's law in use and the ends wanted round it. */
export interface BandSource {
  readonly branch: Branch;
  readonly source: LawSource;
  readonly shown: TensionLaw;
  /** low / shown and high / shown are taken from it. */
  readonly band: CouplingBand;
}

/**
 * The laws at both ends of the coupling's band, of the same strips. An end where the law would not be stable is moved
 * to the last stable coupling on the way, and a finding says so.
 */
export function bandLaws({ branch, source, shown, band }: BandSource): {
  laws: LawPair;
  findings: Finding[];
} {
  const findings: Finding[] = [];
  const endAt = (end: 'low' | 'high'): TensionLaw => {
    if (band.shown <= 0) return shown;
    const wanted = (shown.coupling * band[end]) / band.shown;
    const law = lawTowards(source, shown, wanted);
    if (Math.abs(law.coupling / wanted - 1) > MOVE_TO_NAME) {
      findings.push({
        code: 'bench/band-end-moved',
        facts: {
          branch,
          end,
          wantedPercent: percentFromRatio(wanted / shown.coupling),
          usedPercent: percentFromRatio(law.coupling / shown.coupling),
        },
      });
    }
    return law;
  };
  return { laws: { low: endAt('low'), high: endAt('high') }, findings };
}
