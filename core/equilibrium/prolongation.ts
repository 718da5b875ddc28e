import type { ClothLevel } from '../garment/garment.ts';

/** How a level's vertices follow those of the next coarser one; see ClothLevel. */
export type Parents = Pick<ClothLevel, 'parents' | 'parentWeights'>;

/**
 * Carries a vector from a coarse level to the next finer one: each vertex takes the mean of its two parents, or the
 * weighted mean of its three.
 *
 * @param coarse - 3 per coarse vertex.
 * @param into - 3 per fine vertex, overwritten.
 */
export function prolong({ parents, parentWeights }: Parents, coarse: Float64Array, into: Float64Array): void {
  if (parentWeights) {
    into.fill(0);
    for (let i = 0; i < parents.length; i++) {
      const weight = parentWeights[i]!;
      if (weight === 0) continue;
      const v = i - (i % 3);
      const p = 3 * parents[i]!;
      into[v]! += weight * coarse[p]!;
      into[v + 1]! += weight * coarse[p + 1]!;
      into[v + 2]! += weight * coarse[p + 2]!;
    }
    return;
  }
  for (let v = 0; 2 * v < parents.length; v++) {
    const p = 3 * parents[2 * v]!;
    const q = 3 * parents[2 * v + 1]!;
    into[3 * v] = 0.5 * (coarse[p]! + coarse[q]!);
    into[3 * v + 1] = 0.5 * (coarse[p + 1]! + coarse[q + 1]!);
    into[3 * v + 2] = 0.5 * (coarse[p + 2]! + coarse[q + 2]!);
  }
}

/** The transpose of {@link prolong}: gathers fine forces on the coarse vertices. */
export function restrict({ parents, parentWeights }: Parents, fine: Float64Array, into: Float64Array): void {
  into.fill(0);
  if (parentWeights) {
    for (let i = 0; i < parents.length; i++) {
      const weight = parentWeights[i]!;
      if (weight === 0) continue;
      const v = i - (i % 3);
      const p = 3 * parents[i]!;
      into[p]! += weight * fine[v]!;
      into[p + 1]! += weight * fine[v + 1]!;
      into[p + 2]! += weight * fine[v + 2]!;
    }
    return;
  }
  for (let v = 0; 2 * v < parents.length; v++) {
    const p = 3 * parents[2 * v]!;
    const q = 3 * parents[2 * v + 1]!;
    for (let k = 0; k < 3; k++) {
      const half = 0.5 * fine[3 * v + k]!;
      into[p + k]! += half;
      into[q + k]! += half;
    }
  }
}

/** {@link prolong} for one number per vertex. */
export function prolongScalar({ parents, parentWeights }: Parents, coarse: Float64Array): Float64Array {
  if (parentWeights) {
    const fine = new Float64Array(parents.length / 3);
    for (let i = 0; i < parents.length; i++) {
      fine[Math.floor(i / 3)]! += parentWeights[i]! * coarse[parents[i]!]!;
    }
    return fine;
  }
  const fine = new Float64Array(parents.length / 2);
  for (let v = 0; v < fine.length; v++) {
    fine[v] = 0.5 * (coarse[parents[2 * v]!]! + coarse[parents[2 * v + 1]!]!);
  }
  return fine;
}
