/** What forces are compared with when asking whether they balance. All N^2 but the last. */
export interface ForceScale {
  /** Sum over vertices of the squared normal force of the body. */
  readonly contactSquared: number;
  /** Sum over triangle corners of the squared pull of the cloth, before the corners of neighbours balance. */
  readonly cornerSquared: number;
  /** A force below which nothing about this cloth is worth balancing, N: see {@link leastForce}. */
  readonly least: number;
}

/** The cloth's own pull counts at this share where the body hardly pushes. */
const CORNER_SHARE = 1e-3;

/**
 * Stretch whose force is the least worth balancing: a ten-thousandth of it at a vertex is a hundredth of a pascal on
 * cells of 5 mm.
 */
const LEAST_STRETCH = 1e-3;

/** Root-sum-square force of a stretch of 0.1 % all over the cloth: E * 1e-3 * sqrt(area). */
export const leastForce = (typicalStiffness: number, restArea: Float64Array): number =>
  LEAST_STRETCH * typicalStiffness * Math.sqrt(restArea.reduce((sum, area) => sum + area, 0));

/**
 * Unbalanced force over contact force, both root-sum-square over the vertices.
 *
 * A garment that hardly touches the body would make that ratio meaningless. The divisor is therefore never less than a
 * thousandth of the cloth's own corner forces, nor than the force of a stretch of 0.1 % all over. On a tight garment
 * both are below the contact force and do not show.
 *
 * @param gradient - Derivative of the energy, N; 3*V. Held coordinates must be 0.
 */
export function residualOf(
  gradient: Float64Array,
  { contactSquared, cornerSquared, least }: ForceScale,
): number {
  let unbalanced = 0;
  for (let i = 0; i < gradient.length; i++) unbalanced += gradient[i]! * gradient[i]!;
  const scale = Math.max(Math.sqrt(contactSquared), CORNER_SHARE * Math.sqrt(cornerSquared), least);
  return Math.sqrt(unbalanced) / scale;
}
