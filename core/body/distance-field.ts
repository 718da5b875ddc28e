/**
 * Where the skin is, as a smooth function: signed distance to the undeformed skin, positive outside.
 * Twice differentiable wherever contact is possible; |gradient| is 1 at the skin.
 */
export interface DistanceField {
  /**
   * Samples the field at one point.
   *
   * @param into - 10 numbers, overwritten: distance (m), gradient (3), Hessian xx, xy, xz, yy, yz, zz (1/m).
   */
  readonly sample: (x: number, y: number, z: number, into: Float64Array) => void;
}
