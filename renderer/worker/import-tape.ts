import { findLandmarks } from '../../core/body/landmark-find.ts';
import { measureBody } from '../../core/body/measure-body.ts';
import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';
import { mmFromMetres } from '../../core/units/units.ts';
import type { TapeLevel } from './import-messages.ts';

/** Finding landmarks slices the whole mesh many times: beyond this it would take longer than all the rest. */
export const MOST_MEASURED = 250_000;

/**
 * Levels of trunk and legs that a tape finds on a standing person, of both legs the mean, the highest first; none on
 * anything else.
 */
export function tapeLevels(skin: TriangleMesh): readonly TapeLevel[] {
  const found = findLandmarks(skin);
  const { readings } = measureBody(skin, { known: found });
  const level = readings.filter(({ line }) => line.normal[1] === 1);
  return [...new Set(level.map(({ line }) => line.name))]
    .map((name) => {
      const own = level.filter(({ line }) => line.name === name);
      const mean = (value: (reading: (typeof own)[number]) => number): number =>
        own.reduce((sum, reading) => sum + mmFromMetres(value(reading)), 0) / own.length;
      return {
        name,
        levelMm: mean(({ line }) => line.center[1]),
        girthMm: mean(({ girth }) => girth),
      };
    })
    .sort((one, other) => other.levelMm - one.levelMm);
}
