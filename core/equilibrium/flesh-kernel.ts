/**
 * How far the skin moves in under pressure waves of every length, as three terms that can be solved for on any mesh:
 * w = (H/E) [local p + short (shortPole - H^2 Lap)^-1 p + long (longPole - H^2 Lap*)^-1 p].
 */
export interface FleshKernel {
  /** What each spot gives on its own account. */
  readonly local: number;
  readonly short: number;
  readonly shortPole: number;
  /** Negative: flesh that can hardly be compressed does not give way over a whole length. */
  readonly long: number;
  readonly longPole: number;
}

/** Poisson's ratios the kernel was fitted for; the flesh of a body lies between 0.45 and 0.49. */
export const POISSON_RANGE = { least: 0.45, most: 0.495 } as const;

/** Beyond this curvature H (k1 + k2) the fitted numbers stay as they are; the endless band goes on to a core that is a line. */
const MOST_FITTED = 0.67;
const MOST_CURVED = 0.95;

/**
 * The kernel of a layer of thickness H bonded to a firm core.
 *
 * The terms are fitted to the exact kernel of a round limb, w / p = C(a) H / E for a pressure cos(a z / H) along it:
 * three-dimensional elasticity, displacements of each wave by finite elements of degree 7 across the layer. Fitted was
 * what shows: deepest indent and bulge of bands 0.27 to 8 H wide, curvatures H/R 0.1 to 0.6, Poisson's ratios 0.45 to
 * 0.495. Left over in that range: indent 1.7 % (rms 0.8), bulge 4.0 % (rms 2.0); between 0.40
 * and 0.499 indent 2.6 %, bulge 4.3 %. The endless band is exact: see
 * {@link endlessGive}.
 *
 * @param poisson - Poisson's ratio.
 * @param curved - H (k1 + k2), convex positive; a hollow counts as flat.
 */
export function fleshKernel(poisson: number, curved: number): FleshKernel {
  const d = 0.49 - poisson;
  const round = Math.min(Math.max(curved, 0), MOST_CURVED);
  const eta = Math.min(round, MOST_FITTED);
  const shortPole = 17.347;
  const longPole = Math.exp(-0.1225 + 3.4967 * d - 0.3713 * eta);
  const local = 0.0482 - 0.1118 * d + 0.0278 * eta;
  const short = 12.2519 + 23.7838 * d - 2.201 * eta;
  const long = longPole * (endlessGive(poisson, round) - local - short / shortPole);
  return { local, short, shortPole, long, longPole };
}

/**
 * What an endless, even pressure presses in, in H/E: the plane-strain ring bonded to its core,
 * c = (1 + nu)(1 - 2 nu)(1 - q) / (eta (1 + (1 - 2 nu) q)) with q = (1 - eta)^2 and eta = H/R.
 *
 * @see Timoshenko & Goodier, Theory of Elasticity (1970), article 28 (thick cylinder), held at its inner side.
 */
export function endlessGive(poisson: number, eta: number): number {
  const squeeze = 1 - 2 * poisson;
  // (1 - q) / eta = 2 - eta, which holds in the flat limit too.
  return ((1 + poisson) * squeeze * (2 - eta)) / (1 + squeeze * (1 - eta) ** 2);
}

/** Share by which an indent stiffens per depth. */
const STIFFENING = 0.6;

/**
 * Deep indents give less than small ones: w / (1 + 0.6 w/H); a bulge stays.
 *
 * Against neo-Hookean finite elements (CalculiX 2.20, 23 axisymmetric cases, pressure following the skin) the factor holds
 * within 2.7 % up to w/H 0.15.
 */
export const stiffened = (movement: number, depth: number): number =>
  movement > 0 && depth > 0 ? movement / (1 + (STIFFENING * movement) / depth) : movement;
