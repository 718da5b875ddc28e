import type { SampledAxes } from './assemble-law.ts';
import { unshearedLaw, withShear } from './assemble-law.ts';
import type { BiasCurve } from './bias-shear.ts';
import { shearFromBias } from './bias-shear.ts';
import { unstableShare } from './stability.ts';
import type { TensionLaw } from './tension-law.ts';

/** The strips of one branch: all of a law but its coupling. */
export interface LawSource {
  readonly axes: SampledAxes;
  readonly bias: BiasCurve;
}

const UNSTABLE_SHARE = 0.01;
/** Halvings of the way between a stable coupling and one that is not. */
const HALVINGS = 4;

/** The law with a given coupling: axes from the strips, then shear from the bias strip. */
export function lawWith({ axes, bias }: LawSource, coupling: number): TensionLaw {
  const unsheared = unshearedLaw(axes, coupling);
  return withShear(unsheared, shearFromBias(unsheared, bias).slope);
}

/** Guard G5. */
const isStable = (law: TensionLaw): boolean => unstableShare(law) <= UNSTABLE_SHARE;

/** A law that stands, and how far its coupling is from the one asked for. */
export interface StableLaw {
  readonly law: TensionLaw;
  /** Coupling in use over the one asked for. */
  readonly share: number;
  /** Share of the measured range that was unstable at the coupling asked for. */
  readonly unstableShare: number;
}

/** Lowers the coupling in steps of 10 % until the law is stable; null where half of it is not stable either. */
export function loweredToStable(
  source: LawSource,
  coupling: number,
): StableLaw | { readonly law: null; readonly share: null; readonly unstableShare: number } {
  let first = 0;
  for (let tenths = 10; tenths >= 5; tenths--) {
    const share = tenths / 10;
    const law = lawWith(source, coupling * share);
    const unstable = unstableShare(law);
    if (tenths === 10) first = unstable;
    if (unstable <= UNSTABLE_SHARE) return { law, share, unstableShare: first };
  }
  return { law: null, share: null, unstableShare: first };
}

/**
 * The law at an end of the coupling's band; where it is not stable there, the last stable one on the way from the law
 * in use, which is.
 *
 * @param shown - The law in use.
 * @param coupling - c wanted, N/m.
 */
export function lawTowards(source: LawSource, shown: TensionLaw, coupling: number): TensionLaw {
  if (coupling === shown.coupling) return shown;
  const wanted = lawWith(source, coupling);
  if (isStable(wanted)) return wanted;
  let stable = shown;
  let unstable = coupling;
  for (let i = 0; i < HALVINGS; i++) {
    const law = lawWith(source, Math.sqrt(stable.coupling * unstable));
    if (isStable(law)) stable = law;
    else unstable = law.coupling;
  }
  return stable;
}
