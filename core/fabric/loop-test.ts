/**
 * Tension of a looped strip, N/m: T = F / (2 w). The machine pulls both legs of the loop at once.
 *
 * @param force - As the machine shows it, N.
 * @param width - Of the looped strip, m.
 * @see ASTM D4964 (constant-rate-of-extension loop test; from memory).
 */
export const loopTension = (force: number, width: number): number => force / (2 * width);

/**
 * How far the grips must travel to stretch a loop, m: L = e C / 2, since both legs lengthen.
 *
 * @param extension - Of the loop, ratio.
 * @param circumference - Of the loop, m.
 * @see ASTM D4964: L = E C / 200 with E in per cent (from memory).
 */
export const loopTravel = (extension: number, circumference: number): number =>
  (extension * circumference) / 2;
