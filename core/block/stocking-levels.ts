import { Fault } from '../fault/fault.ts';
import type { Landmarks } from '../body/landmarks.ts';

/**
 * Points of a leg where compression hosiery is measured: B ankle at its slimmest, B1 where the Achilles tendon passes into
 * the calf, C calf at its widest, D below the kneecap.
 */
export const STOCKING_POINTS = ['B', 'B1', 'C', 'D'] as const;
export type StockingPoint = (typeof STOCKING_POINTS)[number];

/** Heights above the sole on a leg of common proportions, cm. Common practice in compression hosiery, from memory. */
const HEIGHT_CM: Readonly<Record<StockingPoint, number>> = { B: 12, B1: 20, C: 31, D: 39 };
/** D stays this far below the middle of the knee, m. */
const BELOW_KNEE = 0.03;

/**
 * Heights of the four points on a body: B and C at its ankle and calf, the others between and above them in the common
 * proportions.
 *
 * @throws {Fault} `block/no-landmark`.
 */
export function stockingHeights(
  landmarks: Landmarks,
  laid: Readonly<Record<string, number>> = {},
): Record<StockingPoint, number> {
  const heightOf = (name: 'ankleLeft' | 'calfLeft'): number => {
    const landmark = landmarks[name];
    if (!landmark) throw new Fault('block/no-landmark', { landmark: name });
    return landmark.point[1];
  };
  const ankle = heightOf('ankleLeft');
  const calf = heightOf('calfLeft');
  const scale = (calf - ankle) / (HEIGHT_CM.C - HEIGHT_CM.B);
  const above = (point: StockingPoint): number => ankle + scale * (HEIGHT_CM[point] - HEIGHT_CM.B);
  const knee = landmarks.kneeLeft?.point[1] ?? Infinity;
  return {
    B: laid['B'] ?? ankle,
    B1: laid['B1'] ?? above('B1'),
    C: laid['C'] ?? calf,
    D: laid['D'] ?? Math.min(above('D'), knee - BELOW_KNEE),
  };
}
