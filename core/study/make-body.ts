import type { Body } from '../body/body.ts';
import { makeFitBody } from '../body/fit-body.ts';
import { correctedFlesh } from '../body/tissue-correct.ts';
import type { TissueCorrections } from '../body/tissue-map.ts';
import { makeMeshBody } from '../body/mesh-body.ts';
import type { BodyChoice } from './study.ts';

/**
 * The body that a study asks for.
 *
 * @throws {Fault} `fit/...`, `mesh/...`, `body/...`.
 */
export function makeBody(choice: BodyChoice): Body {
  return choice.kind === 'fitBody' ? makeFitBody(choice.measures, choice.shape) : makeMeshBody(choice);
}

/** The same body with its flesh as a designer corrected it; itself where nothing was corrected. */
export function fleshedBody(asMade: Body, corrections: TissueCorrections | undefined): Body {
  if (corrections === undefined) return asMade;
  const { moduli = 'even', regions, strokes } = corrections;
  if (moduli === 'even' && regions.length === 0 && strokes.length === 0) return asMade;
  return { ...asMade, ...correctedFlesh(asMade, corrections) };
}
