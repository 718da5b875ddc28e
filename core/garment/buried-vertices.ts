import type { DistanceField } from '../body/distance-field.ts';
import { vertexNormals } from '../mesh/triangle-areas.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { betweenSkins, NARROW } from './between-skins.ts';
import { skinUnder, type SkinUnder } from './skin-under.ts';

/** How deep laid cloth may lie in the skin and still be left to the search for rest, m. */
export const BURIED = 0.002;

/**
 * The vertices that lie in the body and do not belong there. Cloth that goes round one limb and is pressed by another lies
 * deep in that other skin and is left where it is: out of there would be off its limb.
 *
 * @param cloth - Positions and outward unit normals of its vertices, 3*V each, and the skin at them.
 * @param deeperThan - m.
 * @returns 1 for each; V. Null for none.
 */
export function buriedVertices(
  { positions, faces, under: { distance } }: ClothOverSkin,
  skin: DistanceField,
  deeperThan = BURIED,
): Uint8Array | null {
  const isBuried = Uint8Array.from(distance, (d) => Number(d < -deeperThan));
  if (!isBuried.includes(1)) return null;
  const isBetweenSkins = betweenSkins(skin);
  isBuried.forEach((isDeep, v) => {
    const place = { positions, faces, at: 3 * v, distance: distance[v]! };
    if (isDeep && isBetweenSkins(place, { width: NARROW, must: 'deeper' })) isBuried[v] = 0;
  });
  return isBuried.includes(1) ? isBuried : null;
}

/** A cloth and the skin under it. */
export interface ClothOverSkin {
  readonly positions: Float64Array;
  readonly faces: Float64Array;
  readonly under: SkinUnder;
}

/** As {@link buriedVertices} takes it. */
export const clothOverSkin = (mesh: TriangleMesh, skin: DistanceField): ClothOverSkin => ({
  positions: mesh.positions,
  faces: vertexNormals(mesh),
  under: skinUnder(mesh.positions, skin),
});
