import type { Equilibrium } from '../equilibrium/equilibrium.ts';
import { addMembraneGradient, membraneRoom } from '../equilibrium/membrane-force.ts';
import type { LawPair } from '../fabric/fabric.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import type { Garment } from '../garment/garment.ts';
import { clothPull, type ClothPull } from './stretch-and-tension.ts';

/** How settled cloth would pull and press, were the coupling of warp and weft another. */
export interface CouplingEnd {
  readonly pull: ClothPull;
  /** Force of the body that would hold the cloth where it is (3*V, N), or how the pressure would change (V, Pa). */
  readonly press: { readonly force: Float64Array } | { readonly change: Float64Array };
}

/** The same at both ends of the coupling's band. */
export interface CouplingEnds {
  readonly low: CouplingEnd;
  readonly high: CouplingEnd;
}

/** How far the cloth would move, and by how much press otherwise, were its coupling that of an end. */
export interface EndMove {
  /** 3*V, m. */
  readonly shift: Float64Array;
  /** V, Pa. */
  readonly pressure: Float64Array;
}

/** The same of both ends. */
export interface EndMoves {
  readonly low: EndMove;
  readonly high: EndMove;
}

/** The law that a garment settled with and those of both ends, and how it would sit otherwise with these. */
export interface EndLaws extends LawPair {
  readonly shown: TensionLaw;
  readonly moves?: EndMoves;
}

/**
 * What the garment would ask for at both ends of the coupling's band.
 *
 * Where it is known how it would sit otherwise, the cloth is read where it would lie. Where not, the shape is taken as it
 * stands: body and garment set the stretch, the coupling the tension. At rest the body's force balances the cloth's pull;
 * at an end it would be f_i + (dE_end/dx_i - dE_shown/dx_i). A tube whose ends are free carries a strip's tension, which
 * no coupling changes, and one held on a hard bar keeps its shape: there that is exact. It leaves out how flesh would give
 * in answer and how the garment would sit otherwise. `tests/core/fields/worn-band.test.ts` (as it stands) and
 * `tests/core/study/banded-study.test.ts` (moved) settle with the other laws and hold both to it.
 */
export function couplingEnds(
  garment: Garment,
  { shown, low, high, moves }: EndLaws,
  { positions, contactForce }: Pick<Equilibrium, 'positions' | 'contactForce'>,
): CouplingEnds {
  const movedEnd = (law: TensionLaw, { shift, pressure }: EndMove): CouplingEnd => {
    const there = positions.map((x, i) => x + shift[i]!);
    return { pull: clothPull(garment, [law], there), press: { change: pressure } };
  };
  if (moves) return { low: movedEnd(low, moves.low), high: movedEnd(high, moves.high) };
  const pullOf = (law: TensionLaw): Float64Array => {
    const gradient = new Float64Array(positions.length);
    const membrane = { level: garment.levels.at(-1)!, laws: [law], room: membraneRoom() };
    addMembraneGradient(membrane, positions, { gradient, pull: { energy: 0, cornerForceSquared: 0 } });
    return gradient;
  };
  const now = pullOf(shown);
  const end = (law: TensionLaw): CouplingEnd => {
    const pull = pullOf(law);
    const force = contactForce.map((one, i) => one + pull[i]! - now[i]!);
    return { pull: clothPull(garment, [law], positions), press: { force } };
  };
  return { low: end(low), high: end(high) };
}
