/** How near the inner thighs come: heights on the base figure, lengths in mm. */
import { smoothStep } from './fit-masses.ts';

/** Half the narrowest gap between the thighs of the base tables, at 695. */
const DRAWN_HALF_GAP = 13;
/** Touching skins lie this far from the middle: each thigh keeps a skin of its own. */
export const LEAST_HALF_GAP = 0.75;
/** Gaps narrower than this press the thighs flat against the middle. */
const FLATTENS_BELOW = 8;
/** How far each thigh would reach over the middle at no gap, were it not flattened. */
const PRESSED = 4;
/** The splines between the outlines swing a little beyond them where thighs come nearer: read off finished skins. */
const OVERSWING = 1.1;

/**
 * How far the inner side of a thigh moves outward at a height of the base figure for the asked gap; negative brings it
 * nearer. Thighs come nearer from the knee up to the arch under the crotch, which stays; they part up to the crotch.
 */
export function thighPlay(gap: number, heightScale: number, y: number): number {
  const pressed = PRESSED * Math.max(0, 1 - gap / FLATTENS_BELOW);
  const outward = gap / 2 - pressed - DRAWN_HALF_GAP * heightScale;
  const isNearer = outward < 0;
  const [from, to] = isNearer ? [690, 760] : [720, 830];
  return (isNearer ? outward / OVERSWING : outward) * smoothStep(490, 620, y) * (1 - smoothStep(from, to, y));
}

/** Whether the thighs are so near that the net must look for the slit between them. */
export const areClose = (gap: number): boolean => gap < 16;

/** Whether a contact grid would smear the ridge between the thighs into their skins. */
export const areWithinReach = (gap: number): boolean => gap < 48;
