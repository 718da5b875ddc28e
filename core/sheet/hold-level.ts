import { bandOf, PRESSURE_BANDS, type HoldLevel } from '../judgement/limits.ts';
import type { ColourRange } from './colour-scale.ts';

/** What a pressure on skin (Pa) is called. */
export const holdLevelAt = (pressure: number): HoldLevel => bandOf(pressure).level;

/** A band of pressure on the tape: ends from 0 (low end of the range) to 1. */
export interface HoldStretch {
  readonly level: HoldLevel;
  readonly from: number;
  readonly to: number;
}

/** The part of each band of pressure that lies inside a range, rising. */
export function holdStretches({ low, high }: ColourRange): readonly HoldStretch[] {
  const placeOf = (pressure: number): number => Math.min(1, Math.max(0, (pressure - low) / (high - low)));
  return PRESSURE_BANDS.map(({ level, from }, index) => ({
    level,
    from: placeOf(from),
    to: placeOf(PRESSURE_BANDS[index + 1]?.from ?? Infinity),
  })).filter(({ from, to }) => to > from);
}
