import { nearestPointOf } from '../mesh/nearest-point.ts';
import type { Body } from './body.ts';

/**
 * Stiffness of the skin under each point, Pa/m: interpolated between the corners of the nearest skin triangle.
 *
 * @param points - 3 per point, m.
 * @returns One per point.
 */
export function foundationAt(body: Pick<Body, 'skin' | 'foundation'>, points: Float64Array): Float64Array {
  const { foundation, skin } = body;
  const into = new Float64Array(points.length / 3);
  const first = foundation[0] ?? 0;
  // An even body needs no search.
  if (foundation.every((value) => value === first)) return into.fill(first);
  const nearest = nearestPointOf(skin);
  const weights = new Float64Array(4);
  for (let p = 0; p < into.length; p++) {
    const t = nearest(points[3 * p]!, points[3 * p + 1]!, points[3 * p + 2]!, weights);
    for (let corner = 0; corner < 3; corner++) {
      into[p]! += weights[corner]! * foundation[skin.triangles[3 * t + corner]!]!;
    }
  }
  return into;
}
