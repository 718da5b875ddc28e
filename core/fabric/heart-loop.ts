import { radiansFromDegrees } from '../units/units.ts';

/**
 * Height of a loop without weight over the strip's length, l0 / L, from the exact elastica. Printed as 0.1337, which makes
 * stiff strips' rigidity up to 8 % too small: the height over l0 is all that counts, and it is little.
 */
export const WEIGHTLESS_HEIGHT = 0.13386;
const ANGLE = radiansFromDegrees(32.85);

/**
 * Bending length from the heart loop, for knits that curl over a cantilever's edge: a strip of length L is clamped end
 * to end and hangs as a heart, whose height l grows with its weight.
 *
 * d = l - l0, t = 32.85 degrees * d / l0, c = l0 (cos t / tan t)^(1/3), l0 = 0.13386 L; G within 2.2 % of the exact
 * elastica for w L^3 / B of 5 to 20, 3 % above it at 50.
 *
 * @param stripLength - L, of the strip between the clamps, m.
 * @param height - l, from the clamps to the lowest point, m; between {@link loopHeights}.
 * @returns c, m.
 * @see Peirce, J. Text. Inst. 21 (1930) T377; ASTM D1388 option B (from memory).
 */
export function heartLoopBendingLength(stripLength: number, height: number): number {
  const weightless = WEIGHTLESS_HEIGHT * stripLength;
  const t = (ANGLE * (height - weightless)) / weightless;
  return weightless * Math.cbrt(Math.cos(t) / Math.tan(t));
}

/** The heights between which a loop can hang, m: a strip without weight, and one without stiffness. */
export function loopHeights(stripLength: number): { readonly least: number; readonly most: number } {
  return { least: WEIGHTLESS_HEIGHT * stripLength, most: stripLength / 2 };
}
