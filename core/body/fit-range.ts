import { Fault } from '../fault/fault.ts';
import { mmFromMetres } from '../units/units.ts';
import type { FitMeasures } from './fit-measures.ts';

/** What each measure may be, mm: sixty random figures within these limits came out sound. */
export const FIT_RANGES = [
  ['stature', 1450, 2000],
  ['bust', 720, 1450],
  ['underbust', 600, 1350],
  ['waist', 520, 1400],
  ['hip', 750, 1450],
  ['neck', 260, 560],
  ['topHip', 620, 1450],
  ['thigh', 380, 900],
  ['midThigh', 330, 800],
  ['knee', 270, 600],
  ['calf', 270, 600],
  ['ankle', 180, 350],
  ['upperArm', 190, 520],
  ['elbow', 180, 450],
  ['wrist', 120, 250],
] as const satisfies readonly (readonly [Exclude<keyof FitMeasures, 'figure'>, number, number])[];

/** Bust less under-bust that the breasts can make up, mm: below it the smallest still stands out too far. */
const CUP_DIFFERENCE = [35, 290] as const;

/**
 * Refuses measures that the base figures cannot be brought to.
 *
 * @param measures - m.
 * @throws {Fault} `fit/measure-out-of-range`, `fit/bust-against-underbust`.
 */
export function checkMeasures(measures: FitMeasures): void {
  for (const [name, lowestMm, highestMm] of FIT_RANGES) {
    if (name === 'underbust' && measures.figure === 'male') continue;
    const metres = measures[name];
    if (metres === undefined) continue;
    const valueMm = mmFromMetres(metres);
    if (!(valueMm >= lowestMm && valueMm <= highestMm)) {
      throw new Fault('fit/measure-out-of-range', { measure: name, valueMm, lowestMm, highestMm });
    }
  }
  if (measures.figure === 'male') return;
  const [leastDifferenceMm, mostDifferenceMm] = CUP_DIFFERENCE;
  const bustMm = mmFromMetres(measures.bust);
  const underbustMm = mmFromMetres(measures.underbust);
  const difference = bustMm - underbustMm;
  if (difference < leastDifferenceMm || difference > mostDifferenceMm) {
    throw new Fault('fit/bust-against-underbust', {
      bustMm,
      underbustMm,
      leastDifferenceMm,
      mostDifferenceMm,
    });
  }
}
