import type { Contact } from './skin-pressure.ts';

/** From here on grip counts as used up: friction available is less than 1.2 times what is needed. Common practice. */
export const GRIP_SPENT = 1 / 1.2;

/** Force along the skin below which no grip is asked for, as a share of the greatest friction at any vertex. */
const NOTHING = 1e-6;

/**
 * How much of the friction that is there is needed to keep the cloth where it lies: |f_t| / (mu f_n), at most 1. At 1 the
 * cloth has slid as far as friction let it, and creeps on with every movement; friction available over friction needed,
 * the slip margin, is 1 over it.
 *
 * @param friction - Coulomb's coefficient; at 0 nothing grips and all is 0.
 * @returns Ratio; V. Zero off the skin.
 * @see Coulomb's law of friction; e.g. Johnson, Contact Mechanics (1985), section 7.1.
 */
export function gripUsed({ force, normals }: Contact, friction: number): Float64Array {
  const vertexCount = force.length / 3;
  const used = new Float64Array(vertexCount);
  const available = new Float64Array(vertexCount);
  const needed = new Float64Array(vertexCount);
  let most = 0;
  for (let v = 0; v < vertexCount; v++) {
    let normal = 0;
    let squared = 0;
    for (let k = 0; k < 3; k++) {
      normal += force[3 * v + k]! * normals[3 * v + k]!;
      squared += force[3 * v + k]! ** 2;
    }
    if (normal <= 0) continue;
    available[v] = friction * normal;
    needed[v] = Math.sqrt(Math.max(0, squared - normal * normal));
    most = Math.max(most, available[v]!);
  }
  for (let v = 0; v < vertexCount; v++) {
    if (available[v]! > NOTHING * most) used[v] = Math.min(1, needed[v]! / available[v]!);
  }
  return used;
}
