import type { ClothLevel } from '../garment/garment.ts';
import { elasticForce } from './elastic-force.ts';
import type { EquilibriumProblem } from './equilibrium.ts';
import type { Force } from './force.ts';
import { hingeBending } from './hinge-bending.ts';
import { liningForce } from './lining-force.ts';
import { weightForce } from './weight-force.ts';

/**
 * What pulls at one level of the cloth besides the main cloth, the body and friction: linings bonded to it, elastic sewn
 * to it, its resistance to bending and its weight.
 */
export function clothForces({ laws, bending, arealDensity }: EquilibriumProblem, level: ClothLevel): Force[] {
  return [
    ...(level.linings ?? []).map((lining) => liningForce(level, lining, laws)),
    ...(level.elastics ?? []).map(elasticForce),
    ...(bending ? [hingeBending(level, bending)] : []),
    ...(arealDensity ? [weightForce(level, arealDensity)] : []),
  ];
}
