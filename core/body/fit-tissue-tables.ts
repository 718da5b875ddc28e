/**
 * How deep bone or a firm layer lies under the skin of the fit body, mm, for a figure of stature 1680 mm.
 *
 * Estimates recalled from general anatomical knowledge, meant for relative softness only; nothing is measured.
 */

/** Trunk: y, then the depth at 0, 30, 60, 90, 120, 150 and 180 degrees from the centre front. */
// prettier-ignore
export const TRUNK_TISSUE: readonly (readonly number[])[] = [
  [ 745, 30, 50, 50, 40, 60, 66, 40],
  [ 800, 22, 44, 48, 24, 60, 72, 34],
  [ 850, 36, 40, 38, 24, 58, 72, 26],
  [ 900, 48, 40, 28, 28, 48, 52, 15],
  [ 940, 56, 42, 16, 15, 32, 36, 13],
  [ 970, 60, 46, 15, 12, 22, 26, 13],
  [1010, 60, 55, 40, 26, 28, 30, 14],
  [1045, 55, 52, 44, 34, 32, 30, 14],
  [1085, 24, 20, 13, 11, 15, 22, 10],
  [1130,  9, 12, 11, 10, 13, 18,  8],
  [1210,  7, 15, 14, 12, 14, 16,  8],
  [1285,  7, 18, 20, 14, 16, 14,  8],
  [1335,  8, 11, 10,  8, 13, 14,  8],
  [1370, 10, 12, 12, 14, 18, 16,  9],
  [1455, 14, 15, 17, 18, 20, 16, 10],
];

/** Leg: y, then front, lateral, back, medial. */
// prettier-ignore
export const LEG_TISSUE: readonly (readonly number[])[] = [
  [ 80,  5,  5,  8,  5],
  [120,  5,  6, 12,  5],
  [225,  5, 12, 25,  8],
  [340,  5, 20, 45, 14],
  [390,  6, 18, 40, 11],
  [430,  7, 12, 30,  8],
  [468,  6, 10, 26, 12],
  [510, 24, 20, 36, 30],
  [625, 45, 40, 55, 50],
  [755, 55, 45, 65, 60],
];

/** Arm: v along the arm, then front, outer, back, inner. */
// prettier-ignore
export const ARM_TISSUE: readonly (readonly number[])[] = [
  [-540,  5,  4,  4,  4],
  [-490,  8,  6,  6,  6],
  [-370, 18, 12, 10, 16],
  [-310, 14,  6,  4,  8],
  [-270, 14,  9, 12, 10],
  [-140, 24, 16, 24, 22],
  [ -75, 22, 18, 20, 22],
  [  30, 14, 12, 14, 14],
];
