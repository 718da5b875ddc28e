/** What one strip says, in the law's own variables; x = ln of the stretch ratio, counted from where force sets in. */
export interface AxisCurve {
  /** tau = T * l, force per original width times stretch ratio, N/m; for x >= 0, 0 at 0, rising. */
  readonly tau: (x: number) => number;
  /** w = -ln(width / original width); for x >= 0, 0 at 0. Null where the strip does not narrow at all. */
  readonly narrowing: ((x: number) => number) | null;
  /** Last reading. */
  readonly measuredTo: number;
}

/** Secant stiffness (N/m) and secant contraction of a strip at x = `at`. */
export interface Secant {
  readonly stiffness: number;
  readonly contraction: number;
}

export function secantAt(curve: AxisCurve, at: number): Secant {
  return {
    stiffness: curve.tau(at) / at,
    contraction: curve.narrowing === null ? 0 : curve.narrowing(at) / at,
  };
}
