import type { ClothLevel } from '../garment/garment.ts';
import type { EquilibriumProblem } from './equilibrium.ts';
import type { Force } from './force.ts';

/** What pulls at one level of the cloth besides the main cloth, the body and friction. */
export function clothForces(_problem: EquilibriumProblem, _level: ClothLevel): Force[] {
  return [];
}
