import type { DistanceField } from '../body/distance-field.ts';
import { Fault } from '../fault/fault.ts';
import { mmFromMetres } from '../units/units.ts';

/** Farther than this from the origin there is no body, m. */
const FARTHEST = 100;

/** The skin as each vertex of a cloth sees it. */
export interface SkinUnder {
  /** Signed distance, negative inside; V, m. */
  readonly distance: Float64Array;
  /** The way out; about 1 long near the skin, anything deep inside; 3*V. */
  readonly gradient: Float64Array;
}

/**
 * Asks the skin once for every vertex.
 *
 * @param positions - 3*V, m.
 * @throws {Fault} `garment/lies-nowhere` where a position is no number or farther away than any body.
 */
export function skinUnder(positions: Float64Array, skin: DistanceField): SkinUnder {
  const distance = new Float64Array(positions.length / 3);
  const gradient = new Float64Array(positions.length);
  const sample = new Float64Array(10);
  for (let v = 0; v < distance.length; v++) {
    const x = positions[3 * v]!;
    const y = positions[3 * v + 1]!;
    const z = positions[3 * v + 2]!;
    // Written so that what is not a number fails it.
    const isSomewhere = Math.abs(x) < FARTHEST && Math.abs(y) < FARTHEST && Math.abs(z) < FARTHEST;
    if (!isSomewhere) {
      const [xMm, yMm, zMm] = [mmFromMetres(x), mmFromMetres(y), mmFromMetres(z)];
      throw new Fault('garment/lies-nowhere', { vertex: v, xMm, yMm, zMm });
    }
    skin.sample(x, y, z, sample);
    distance[v] = sample[0]!;
    gradient[3 * v] = sample[1]!;
    gradient[3 * v + 1] = sample[2]!;
    gradient[3 * v + 2] = sample[3]!;
  }
  return { distance, gradient };
}
