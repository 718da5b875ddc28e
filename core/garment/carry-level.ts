import type { DistanceField } from '../body/distance-field.ts';
import { vertexNormals } from '../mesh/triangle-areas.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { buriedVertices, type ClothOverSkin } from './buried-vertices.ts';
import { skinUnder } from './skin-under.ts';

/** Shifts, each by the mean way out of what is buried; with every one about half of the way is left. */
const MOST_SHIFTS = 60;
/** A shift shorter than this ends the search, m. */
const SMALL_SHIFT = 2e-5;
/** A garment that was only laid beside its place leaves no more than this of its buried volume behind. */
const LEFT_BEHIND = 0.1;

/**
 * Positions of a garment that was laid beside its place, carried there as a whole; null where that does not bring it out of
 * the body, because it is its shape that is in the way.
 *
 * Carrying keeps the cloth as it was laid, and the search for rest finds it several times quicker than cloth that was
 * pushed out on one side and left hanging on the other. It keeps its height: the body narrows somewhere, and any tube
 * comes clear if it is only slid far enough. The ways are those that the cloth faces: beside the middle of the body the
 * field's gradient leads out at the wrong side, and a tube laid more than half beside a bar was left there.
 *
 * @param mesh - Facing outwards; not changed.
 * @param areas - Area of each vertex, m^2; V.
 * @returns 3*V, m.
 */
export function carryLevel(
  mesh: TriangleMesh,
  areas: Float64Array,
  skin: DistanceField,
): Float64Array | null {
  const positions = mesh.positions.slice();
  const faces = vertexNormals(mesh);
  let first = 0;
  for (let count = 0; ; count++) {
    const { volume, x, z } = buriedPart({ positions, faces, under: skinUnder(positions, skin) }, areas, skin);
    if (count === 0) first = volume;
    if (count === MOST_SHIFTS || Math.hypot(x, z) < SMALL_SHIFT) {
      return volume <= LEFT_BEHIND * first ? positions : null;
    }
    for (let i = 0; i < positions.length; i += 3) {
      positions[i]! += x;
      positions[i + 2]! += z;
    }
  }
}

/** How much of the body lies over the cloth, m^3, and the mean level way out of it, m: its depth, the way the cloth faces. */
function buriedPart(
  cloth: ClothOverSkin,
  areas: Float64Array,
  skin: DistanceField,
): { volume: number; x: number; z: number } {
  let volume = 0;
  let area = 0;
  let x = 0;
  let z = 0;
  buriedVertices(cloth, skin, 0)?.forEach((isBuried, v) => {
    if (!isBuried) return;
    const buried = -cloth.under.distance[v]! * areas[v]!;
    volume += buried;
    area += areas[v]!;
    x += cloth.faces[3 * v]! * buried;
    z += cloth.faces[3 * v + 2]! * buried;
  });
  return area > 0 ? { volume, x: x / area, z: z / area } : { volume, x: 0, z: 0 };
}
