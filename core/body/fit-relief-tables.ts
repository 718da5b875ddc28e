/**
 * Ridges and furrows of the two base figures, as data: from, to (degrees from the front, height), width, height; mm.
 * Hand-set by us from general anatomical knowledge, adjusted by eye on renders.
 */
import type { ReliefStroke } from './fit-relief.ts';

const stroke = (
  from: readonly [number, number],
  to: readonly [number, number],
  wide: number,
  high: number,
): ReliefStroke => ({ from, to, wide, high });

/** Collar bones with the hollow over them and the notch between, shoulder blades with the spine across them. */
// prettier-ignore
const BONES: readonly ReliefStroke[] = [
  stroke([  0, 1362], [ 86, 1352], 28,  6),
  stroke([ 20, 1394], [ 76, 1378], 28, -4),
  stroke([  0, 1366], [  0, 1416], 30, -2.5),
  stroke([146, 1345], [152, 1150], 66,  5),
  stroke([158, 1312], [ 98, 1345], 34,  3),
];

// prettier-ignore
export const FEMALE_RELIEF: readonly ReliefStroke[] = [
  ...BONES,
  stroke([  0,  950], [  0, 1180], 46, -1.5),
];

/** With the breast muscle and its lower edge, the furrow between, and the arch of the ribs. */
// prettier-ignore
export const MALE_RELIEF: readonly ReliefStroke[] = [
  ...BONES,
  stroke([  6, 1248], [ 72, 1300], 72, 11),
  stroke([  8, 1222], [ 62, 1240], 40,  5),
  stroke([  4, 1176], [ 72, 1196], 40, -2.5),
  stroke([  0, 1150], [  0, 1360], 44, -3),
  stroke([  0,  940], [  0, 1210], 48, -2),
];
