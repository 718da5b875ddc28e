import type { TriangleMesh } from './triangle-mesh.ts';
import type { Triple } from './triple.ts';

/** The axis-aligned box round every vertex that a triangle uses; a stray one far off does not count. m. */
export function extentOf({ positions, triangles }: TriangleMesh): { low: Triple; high: Triple } {
  const low: Triple = [Infinity, Infinity, Infinity];
  const high: Triple = [-Infinity, -Infinity, -Infinity];
  for (const v of triangles) {
    for (let k = 0; k < 3; k++) {
      low[k] = Math.min(low[k]!, positions[3 * v + k]!);
      high[k] = Math.max(high[k]!, positions[3 * v + k]!);
    }
  }
  return { low, high };
}
