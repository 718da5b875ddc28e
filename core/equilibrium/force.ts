import type { BlockMatrix } from './block-matrix.ts';

/** Something that pulls at the vertices and has an energy. */
export interface Force {
  /**
   * Adds the derivative of the energy.
   *
   * @param positions - 3*V, m.
   * @param gradient - 3*V, N; added to.
   * @returns The energy, J.
   */
  readonly addGradient: (positions: Float64Array, gradient: Float64Array) => number;
  /**
   * Adds the second derivatives.
   *
   * @param exact - False leaves out what could make them negative.
   * @param into - Its pattern holds every pair of vertices that pull at each other.
   */
  readonly addStiffness: (positions: Float64Array, exact: boolean, into: BlockMatrix) => void;
}
