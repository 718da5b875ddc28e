import type { DistanceField } from '../body/distance-field.ts';

/** Skin nearer to other skin than this pinches what lies between: two thin cloths, and as much that a contact field blurs; m. */
export const NARROW = 0.004;

/** A place on a cloth. */
export interface ClothPlace {
  /** Where, m, and the way the cloth faces (unit vector): three numbers each, from `at` on. */
  readonly positions: Float64Array;
  readonly faces: Float64Array;
  readonly at: number;
  /** Signed distance from the skin there, m. */
  readonly distance: number;
}

/** How near skin counts, m; `deeper` where the way out has to lead deeper in, too. */
export interface Nearness {
  readonly width: number;
  readonly must?: 'deeper';
}

/**
 * Tells whether cloth lies between two parts of skin that press on one another or come nearer than a width: inner thighs, an
 * arm at the side, a deep fold.
 *
 * From depth D in the skin, free skin is left behind after D the way the cloth faces, and `width` farther on there are
 * `width` metres of air; between two skins there is skin. And the other way leads deeper in as well, which it does not where
 * cloth was laid past the middle of a limb. Cloth that lies askew in free skin does not come out after D, but always higher:
 * where that may be, ask for `deeper`.
 */
export function betweenSkins(skin: DistanceField): (place: ClothPlace, near: Nearness) => boolean {
  const sample = new Float64Array(10);
  const distanceAlong = ({ positions, faces, at }: ClothPlace, way: number): number => {
    skin.sample(
      positions[at]! + way * faces[at]!,
      positions[at + 1]! + way * faces[at + 1]!,
      positions[at + 2]! + way * faces[at + 2]!,
      sample,
    );
    return sample[0]!;
  };
  return (place, { width, must }) => {
    const out = Math.max(0, -place.distance) + width;
    const ahead = distanceAlong(place, out);
    if (ahead > 0 || (must === 'deeper' && ahead > place.distance)) return false;
    return distanceAlong(place, -out - width) < place.distance;
  };
}
