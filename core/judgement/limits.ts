import { PASCAL_PER_MMHG } from '../units/units.ts';

/** What a pressure on skin means to the wearer, from the least up. */
export type HoldLevel = 'none' | 'light' | 'firm' | 'shaping' | 'tight' | 'caution';

/** One band of pressure. */
export interface PressureBand {
  readonly level: HoldLevel;
  /** Lower end, Pa; the upper end is the next band's lower one. */
  readonly from: number;
  /** Who says so, short enough to stand beside the number. */
  readonly source: string;
}

const WOODHEAD = 'Anthropometry, Apparel Sizing and Design (Woodhead), ch. 13, table 13.5';

/**
 * Bands of pressure on skin, rising.
 *
 * @see Anthropometry, Apparel Sizing and Design (Woodhead Publishing), ch. 13, pp. 344-345, table 13.5: below 0.4 kPa
 *   not counted as pressure; 0.4-1.3 everyday comfortable; 1.3-2.0 upper edge for casual wear (both ends credited
 *   there to Kawabata 1980); 2.0-3.3 medical and shapewear; above 3.3 strong, medical only.
 * @see Landis 1930 as quoted in reviews: average capillary closure 32 mmHg (20-40 mmHg). A line to be careful at, no
 *   threshold of damage: time, shear and the depth of the bone matter as much.
 */
export const PRESSURE_BANDS: readonly PressureBand[] = [
  { level: 'none', from: 0, source: WOODHEAD },
  { level: 'light', from: 400, source: WOODHEAD },
  { level: 'firm', from: 1300, source: WOODHEAD },
  { level: 'shaping', from: 2000, source: WOODHEAD },
  { level: 'tight', from: 3300, source: WOODHEAD },
  { level: 'caution', from: 32 * PASCAL_PER_MMHG, source: 'capillary closure 32 mmHg, Landis 1930' },
];

/** The band a pressure falls in; below zero counts as none. */
export function bandOf(pressure: number): PressureBand {
  return PRESSURE_BANDS.findLast((band) => pressure >= band.from) ?? PRESSURE_BANDS[0]!;
}

/** From here on a place is listed as tight: where shaping begins, Pa. */
export const TIGHT_FROM = PRESSURE_BANDS.find((band) => band.level === 'shaping')!.from;

/** Cloth farther than this from the skin bridges: it holds nothing there, m. Common practice. */
export const BRIDGED_FROM = 1e-3;

/** How far an absolute pressure may be off on a person: the larger of a share and a floor in Pa. */
export const PRESSURE_BAND_SHARE = 0.3;
export const PRESSURE_BAND_FLOOR = 5 * PASCAL_PER_MMHG;

/**
 * Half-width of the band that an absolute pressure carries, Pa: 30 % or 5 mmHg, whichever is larger.
 * Common practice, from limits of agreement near -10 ... +6 mmHg between predicted and measured pressure on people.
 */
export const pressureBand = (pressure: number): number =>
  Math.max(PRESSURE_BAND_SHARE * Math.abs(pressure), PRESSURE_BAND_FLOOR);
