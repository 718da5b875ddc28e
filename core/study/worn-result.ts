import { fleshFindings } from '../equilibrium/flesh-findings.ts';
import type { Fabric } from '../fabric/fabric.ts';
import type { Finding } from '../fault/finding.ts';
import { couplingEnds, type EndMoves } from '../fields/coupling-ends.ts';
import { clothPull } from '../fields/stretch-and-tension.ts';
import { wornFields, type Worn } from '../fields/worn-fields.ts';
import { wornFindings } from '../fields/worn-findings.ts';
import { movedSkin } from './moved-skin.ts';
import type { ChosenLaw } from './choose-law.ts';
import type { FabricQuestion, FabricRest } from './settle-fabric.ts';
import type { FleshChoice, WornResult } from './study.ts';

/**
 * Below this share of the coupling shown, settling at the low end gives another shape: at 0.3 a waist shaper on the fit
 * body lay up to 17 % of the mean pressure outside a band taken at one shape, at 0.6 up to 5 % (tests/core/study).
 */
const LEAST_SHARE = 0.5;

/** Reads a garment that has come to rest: its fields, what must be known of them, and the skin under it. */
export function wornResult(
  { id, study, fabric, body, cloth, laws }: FabricQuestion,
  { law, ends, findings }: ChosenLaw,
  { equilibrium, flesh }: FabricRest,
  moves: EndMoves | null,
): WornResult {
  const { garment, skin } = cloth;
  const settled: Worn = {
    garment,
    equilibrium,
    pull: clothPull(garment, laws, equilibrium.positions),
    skin,
    friction: study.friction,
    thickness: fabric.thickness,
    flesh: study.flesh?.kind ?? 'foundation',
    ...(ends && {
      ends: couplingEnds(garment, { ...ends, shown: law, ...(moves && { moves }) }, equilibrium),
    }),
  };
  const fields = wornFields(settled);
  return {
    fabricId: id,
    equilibrium,
    fields,
    findings: [
      ...findings,
      ...fabric.findings,
      ...(ends && !moves ? wideBand(fabric) : []),
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

/** Said only where the band is of the shape as it stands, because the ends did not settle. */
function wideBand({ name, band }: Fabric): Finding[] {
  if (band === undefined || band.low >= LEAST_SHARE * band.shown) return [];
  return [{ code: 'worn/band-wide', facts: { fabric: name, low: band.low, high: band.high } }];
}
