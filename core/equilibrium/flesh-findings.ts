import type { Finding } from '../fault/finding.ts';
import type { FleshEquilibrium } from './settle-on-flesh.ts';

/** The layer's own range: indent over thickness, pressure over Young's modulus. */
const RANGE = { depth: 0.15, pressure: 0.4 };
/** Indent over thickness from which its numbers mean nothing. */
const DEEPEST = 0.35;

/**
 * Whether the flesh was pressed further than its layer can tell.
 *
 * Within w/H 0.15 and p/E 0.4 small displacements with the stiffening factor stay within 3 % of large ones where skin slides
 * and 15 % where it is held (CalculiX 2.20, neo-Hooke, 23 and 8 cases).
 */
export function fleshFindings({ deepest, hardest }: FleshEquilibrium): Finding[] {
  const depthPercent = 100 * deepest;
  if (deepest > DEEPEST) {
    return [{ code: 'worn/flesh-too-deep', facts: { depthPercent, mostPercent: 100 * DEEPEST } }];
  }
  if (deepest <= RANGE.depth && hardest <= RANGE.pressure) return [];
  return [{ code: 'worn/flesh-out-of-range', facts: { depthPercent, pressurePercent: 100 * hardest } }];
}
