import { fleshFindings } from '../equilibrium/flesh-findings.ts';
import { couplingEnds } from '../fields/coupling-ends.ts';
import { clothPull } from '../fields/stretch-and-tension.ts';
import { wornFields } from '../fields/worn-fields.ts';
import { wornFindings } from '../fields/worn-findings.ts';
import { movedSkin } from './moved-skin.ts';
import type { ChosenLaw } from './choose-law.ts';
import type { FabricQuestion, FabricRest } from './settle-fabric.ts';
import type { WornResult } from './study.ts';

/** Reads a garment that has come to rest: its fields, what must be known of them, and the skin under it. */
export function wornResult(
  fabricId: string,
  { study, fabric, body, cloth, laws }: FabricQuestion,
  { law, ends, findings }: ChosenLaw,
  { equilibrium, flesh }: FabricRest,
): WornResult {
  const { garment, skin } = cloth;
  const settled = {
    garment,
    equilibrium,
    pull: clothPull(garment, laws, equilibrium.positions),
    skin,
    friction: study.friction,
    ...(ends && { ends: couplingEnds(garment, { ...ends, shown: law }, equilibrium) }),
  };
  return {
    fabricId,
    equilibrium,
    fields: wornFields(settled),
    findings: [
      ...findings,
      ...fabric.findings,
      ...(flesh ? fleshFindings(flesh) : []),
      ...wornFindings(settled),
    ],
    ...(flesh && { movedSkin: movedSkin(body.skin, flesh.skinMovement) }),
  };
}
