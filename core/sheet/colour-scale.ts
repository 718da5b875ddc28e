import { interpolateCividis, interpolateRdBu, interpolateViridis } from 'd3-scale-chromatic';

/** Viridis and cividis run from low to high; blueRed is white at its middle, red above, blue below. */
export type RampName = 'viridis' | 'cividis' | 'blueRed';

/** Number of colours in a ramp. */
export const TEXEL_COUNT = 256;

/** What the two ends of a ramp stand for, in the field's SI unit. */
export interface ColourRange {
  readonly low: number;
  readonly high: number;
}

/** Where a value lies: on the ramp at `at` (0 at its low end, 1 at its high end), or outside it, or nowhere. */
export type RampPlace =
  { readonly kind: 'on'; readonly at: number } | { readonly kind: 'below' | 'above' | 'missing' };

const SAMPLERS: Readonly<Record<RampName, (at: number) => string>> = {
  viridis: interpolateViridis,
  cividis: interpolateCividis,
  blueRed: (at) => interpolateRdBu(1 - at),
};

/**
 * The colours of a ramp, dark to light or blue to red, as a look-up texture holds them.
 *
 * @returns sRGB with full opacity, 4 bytes per texel, 4·TEXEL_COUNT.
 * @see Smith & van der Walt (viridis, 2015); Nuñez, Anderton & Renslow, PLOS ONE 13 (2018) e0199239 (cividis);
 *   Brewer, ColorBrewer 2.0 (RdBu); values through d3-scale-chromatic.
 */
export function rampBytes(name: RampName): Uint8Array {
  const bytes = new Uint8Array(4 * TEXEL_COUNT);
  for (let texel = 0; texel < TEXEL_COUNT; texel++) {
    const [red, green, blue] = channelsOf(SAMPLERS[name](texel / (TEXEL_COUNT - 1)));
    bytes.set([red, green, blue, 255], 4 * texel);
  }
  return bytes;
}

/** Colour of one texel as `rgb(r g b)`, for swatches and the legend. */
export function texelColour(bytes: Uint8Array, texel: number): string {
  return `rgb(${bytes[4 * texel]!} ${bytes[4 * texel + 1]!} ${bytes[4 * texel + 2]!})`;
}

/** Where `value` lies on the ramp; a value that is no number is missing. */
export function placeOnRamp(range: ColourRange, value: number): RampPlace {
  if (Number.isNaN(value)) return { kind: 'missing' };
  if (value < range.low) return { kind: 'below' };
  if (value > range.high) return { kind: 'above' };
  return { kind: 'on', at: (value - range.low) / (range.high - range.low) };
}

/** Texel that shows a place on the ramp. */
export const texelAt = (at: number): number => Math.round(at * (TEXEL_COUNT - 1));

/** Value that a texel stands for: the way back from a colour to its number. */
export const valueOfTexel = (range: ColourRange, texel: number): number =>
  range.low + ((range.high - range.low) * texel) / (TEXEL_COUNT - 1);

/**
 * A range that can be divided by: finite and with its ends apart. Where they coincide, or are no numbers, `fallback`
 * stands in; ends the wrong way round are turned.
 */
export function soundRange(range: ColourRange, fallback: ColourRange): ColourRange {
  const { low, high } = range;
  if (!Number.isFinite(low) || !Number.isFinite(high) || low === high) return fallback;
  return low < high ? range : { low: high, high: low };
}

/** `#rrggbb` or `rgb(r, g, b)` as d3-scale-chromatic gives it -> three bytes. */
function channelsOf(colour: string): readonly [number, number, number] {
  if (colour.startsWith('#')) {
    const packed = Number.parseInt(colour.slice(1), 16);
    return [(packed >> 16) & 255, (packed >> 8) & 255, packed & 255];
  }
  const [red, green, blue] = colour.match(/\d+/g)!.map(Number);
  return [red!, green!, blue!];
}
