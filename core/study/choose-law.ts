import type { Branch, Fabric, LawPair } from '../fabric/fabric.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import type { Finding } from '../fault/finding.ts';

/** The law to settle with, and what goes with it. */
export interface ChosenLaw {
  readonly law: TensionLaw;
  /** The same strips at both ends of the coupling's band; null where the fabric bears none. */
  readonly ends: LawPair | null;
  readonly findings: readonly Finding[];
}

/** The law of the branch asked for; where no return was read, the load law and a finding that says so. */
export function chooseLaw(fabric: Fabric, branch: Branch): ChosenLaw {
  const { laws, bandLaws } = fabric;
  if (branch === 'return' && laws.return)
    return { law: laws.return, ends: bandLaws?.return ?? null, findings: [] };
  return {
    law: laws.load,
    ends: bandLaws?.load ?? null,
    findings: branch === 'load' ? [] : [{ code: 'worn/return-not-measured', facts: { fabric: fabric.name } }],
  };
}
