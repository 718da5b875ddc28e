import { radiansFromDegrees } from '../units/units.ts';

/** Height of a loop without weight over the strip's length, l0 / L. */
const WEIGHTLESS_HEIGHT = 0.1337;
const ANGLE = radiansFromDegrees(32.85);

/**
 * Bending length from the heart loop, for knits that curl over a cantilever's edge: a strip of length L is clamped end
 * to end and hangs as a heart, whose height l grows with its weight.
 *
 * d = l - l0, t = 32.85 degrees * d / l0, c = l0 (cos t / tan t)^(1/3), l0 = 0.1337 L.
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
