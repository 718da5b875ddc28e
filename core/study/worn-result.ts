import { fleshFindings } from '../equilibrium/flesh-findings.ts';
import type { Finding } from '../fault/finding.ts';
import { couplingEnds } from '../fields/coupling-ends.ts';
import { clothPull } from '../fields/stretch-and-tension.ts';
import { wornFields, type Worn } from '../fields/worn-fields.ts';
import { wornFindings } from '../fields/worn-findings.ts';
import { movedSkin } from './moved-skin.ts';
import type { ChosenLaw } from './choose-law.ts';
import type { FabricQuestion, FabricRest } from './settle-fabric.ts';
import type { FleshChoice, WornResult } from './study.ts';

/** Reads a garment that has come to rest: its fields, what must be known of them, and the skin under it. */
export function wornResult(
  fabricId: string,
  { study, fabric, body, cloth, laws }: FabricQuestion,
  { law, ends, findings }: ChosenLaw,
  { equilibrium, flesh }: FabricRest,
): WornResult {
  const { garment, skin } = cloth;
  const settled: Worn = {
    garment,
    equilibrium,
    pull: clothPull(garment, laws, equilibrium.positions),
    skin,
    friction: study.friction,
    flesh: study.flesh?.kind ?? 'foundation',
    ...(ends && { ends: couplingEnds(garment, { ...ends, shown: law }, equilibrium) }),
  };
  const fields = wornFields(settled);
  return {
    fabricId,
    equilibrium,
    fields,
    findings: [
      ...findings,
      ...fabric.findings,
      ...fleshFindingsOf(study.flesh, flesh),
      ...wornFindings(settled, fields),
    ],
    ...(flesh && { movedSkin: movedSkin(body.skin, flesh.skinMovement) }),
  };
}

function fleshFindingsOf(choice: FleshChoice | undefined, flesh: FabricRest['flesh']): Finding[] {
  if (choice?.kind !== 'layer' || !flesh) return [];
  const { poisson, skin } = choice;
  return [{ code: 'worn/flesh-bracket', facts: { poisson, skin } }, ...fleshFindings(flesh)];
}
