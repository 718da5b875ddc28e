import { couplingEnds } from '../fields/coupling-ends.ts';
import { clothPull } from '../fields/stretch-and-tension.ts';
import { wornFields } from '../fields/worn-fields.ts';
import { wornFindings } from '../fields/worn-findings.ts';
import type { Equilibrium } from '../equilibrium/equilibrium.ts';
import { alike } from './alike.ts';
import { chooseLaw } from './choose-law.ts';
import { layCloth } from './lay-cloth.ts';
import { makeBody } from './make-body.ts';
import { settleFabric } from './settle-fabric.ts';
import type { StandingStudy, StudyRun } from './standing-study.ts';
import type { Study, StudyProgress, WornResult } from './study.ts';

/**
 * The whole way of the data, from a study to painted fields; everything else in core is called from here.
 *
 *     readings -> fabric law -> garment laid -> equilibrium on the body -> fields
 *
 * Each fabric settles once, with the law shown; the laws at the ends of its coupling's band are asked at that shape.
 * Yields progress; stop by not asking for more. A fabric's result does not depend on the fabrics before it.
 *
 * @param before - What an earlier run left standing: only what a change of the study touches is done again, and each
 *   fabric starts from where it rested. Stays as it is, also where this run is stopped or fails.
 * @throws {Fault} where body, garment or fabric leave nothing sensible to compute.
 */
export function* runStudy(study: Study, before?: StandingStudy): Generator<StudyProgress, StudyRun> {
  yield { step: 'body' };
  const standingBody = before && alike(study.body, before.study.body) ? before.body : makeBody(study.body);
  yield { step: 'garment' };
  const cloth = layCloth(study, standingBody, before);
  const { garment, skin } = cloth;
  const rests = new Map<string, Equilibrium>();
  const worn: WornResult[] = [];
  for (const { id, fabric } of study.fabrics) {
    const { law, ends, findings } = chooseLaw(fabric, study.branch);
    const rested = before?.rests.get(id);
    const rest = before && rested && { cloth: before.cloth, equilibrium: rested };
    const equilibrium = yield* named(id, settleFabric(study, cloth, [law], rest));
    const settled = {
      garment,
      equilibrium,
      pull: clothPull(garment, [law], equilibrium.positions),
      skin,
      friction: study.friction,
      ...(ends && { ends: couplingEnds(garment, { ...ends, shown: law }, equilibrium) }),
    };
    findings.push(...fabric.findings, ...wornFindings(settled));
    worn.push({ fabricId: id, equilibrium, fields: wornFields(settled), findings });
    rests.set(id, equilibrium);
  }
  const { contactField: _, ...body } = standingBody;
  return { body, garment, worn, standing: { study, body: standingBody, cloth, rests } };
}

/** Passes a search on, each of its steps under the fabric's name. */
function* named(
  fabricId: string,
  search: ReturnType<typeof settleFabric>,
): Generator<StudyProgress, Equilibrium> {
  let step = search.next();
  while (!step.done) {
    yield { step: 'settle', fabricId, settle: step.value };
    step = search.next();
  }
  return step.value;
}
