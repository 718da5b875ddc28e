import type { RestShape } from './rest-shape.ts';

/**
 * The same unstretched shape cut with its warp turned by an angle.
 *
 * With Q the turn into the new axes Dm' = Q Dm, so restInverse' = restInverse Q': a unit of the new warp is
 * cos(angle) of the old warp and sin(angle) of the old weft.
 *
 * @param angle - From the old warp towards the old weft, rad.
 */
export function turnedGrain({ restInverse, restArea }: RestShape, angle: number): RestShape {
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  const turned = new Float64Array(restInverse.length);
  for (let i = 0; i < turned.length; i += 2) {
    turned[i] = restInverse[i]! * cos + restInverse[i + 1]! * sin;
    turned[i + 1] = restInverse[i + 1]! * cos - restInverse[i]! * sin;
  }
  return { restInverse: turned, restArea };
}
