import type { FieldId } from '../fields/field.ts';

/**
 * Colours that stand for no value on a ramp: what lies beyond the range, and the paper, pen and ink of a hatched place.
 * The first two keep a colour difference above 40 (CIE 1976) from every colour of viridis, cividis and blueRed. sRGB.
 */
export const OUTSIDE_COLOURS = {
  below: '#f08c00',
  above: '#e64ca6',
  blank: '#f7f5f0',
  stroke: '#8d8a84',
  /** Where nothing is amiss: cloth on the skin in a picture of gaps. */
  calmStroke: '#d9d5ca',
  ink: '#22262a',
} as const;

/** The pen of the hatch: calm where the missing value means that all is well. */
export const hatchStroke = (id: FieldId): string =>
  id === 'gap' ? OUTSIDE_COLOURS.calmStroke : OUTSIDE_COLOURS.stroke;
