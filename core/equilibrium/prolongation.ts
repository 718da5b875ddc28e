/**
 * Carries a vector from a coarse level to the next finer one: each vertex takes the mean of its two parents.
 *
 * @param parents - 2 per fine vertex.
 * @param coarse - 3 per coarse vertex.
 * @param into - 3 per fine vertex, overwritten.
 */
export function prolong(parents: Uint32Array, coarse: Float64Array, into: Float64Array): void {
  for (let v = 0; 2 * v < parents.length; v++) {
    const p = 3 * parents[2 * v]!;
    const q = 3 * parents[2 * v + 1]!;
    into[3 * v] = 0.5 * (coarse[p]! + coarse[q]!);
    into[3 * v + 1] = 0.5 * (coarse[p + 1]! + coarse[q + 1]!);
    into[3 * v + 2] = 0.5 * (coarse[p + 2]! + coarse[q + 2]!);
  }
}

/** The transpose of {@link prolong}: gathers fine forces on the coarse vertices. */
export function restrict(parents: Uint32Array, fine: Float64Array, into: Float64Array): void {
  into.fill(0);
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
export function prolongScalar(parents: Uint32Array, coarse: Float64Array): Float64Array {
  const fine = new Float64Array(parents.length / 2);
  for (let v = 0; v < fine.length; v++) {
    fine[v] = 0.5 * (coarse[parents[2 * v]!]! + coarse[parents[2 * v + 1]!]!);
  }
  return fine;
}
