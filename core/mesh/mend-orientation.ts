import { FREE, type Stitches } from './mend-stitches.ts';
import { enclosedVolume } from './triangle-areas.ts';
import type { TriangleMesh } from './triangle-mesh.ts';

/** A mesh whose triangles all face outwards. */
export interface Oriented {
  readonly mesh: TriangleMesh;
  readonly stitches: Stitches;
  /** Triangles turned over. */
  readonly turnedCount: number;
  /** Sides cut because no way of turning lets both triangles face the same way, as on a twisted band. */
  readonly cutCount: number;
}

/**
 * Turns triangles over until all that are sewn together face the same side, from piece to piece of sewn triangles; then
 * the whole, if its volume is negative, since it would face inwards. For one piece.
 */
export function turnFacesOut({ positions, triangles }: TriangleMesh, { across }: Stitches): Oriented {
  const triangleCount = triangles.length / 3;
  const isTurned = new Int8Array(triangleCount).fill(-1);
  const sewn = across.slice();
  let cutCount = 0;
  const open: number[] = [];
  for (let first = 0; first < triangleCount; first++) {
    if (isTurned[first]! >= 0) continue;
    isTurned[first] = 0;
    open.push(first);
    while (open.length > 0) {
      const t = open.pop()!;
      for (let side = 3 * t; side < 3 * t + 3; side++) {
        const other = sewn[side]!;
        if (other === FREE) continue;
        const next = Math.floor(other / 3);
        // Beginning at the same vertex, the two sides run the same way: one of the triangles must turn.
        const wanted = Number(triangles[side] === triangles[other]) ^ isTurned[t]!;
        if (isTurned[next]! < 0) {
          isTurned[next] = wanted;
          open.push(next);
        } else if (isTurned[next] !== wanted) {
          sewn[side] = FREE;
          sewn[other] = FREE;
          cutCount++;
        }
      }
    }
  }
  const once = turnedOver({ positions, triangles }, sewn, (t) => isTurned[t] === 1);
  const inward = enclosedVolume(once.mesh) < 0;
  const { mesh, stitches } = inward ? turnedOver(once.mesh, once.stitches.across, () => true) : once;
  const turned = isTurned.reduce((sum, value) => sum + value, 0);
  return { mesh, stitches, turnedCount: inward ? triangleCount - turned : turned, cutCount };
}

/** Turns the triangles that `isTurned` names: corners a b c become a c b, so its sides 0 1 2 become 2 1 0. */
function turnedOver(
  { positions, triangles }: TriangleMesh,
  across: Int32Array,
  isTurned: (t: number) => boolean,
): { mesh: TriangleMesh; stitches: Stitches } {
  const placeOf = (side: number): number => {
    const t = Math.floor(side / 3);
    return isTurned(t) ? 3 * t + 2 - (side % 3) : side;
  };
  const corners = triangles.slice();
  const sewn = new Int32Array(across.length);
  for (let t = 0; t < triangles.length / 3; t++) {
    if (!isTurned(t)) continue;
    corners[3 * t + 1] = triangles[3 * t + 2]!;
    corners[3 * t + 2] = triangles[3 * t + 1]!;
  }
  for (let side = 0; side < across.length; side++) {
    const other = across[side]!;
    sewn[placeOf(side)] = other === FREE ? FREE : placeOf(other);
  }
  return { mesh: { positions, triangles: corners }, stitches: { across: sewn, crowdedCount: 0 } };
}
