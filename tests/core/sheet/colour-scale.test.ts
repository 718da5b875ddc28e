import { assert, double, property } from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  placeOnRamp,
  rampBytes,
  soundRange,
  TEXEL_COUNT,
  texelAt,
  texelColour,
  valueOfTexel,
  type RampName,
} from '../../../core/sheet/colour-scale.ts';
import { OUTSIDE_COLOURS } from '../../../core/sheet/outside-colours.ts';

const RAMPS: readonly RampName[] = ['viridis', 'cividis', 'blueRed'];

const f = (t: number): number => (t > 216 / 24389 ? Math.cbrt(t) : (841 / 108) * t + 4 / 29);

/** CIE L*a*b* of an sRGB colour, white D65. @see IEC 61966-2-1 (sRGB), CIE 15 (L*a*b*). */
function lab([red, green, blue]: readonly number[]): readonly [number, number, number] {
  const [r, g, b] = [red!, green!, blue!].map((byte) => {
    const v = byte / 255;
    return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
  });
  const x = f((0.4124564 * r! + 0.3575761 * g! + 0.1804375 * b!) / 0.95047);
  const y = f(0.2126729 * r! + 0.7151522 * g! + 0.072175 * b!);
  const z = f((0.0193339 * r! + 0.119192 * g! + 0.9503041 * b!) / 1.08883);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

const texel = (bytes: Uint8Array, at: number): readonly number[] => [...bytes.subarray(4 * at, 4 * at + 3)];
const hex = (css: string): readonly number[] =>
  [1, 3, 5].map((start) => Number.parseInt(css.slice(start, start + 2), 16));

describe('ramps', () => {
  it('are the published ones at their ends and middle', () => {
    // Source: matplotlib's viridis, first, middle and last entry (from memory).
    const viridis = rampBytes('viridis');
    expect(texel(viridis, 0)).toEqual([68, 1, 84]);
    expect(texel(viridis, 128)).toEqual([33, 145, 140]);
    expect(texel(viridis, 255)).toEqual([253, 231, 37]);
    // Source: ColorBrewer 2.0, RdBu of eleven classes: #67001f ... #f7f7f7 ... #053061 (from memory); a smooth ramp
    // through them rounds the corner in the middle.
    const blueRed = rampBytes('blueRed');
    expect(texel(blueRed, 0)).toEqual([5, 48, 97]);
    expect(texel(blueRed, 255)).toEqual([103, 0, 31]);
    expect(Math.min(...texel(blueRed, 127))).toBeGreaterThan(225);
  });

  it.each(['viridis', 'cividis'] as const)('%s grows lighter from end to end', (name) => {
    const bytes = rampBytes(name);
    for (let at = 1; at < TEXEL_COUNT; at++) {
      // Bytes are rounded: a step may stand still or fall by less than half a unit of lightness.
      expect(lab(texel(bytes, at))[0]).toBeGreaterThan(lab(texel(bytes, at - 1))[0] - 0.5);
    }
    expect(lab(texel(bytes, 255))[0] - lab(texel(bytes, 0))[0]).toBeGreaterThan(60);
  });

  it('blueRed is darkest at its ends and equally so', () => {
    const bytes = rampBytes('blueRed');
    const lightness = (at: number): number => lab(texel(bytes, at))[0];
    for (const away of [20, 60, 100]) {
      expect(Math.abs(lightness(127 - away) - lightness(128 + away))).toBeLessThan(12);
      expect(lightness(127 - away)).toBeLessThan(lightness(127));
    }
  });

  it.each(['below', 'above'] as const)('no ramp shows the colour that stands for %s the range', (kind) => {
    // 40 in CIE 1976 is far beyond what may be taken for one another (about 2.3 is just noticeable: Mahy et al. 1994).
    const outside = lab(hex(OUTSIDE_COLOURS[kind]));
    for (const name of RAMPS) {
      const bytes = rampBytes(name);
      for (let at = 0; at < TEXEL_COUNT; at++) {
        const colour = lab(texel(bytes, at));
        expect(Math.hypot(...colour.map((value, k) => value - outside[k]!))).toBeGreaterThan(40);
      }
    }
  });

  it('writes a texel as CSS', () => {
    expect(texelColour(rampBytes('viridis'), 0)).toBe('rgb(68 1 84)');
  });
});

describe('from value to colour and back', () => {
  it('misses by less than 1/255 of the range', () => {
    assert(
      property(
        double({ min: -1e5, max: 1e5, noNaN: true }),
        double({ min: 1e-3, max: 1e6, noNaN: true }),
        double({ min: 0, max: 1, noNaN: true }),
        (low, span, share) => {
          const range = { low, high: low + span };
          const value = low + share * span;
          const place = placeOnRamp(range, value);
          if (place.kind !== 'on') return;
          expect(Math.abs(valueOfTexel(range, texelAt(place.at)) - value)).toBeLessThanOrEqual(span / 255);
        },
      ),
    );
  });

  it('tells below, above and missing apart', () => {
    const range = { low: 0, high: 10 };
    expect(placeOnRamp(range, -0.1).kind).toBe('below');
    expect(placeOnRamp(range, 10.1).kind).toBe('above');
    expect(placeOnRamp(range, Infinity).kind).toBe('above');
    expect(placeOnRamp(range, -Infinity).kind).toBe('below');
    expect(placeOnRamp(range, Number.NaN).kind).toBe('missing');
    expect(placeOnRamp(range, 0)).toEqual({ kind: 'on', at: 0 });
    expect(placeOnRamp(range, 10)).toEqual({ kind: 'on', at: 1 });
  });
});

describe('a sound range', () => {
  const fallback = { low: 0, high: 1 };
  it.each([
    [
      { low: 2, high: 5 },
      { low: 2, high: 5 },
    ],
    [
      { low: 5, high: 2 },
      { low: 2, high: 5 },
    ],
    [{ low: 3, high: 3 }, fallback],
    [{ low: Number.NaN, high: 3 }, fallback],
    [{ low: 0, high: Infinity }, fallback],
  ])('%j becomes %j', (typed, sound) => {
    expect(soundRange(typed, fallback)).toEqual(sound);
  });
});
