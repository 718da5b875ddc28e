import type { DistanceField } from '../body/distance-field.ts';

/**
 * A round plate with a rounded rim, its top at height 0: all points within `edge` of a disc of radius - edge.
 *
 * @param radius - Of the plate, m.
 * @param edge - Radius of the rim's rounding, m; the plate is twice as thick.
 */
export function roundTable(radius: number, edge: number): DistanceField {
  const core = radius - edge;
  return {
    sample: (x, y, z, into) => {
      into.fill(0);
      const r = Math.hypot(x, z);
      const height = y + edge;
      if (r <= core) {
        into[0] = Math.abs(height) - edge;
        into[2] = height < 0 ? -1 : 1;
        return;
      }
      // Outside the disc: distance to its rim, a torus.
      const out = r - core;
      const length = Math.hypot(out, height);
      const nr = out / length;
      const ny = height / length;
      const ux = x / r;
      const uz = z / r;
      into[0] = length - edge;
      into[1] = nr * ux;
      into[2] = ny;
      into[3] = nr * uz;
      // Hessian = t t' / length in the plane of the axis, s s' nr / r round it; t = (-ny, nr), s = across the radius.
      const bend = 1 / length;
      const round = nr / r;
      const tx = -ny * ux;
      const tz = -ny * uz;
      into[4] = bend * tx * tx + round * uz * uz;
      into[5] = bend * tx * nr;
      into[6] = bend * tx * tz - round * ux * uz;
      into[7] = bend * nr * nr;
      into[8] = bend * nr * tz;
      into[9] = bend * tz * tz + round * ux * ux;
    },
  };
}
