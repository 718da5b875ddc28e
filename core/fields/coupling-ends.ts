import type { Equilibrium } from '../equilibrium/equilibrium.ts';
import { addMembraneGradient, membraneRoom } from '../equilibrium/membrane-force.ts';
import type { LawPair } from '../fabric/fabric.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import type { Garment } from '../garment/garment.ts';
import { clothPull, type ClothPull } from './stretch-and-tension.ts';

/** How settled cloth would pull, were the coupling of warp and weft another. */
export interface CouplingEnd {
  readonly pull: ClothPull;
  /** Force of the body that would hold the cloth where it is; 3*V, N. */
  readonly force: Float64Array;
}

/** The same at both ends of the coupling's band. */
export interface CouplingEnds {
  readonly low: CouplingEnd;
  readonly high: CouplingEnd;
}

/**
 * What the settled shape would ask for at both ends of the coupling's band.
 *
 * The shape is taken as it stands: body and garment set the stretch, the coupling the tension. At rest the body's force
 * balances the cloth's pull; at an end it would be f_i + (dE_end/dx_i - dE_shown/dx_i). A tube whose ends are free
 * carries a strip's tension, which no coupling changes, and one held on a hard bar keeps its shape: there the estimate
 * is exact. It leaves out how flesh would give in answer (told too wide, by a third on the softest) and how the garment
 * would sit otherwise: little where the low coupling is 0.6 of the one shown, up to a sixth of the mean pressure at
 * single places where it is 0.3. `tests/core/fields/worn-band.test.ts` and `tests/core/study/banded-study.test.ts`
 * settle with the other laws and hold it to that; settling them for every result would take three times as long.
 *
 * @param laws - The law that the garment settled with, and those of both ends.
 */
export function couplingEnds(
  garment: Garment,
  { shown, low, high }: LawPair & { readonly shown: TensionLaw },
  { positions, contactForce }: Pick<Equilibrium, 'positions' | 'contactForce'>,
): CouplingEnds {
  const pullOf = (law: TensionLaw): Float64Array => {
    const gradient = new Float64Array(positions.length);
    const membrane = { level: garment.levels.at(-1)!, laws: [law], room: membraneRoom() };
    addMembraneGradient(membrane, positions, { gradient, pull: { energy: 0, cornerForceSquared: 0 } });
    return gradient;
  };
  const now = pullOf(shown);
  const end = (law: TensionLaw): CouplingEnd => {
    const pull = pullOf(law);
    return {
      pull: clothPull(garment, [law], positions),
      force: contactForce.map((force, i) => force + pull[i]! - now[i]!),
    };
  };
  return { low: end(low), high: end(high) };
}
