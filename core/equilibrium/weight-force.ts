import type { ClothLevel } from '../garment/garment.ts';
import { STANDARD_GRAVITY } from '../units/units.ts';
import type { Force } from './force.ts';
import { cornersOf } from './lining-force.ts';

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

/** Weight of a level of cloth and of what lies bonded on it, linings counted with the same areal density (kg/m^2). */
export function weightForce({ mesh, restArea, linings }: ClothLevel, arealDensity: number): Force {
  const weights = new Float64Array(mesh.positions.length / 3);
  weights.set(vertexWeights(mesh.triangles, restArea, arealDensity));
  for (const lining of linings ?? []) {
    const corners = cornersOf(mesh.triangles, lining.triangles);
    vertexWeights(corners, lining.restArea, arealDensity).forEach((weight, v) => (weights[v]! += weight));
  }
  return {
    addGradient: (positions, gradient) => addWeightGradient(weights, positions, gradient),
    // The same everywhere: it has no second derivative.
    addStiffness: () => undefined,
  };
}
