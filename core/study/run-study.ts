import type { SettleProgress } from '../equilibrium/equilibrium.ts';
import { alike } from './alike.ts';
import { chooseLaw } from './choose-law.ts';
import { layCloth } from './lay-cloth.ts';
import { layFlesh } from './lay-flesh.ts';
import { fleshedBody, makeBody } from './make-body.ts';
import { settleEnds } from './settle-ends.ts';
import { settleFabric, type FabricRest } from './settle-fabric.ts';
import { restBefore, type StandingStudy, type StudyRun } from './standing-study.ts';
import type { Study, StudyProgress, WornResult } from './study.ts';
import { wornResult } from './worn-result.ts';

/**
 * The whole way of the data, from a study to painted fields; everything else in core is called from here.
 *
 *     readings -> fabric law -> garment laid -> equilibrium on the body -> fields
 *
 * Each fabric settles with the law shown, and coarsely with the laws at both ends of its coupling's band.
 * Yields progress; stop by not asking for more. A fabric's result does not depend on the fabrics before it.
 *
 * @param before - What an earlier run left standing: only what has changed since is done again, and each fabric starts
 *   from where it rested. Stays as it is, also where this run is stopped or fails.
 * @throws {Fault} where body, garment or fabric leave nothing sensible to compute.
 */
export function* runStudy(study: Study, before?: StandingStudy): Generator<StudyProgress, StudyRun> {
  yield { step: 'body' };
  const isSameBody = before !== undefined && alike(study.body, before.study.body);
  const asMade = isSameBody ? before.asMade : makeBody(study.body);
  const isSameFlesh = isSameBody && alike(study.tissue, before.study.tissue);
  const body = isSameFlesh ? before.body : fleshedBody(asMade, study.tissue);
  yield { step: 'garment' };
  const cloth = yield* paused(layCloth(study, body, before));
  const flesh = layFlesh(study, body, cloth, before);
  const linings = (study.liningFabrics ?? []).map((lining) => chooseLaw(lining, study.branch));
  const rests = new Map<string, FabricRest>();
  const worn: WornResult[] = [];
  for (const { id, fabric } of study.fabrics) {
    const chosen = chooseLaw(fabric, study.branch);
    const laws = [chosen, ...linings].map(({ law }) => law);
    const question = { id, study, fabric, body, cloth, flesh, laws };
    const restedBefore = restBefore(before, id);
    const rest = yield* named(id, settleFabric(question, restedBefore));
    const ends = yield* named(id, settleEnds(question, rest, chosen.ends, restedBefore));
    const findings = [chosen, ...linings].flatMap((one) => one.findings);
    rests.set(id, { ...rest, ...(ends && { ends: ends.rests }) });
    worn.push(wornResult(question, { ...chosen, findings }, rest, ends?.moves ?? null));
  }
  const { contactField: _, ...standingBody } = body;
  const standing = { study, asMade, body, cloth, flesh, rests };
  return { body: standingBody, garment: cloth.garment, worn, standing };
}

/** Lets a garment being laid be stopped between its steps. */
function* paused<T>(laying: Generator<void, T>): Generator<StudyProgress, T> {
  let step = laying.next();
  while (!step.done) {
    yield { step: 'garment' };
    step = laying.next();
  }
  return step.value;
}

/** Passes a search on, each of its steps under the fabric's name. */
function* named<T>(fabricId: string, search: Generator<SettleProgress, T>): Generator<StudyProgress, T> {
  let step = search.next();
  while (!step.done) {
    yield { step: 'settle', fabricId, settle: step.value };
    step = search.next();
  }
  return step.value;
}
