import type { Branch, Fabric } from '../fabric/fabric.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import type { Finding } from '../fault/finding.ts';

/** The law of the branch asked for; where no return was read, the load law and a finding that says so. */
export function chooseLaw(fabric: Fabric, branch: Branch): { law: TensionLaw; findings: Finding[] } {
  if (branch === 'load') return { law: fabric.laws.load, findings: [] };
  if (fabric.laws.return) return { law: fabric.laws.return, findings: [] };
  return {
    law: fabric.laws.load,
    findings: [{ code: 'worn/return-not-measured', facts: { fabric: fabric.name } }],
  };
}
