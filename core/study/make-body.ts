import type { Body } from '../body/body.ts';
import { makeFitBody } from '../body/fit-body.ts';
import { makeMeshBody } from '../body/mesh-body.ts';
import type { BodyChoice } from './study.ts';

/**
 * The body that a study asks for.
 *
 * @throws {Fault} `fit/...`, `mesh/...`, `body/...`.
 */
export function makeBody(choice: BodyChoice): Body {
  return choice.kind === 'fitBody' ? makeFitBody(choice.measures) : makeMeshBody(choice);
}
