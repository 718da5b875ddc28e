import { LineBasicMaterial, MeshBasicMaterial, type Material, type ShaderMaterial } from 'three';
import { screenPalette } from '../../store/palette.ts';
import { screenColour } from '../cloth-material.ts';
import { skinMaterial } from '../skin-material.ts';

/** What a swatch and its table are painted with. */
export interface SwatchMaterials {
  readonly cloth: ShaderMaterial;
  readonly table: ShaderMaterial;
  readonly shadow: Material;
  readonly line: LineBasicMaterial;
}

/** Tones of the pinked swatches on the rail, light and shade. */
const CLOTH_TONES = [
  { lit: '#93a0ad', shade: '#39424c' },
  { lit: '#c9b6a4', shade: '#66574b' },
] as const;
const TABLE_TONE = { lit: '#efece5', shade: '#a9a498' } as const;

export function swatchMaterials(index: number): SwatchMaterials {
  return {
    cloth: skinMaterial(CLOTH_TONES[index % CLOTH_TONES.length]),
    table: skinMaterial(TABLE_TONE),
    shadow: new MeshBasicMaterial({
      color: screenColour(screenPalette.soft),
      transparent: true,
      opacity: 0.28,
      toneMapped: false,
      depthWrite: false,
      side: 2,
    }),
    line: new LineBasicMaterial({ color: screenColour(screenPalette.soft), toneMapped: false }),
  };
}
