import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { aroundTrunk, TRUNK_ENDS } from './landmark-points.ts';
import {
  TRUNK_LEVEL_NAMES,
  type Landmark,
  type LandmarkName,
  type Landmarks,
  type PlacedLandmarks,
} from './landmarks.ts';
import { frameOf, intoFrame, meshInFrame, outOfFrame } from './tape-frame.ts';
import { slicerOf, sliceRound } from './tape-slices.ts';

/** Furthest that a placed level's piece may lie from the middle of the body, m. */
const REACH = 0.3;

/**
 * Landmarks with those that were placed by hand in their stead. A trunk level follows its front: back and sides are taken
 * from the section there, unless they are placed too.
 *
 * @param forward - Level unit vector from back to front.
 */
export function withPlaced(
  skin: TriangleMesh,
  landmarks: Landmarks,
  placed: PlacedLandmarks,
  forward: readonly [number, number, number],
): Landmarks {
  const into: Partial<Record<LandmarkName, Landmark>> = { ...landmarks };
  const moved = TRUNK_LEVEL_NAMES.filter((name) => placed[`${name}Front`] !== undefined);
  if (moved.length > 0) {
    const frame = frameOf([0, 1, 0], forward);
    const slicer = slicerOf(meshInFrame(frame, skin));
    const crotch = landmarks.crotch?.point ?? [0, 0, 0];
    const middle = intoFrame(frame, crotch);
    for (const name of moved) {
      const level = placed[`${name}Front`]![1];
      const slice = sliceRound(slicer.at(level), [middle[0], middle[2]], REACH);
      if (slice === null) continue;
      const around = aroundTrunk(slice, middle[0]);
      for (const end of TRUNK_ENDS) {
        into[`${name}${end}`] = { point: outOfFrame(frame, around[end]), how: 'placed' };
      }
    }
  }
  const own = Object.entries(placed).map(([name, point]): [string, Landmark] => [
    name,
    { point, how: 'placed' },
  ]);
  return { ...into, ...Object.fromEntries(own) };
}
