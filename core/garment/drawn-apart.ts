import type { TriangleMesh } from '../mesh/triangle-mesh.ts';

/** A side this many times longer than it was laid, and than sides are on the mean, has its ends on two sides of the body. */
const MOST_GROWTH = 3;

/**
 * Whether pushing has drawn cloth apart: neighbours that went out of the body on different sides hold it between them, and
 * no search for rest brings them together again.
 *
 * @param mesh - As laid.
 * @param pushed - 3*V, m.
 */
export function isDrawnApart({ positions, triangles }: TriangleMesh, pushed: Float64Array): boolean {
  const laid = sidesOf(positions, triangles);
  const mean = laid.reduce((sum, side) => sum + side, 0) / laid.length;
  return sidesOf(pushed, triangles).some((side, i) => side > MOST_GROWTH * Math.max(mean, laid[i]!));
}

/** Length of the side from each corner to the next; 3*T, m. */
const sidesOf = (positions: Float64Array, triangles: Uint32Array): Float64Array =>
  Float64Array.from(triangles, (a, i) => {
    const b = triangles[i % 3 === 2 ? i - 2 : i + 1]!;
    return Math.hypot(
      positions[3 * b]! - positions[3 * a]!,
      positions[3 * b + 1]! - positions[3 * a + 1]!,
      positions[3 * b + 2]! - positions[3 * a + 2]!,
    );
  });
