import { curveLength } from './arc-length.ts';
import { curveOf, type Pattern, type Seam } from './pattern.ts';

/** How two sewn edges differ in length; m. */
export interface SeamEase {
  readonly one: number;
  readonly other: number;
  /** By how much the other is longer; below 0 where it is shorter. */
  readonly difference: number;
  /** Difference over the shorter of both. */
  readonly ratio: number;
}

/** The ease of one seam. */
export const seamEase = (pattern: Pattern, seam: Pick<Seam, 'one' | 'other'>): SeamEase =>
  easeBetween(
    curveLength(curveOf(pattern, seam.one).points),
    curveLength(curveOf(pattern, seam.other).points),
  );

export const easeBetween = (one: number, other: number): SeamEase => ({
  one,
  other,
  difference: other - one,
  ratio: (other - one) / Math.min(one, other),
});
