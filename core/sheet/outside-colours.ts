/**
 * Colours that stand for no value on a ramp, unlike any colour of viridis, cividis or blueRed: what lies beyond the
 * range, and the paper, pen and ink of a hatched place. sRGB.
 */
export const OUTSIDE_COLOURS = {
  below: '#b9cbe4',
  above: '#d6336c',
  blank: '#f7f5f0',
  stroke: '#8d8a84',
  ink: '#22262a',
} as const;
