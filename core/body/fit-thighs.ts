/** How near the inner thighs come: heights on the base figure, lengths in mm. */
import { smoothStep } from './fit-masses.ts';

/** Half the narrowest gap between the thighs of the base tables, at 695. */
const DRAWN_HALF_GAP = 13;
/** Touching skins lie this far from the middle: each thigh keeps a skin of its own. */
export const LEAST_HALF_GAP = 0.75;
/** Gaps narrower than this press the thighs flat against the middle. */
const FLATTENS_BELOW = 8;
/** How far each thigh would reach over the middle at no gap, were it not flattened. */
const PRESSED = 3;

/** How far the inner side of a thigh moves outward for the asked gap; negative brings it nearer. */
export function thighPlay(gap: number, heightScale: number): number {
  const pressed = PRESSED * Math.max(0, 1 - gap / FLATTENS_BELOW);
  return gap / 2 - pressed - DRAWN_HALF_GAP * heightScale;
}

/** Share of that move at a height: all from 600 to 690; nothing near the crotch, whose arch stays, and at the knee. */
export function closing(y: number): number {
  return smoothStep(490, 620, y) * (1 - smoothStep(690, 760, y));
}

/** Whether the thighs are so near that each needs its own side in the contact field. */
export const areClose = (gap: number): boolean => gap < 16;
