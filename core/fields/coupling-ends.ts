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
 * is the derivative of the cloth's energy, f_i = dE/dx_i, here with the law of the end. A tube whose ends are free
 * carries a strip's tension, which no coupling changes, and one held on a hard bar keeps its shape: there the estimate
 * is exact. It leaves out how flesh would give in answer (told too wide, by a third on the softest) and how the garment
 * would sit otherwise: little where the low coupling is 0.6 of the one shown, up to a sixth of the mean pressure at
 * single places where it is 0.3. `tests/core/fields/worn-band.test.ts` and `tests/core/study/banded-study.test.ts`
 * settle with the other laws and hold it to that; settling them for every result would take three times as long.
 *
 * @param positions - Settled, finest level; 3*V, m.
 */
export function couplingEnds(garment: Garment, laws: LawPair, positions: Float64Array): CouplingEnds {
  const end = (law: TensionLaw): CouplingEnd => {
    const force = new Float64Array(positions.length);
    const membrane = { level: garment.levels.at(-1)!, laws: [law], room: membraneRoom() };
    addMembraneGradient(membrane, positions, {
      gradient: force,
      pull: { energy: 0, cornerForceSquared: 0 },
    });
    return { pull: clothPull(garment, [law], positions), force };
  };
  return { low: end(laws.low), high: end(laws.high) };
}
