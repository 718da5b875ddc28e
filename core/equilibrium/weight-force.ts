import { STANDARD_GRAVITY } from '../units/units.ts';

/**
 * Weight of each vertex, N: a third of each of its triangles' rest area, times M g.
 *
 * @param restArea - T, m^2.
 * @param arealDensity - M, kg/m^2.
 * @returns V.
 */
export function vertexWeights(
  triangles: Uint32Array,
  restArea: Float64Array,
  arealDensity: number,
): Float64Array {
  let vertexCount = 0;
  for (const vertex of triangles) vertexCount = Math.max(vertexCount, vertex + 1);
  const weights = new Float64Array(vertexCount);
  for (let t = 0; t < restArea.length; t++) {
    const third = (arealDensity * STANDARD_GRAVITY * restArea[t]!) / 3;
    for (let k = 0; k < 3; k++) weights[triangles[3 * t + k]!]! += third;
  }
  return weights;
}

/**
 * Adds the derivative of the energy of height, y up.
 *
 * @param gradient - 3*V, N; added to.
 * @returns The energy, J; 0 at height 0.
 */
export function addWeightGradient(
  weights: Float64Array,
  positions: Float64Array,
  gradient: Float64Array,
): number {
  let energy = 0;
  for (let v = 0; v < weights.length; v++) {
    energy += weights[v]! * positions[3 * v + 1]!;
    gradient[3 * v + 1]! += weights[v]!;
  }
  return energy;
}
