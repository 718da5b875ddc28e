import type { DistanceField } from '../body/distance-field.ts';
import type { BendingTensor } from '../equilibrium/bending-force.ts';
import type { Equilibrium } from '../equilibrium/equilibrium.ts';
import { settle } from '../equilibrium/settle.ts';
import type { ClothLevel } from '../garment/garment.ts';
import { linearLaw } from './settled-tube.ts';

/** A floor far below. */
const nothing: DistanceField = {
  sample: (_x, y, _z, into) => {
    into.fill(0);
    into[0] = 10 + y;
    into[2] = 1;
  },
};

/** How a cloth hangs. */
export interface Hung {
  /** kg/m^2. */
  readonly arealDensity: number;
  /** Of either yarn, N/m. */
  readonly stiffness: number;
  readonly bending?: BendingTensor;
  readonly held: (v: number) => boolean;
}

/** Lets a cloth hang from its held vertices. */
export function hang(level: ClothLevel, hung: Hung): Equilibrium {
  const { held, stiffness, ...weighed } = hung;
  const search = settle({
    levels: [level],
    laws: [linearLaw(stiffness)],
    body: nothing,
    foundation: [new Float64Array(level.mesh.positions.length / 3)],
    friction: 0,
    held: [Uint8Array.from(level.mesh.positions, (_, i) => (held(Math.floor(i / 3)) ? 1 : 0))],
    // No body presses, so the residual is counted against the cloth's own stiffness, which dwarfs its weight.
    tolerance: 1e-7,
    ...weighed,
  });
  let step = search.next();
  while (!step.done) step = search.next();
  return step.value;
}
