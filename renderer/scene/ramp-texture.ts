import { DataTexture, LinearFilter, NoColorSpace, RGBAFormat, UnsignedByteType } from 'three';
import { rampBytes, TEXEL_COUNT, type RampName } from '../../core/sheet/colour-scale.ts';

/**
 * A ramp as a look-up texture, one row of 256 texels.
 *
 * Its bytes are already sRGB and go to the screen untouched, so that the legend, drawn from the same bytes, shows the
 * same colours to the last bit.
 */
export function rampTexture(name: RampName): DataTexture {
  const texture = new DataTexture(rampBytes(name), TEXEL_COUNT, 1, RGBAFormat, UnsignedByteType);
  texture.colorSpace = NoColorSpace;
  texture.minFilter = LinearFilter;
  texture.magFilter = LinearFilter;
  texture.generateMipmaps = false;
  texture.needsUpdate = true;
  return texture;
}
