import { regionSection } from '../garment/lay-rings.ts';
import { trianglesBetween } from '../mesh/section.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import type { Triple } from '../mesh/triple.ts';

/** A whole level row of the left leg. */
export interface LegRow {
  readonly height: number;
  /** All round along the skin, m. */
  readonly length: number;
  readonly front: Triple;
  readonly outside: Triple;
  readonly back: Triple;
  readonly inside: Triple;
}

/**
 * The row of the wearer's left leg at a height, with its four quarter points as seen from the middle of its area.
 *
 * @throws {Fault} `garment/level-off-body`, `garment/region-not-here`.
 */
export function legRow(skin: TriangleMesh, height: number): LegRow {
  const { points, centroid, length } = regionSection(
    trianglesBetween(skin, height, height),
    'leftLeg',
    height,
  );
  const farthest = (x: number, z: number): Triple => {
    let best: Triple = [centroid[0], height, centroid[1]];
    let most = -Infinity;
    for (let i = 0; i < points.length; i += 2) {
      const [dx, dz] = [points[i]! - centroid[0], points[i + 1]! - centroid[1]];
      // Nearest to the ray that leaves the middle: far along it, little beside it.
      const off = (dx * x + dz * z) / Math.hypot(dx, dz);
      if (off > most) [most, best] = [off, [points[i]!, height, points[i + 1]!]];
    }
    return best;
  };
  return {
    height,
    length,
    front: farthest(0, 1),
    outside: farthest(1, 0),
    back: farthest(0, -1),
    inside: farthest(-1, 0),
  };
}
