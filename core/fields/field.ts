/** The quantities that can be painted, in the order of the keys that choose them. */
export type FieldId =
  | 'skinPressure'
  | 'discPressure'
  | 'stretchAcross'
  | 'stretchAlong'
  | 'tensionAcross'
  | 'tensionAlong'
  | 'gap'
  | 'give'
  | 'gripUsed';

/** SI unit of a field's values. */
export type FieldUnit = 'Pa' | 'ratio' | 'N/m' | 'm';

/** Sequential: from zero up. Symmetric: about zero (differences, stretch that may be negative). */
export type FieldKind = 'sequential' | 'symmetric';

/** A named quantity on the finest cloth mesh. */
export interface Field {
  readonly id: FieldId;
  readonly unit: FieldUnit;
  readonly kind: FieldKind;
  /** V; 0 where `undefinedAt` is 1. */
  readonly values: Float64Array;
  /** 1 where the quantity has no meaning and must be hatched, not coloured; V. */
  readonly undefinedAt: Uint8Array;
  /** The values at the low and the high end of the coupling's band, V each; left out where it bears none. */
  readonly band?: FieldBand;
}

/** The same quantity at both ends of a band; low never above high, the value shown between them. */
export interface FieldBand {
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/** One number's band, in the unit of the number. */
export interface ValueBand {
  readonly low: number;
  readonly high: number;
}
