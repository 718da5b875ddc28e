import { foundationAt } from '../body/foundation-at.ts';
import { settle } from '../equilibrium/settle.ts';
import { couplingEnds } from '../fields/coupling-ends.ts';
import { clothPull } from '../fields/stretch-and-tension.ts';
import { wornFields } from '../fields/worn-fields.ts';
import { wornFindings } from '../fields/worn-findings.ts';
import { makeTube } from '../garment/make-tube.ts';
import { chooseLaw } from './choose-law.ts';
import { makeBody } from './make-body.ts';
import type { Study, StudyProgress, StudyResult, WornResult } from './study.ts';

/**
 * Friction of a garment that is said to slide freely. A truly frictionless tube has no place of its own: on a faceted body
 * it creeps for ever along the unevenness of the facets. This little holds it there and nowhere else: it carries a slope
 * of half a degree.
 */
const LEAST_FRICTION = 0.01;

/**
 * The whole way of the data, from a study to painted fields; everything else in core is called from here.
 *
 *     readings -> fabric law -> garment laid -> equilibrium on the body -> fields
 *
 * Each fabric settles once, with the law shown; the laws at the ends of its coupling's band are asked at that shape.
 * Yields progress; stop by not asking for more. Each fabric is settled afresh from the laid garment, so its result does
 * not depend on the fabrics before it.
 *
 * @throws {Fault} where body, garment or fabric leave nothing sensible to compute.
 */
export function* runStudy(study: Study): Generator<StudyProgress, StudyResult> {
  yield { step: 'body' };
  const { contactField, ...body } = makeBody(study.body);
  yield { step: 'garment' };
  const { garment, skin } = makeTube(study.garment, { ...body, contactField }, study.edge);
  const { levels } = garment;
  const foundation = levels.map(({ mesh }) => foundationAt(body, mesh.positions));
  const friction = Math.max(study.friction, LEAST_FRICTION);
  const worn: WornResult[] = [];
  for (const { id, fabric } of study.fabrics) {
    const { law, ends, findings } = chooseLaw(fabric, study.branch);
    const search = settle({ levels, laws: [law], body: skin, foundation, friction });
    const equilibrium = yield* named(id, search);
    const pull = clothPull(garment, [law], equilibrium.positions);
    const settled = {
      garment,
      equilibrium,
      pull,
      skin,
      friction: study.friction,
      ...(ends && { ends: couplingEnds(garment, { ...ends, shown: law }, equilibrium) }),
    };
    findings.push(...fabric.findings, ...wornFindings(settled));
    const fields = wornFields(settled);
    worn.push({ fabricId: id, equilibrium, fields, findings });
  }
  return { body, garment, worn };
}

/** Passes a search on, each of its steps under the fabric's name. */
function* named(
  fabricId: string,
  search: ReturnType<typeof settle>,
): Generator<StudyProgress, WornResult['equilibrium']> {
  let step = search.next();
  while (!step.done) {
    yield { step: 'settle', fabricId, settle: step.value };
    step = search.next();
  }
  return step.value;
}
