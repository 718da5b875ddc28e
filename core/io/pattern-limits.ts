import { Fault } from '../fault/fault.ts';

/** The most a pattern file may hold: a hundred times a garment, and little enough that nothing hangs. */
export const PATTERN_LIMITS = {
  characters: 64 * 2 ** 20,
  'drawn things': 200_000,
  points: 400_000,
  'open lines': 6000,
  'notches, turn points and texts': 2000,
  'blocks within blocks': 8,
  pieces: 300,
} as const;

/**
 * Stops a pattern that would fill the memory or take forever.
 *
 * @throws {Fault} `pattern/too-large`.
 */
export function requirePatternWithin(what: keyof typeof PATTERN_LIMITS, found: number): void {
  const limit = PATTERN_LIMITS[what];
  if (found > limit) throw new Fault('pattern/too-large', { what, found, limit });
}

/** Numbers of a drawing lie within this, in any unit: beyond, nothing is a garment. */
export const LARGEST_PATTERN_NUMBER = 1e7;
