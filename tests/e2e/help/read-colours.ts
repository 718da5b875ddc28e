import { PNG } from 'pngjs';
import {
  rampBytes,
  TEXEL_COUNT,
  valueOfTexel,
  type ColourRange,
  type RampName,
} from '../../../core/sheet/colour-scale.ts';

/** A picture as bytes, 4 per pixel. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly at: (x: number, y: number) => readonly [number, number, number];
}

export function readPng(bytes: Buffer): Pixels {
  const { width, height, data } = PNG.sync.read(bytes);
  return {
    width,
    height,
    at: (x, y) => {
      const i = 4 * (width * Math.round(y) + Math.round(x));
      return [data[i]!, data[i + 1]!, data[i + 2]!];
    },
  };
}

/** The value a colour stands for, or null where it is none of the ramp's (a line, a hatch, the bare form). */
export function valueOfColour(
  [red, green, blue]: readonly [number, number, number],
  ramp: RampName,
  range: ColourRange,
): number | null {
  const bytes = rampBytes(ramp);
  let best = 0;
  let least = Infinity;
  for (let texel = 0; texel < TEXEL_COUNT; texel++) {
    const away = Math.hypot(
      bytes[4 * texel]! - red,
      bytes[4 * texel + 1]! - green,
      bytes[4 * texel + 2]! - blue,
    );
    if (away < least) {
      least = away;
      best = texel;
    }
  }
  // Neighbouring texels lie about two steps apart; three leaves room for rounding.
  return least <= 3 ? valueOfTexel(range, best) : null;
}
