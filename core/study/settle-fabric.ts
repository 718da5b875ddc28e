import type { Equilibrium, EquilibriumProblem, SettleProgress } from '../equilibrium/equilibrium.ts';
import { settle } from '../equilibrium/settle.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import type { LaidCloth } from './standing-study.ts';
import type { Study } from './study.ts';
import { warmStart, type Rest } from './warm-start.ts';

/**
 * Friction of a garment that is said to slide freely. A truly frictionless tube has no place of its own: on a faceted body
 * it creeps for ever along the unevenness of the facets. This little holds it there and nowhere else: it carries a slope
 * of half a degree.
 */
const LEAST_FRICTION = 0.01;

/** Lets the laid cloth come to rest in one fabric, from where it rested before if it did. */
export function* settleFabric(
  study: Study,
  cloth: LaidCloth,
  laws: readonly TensionLaw[],
  rest?: Rest,
): Generator<SettleProgress, Equilibrium> {
  const problem: EquilibriumProblem = {
    levels: cloth.garment.levels,
    laws,
    body: cloth.skin,
    foundation: cloth.foundation,
    friction: Math.max(study.friction, LEAST_FRICTION),
    prepared: cloth.prepared,
  };
  return yield* settle({ ...problem, ...(rest && warmStart(cloth, rest)) });
}
