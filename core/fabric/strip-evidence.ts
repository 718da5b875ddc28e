/** Mean of the specimens at one extension. */
export interface MeanReading {
  /** Over gauge length, ratio. */
  readonly extension: number;
  /** Force per original width, N/m. */
  readonly tension: number;
  /** Standard deviation over the specimens (n - 1), N/m; null for one specimen. */
  readonly deviation: number | null;
  /** What a strip of the fitted law pulls there, N/m. */
  readonly fitted: number;
}

/** One branch of one direction: what was read, and what the fitted law gives back. */
export interface CurveEvidence {
  /** Rising in extension. */
  readonly readings: readonly MeanReading[];
  /** Every specimen as it was read: [extension ratio, N/m of original width], rising in extension. */
  readonly specimens: readonly (readonly (readonly [number, number])[])[];
  /** The virtual strip of the fitted law, evenly spaced from 0 to the last reading. */
  readonly fitted: { readonly extensions: Float64Array; readonly tensions: Float64Array };
  /** Root mean square of fitted - read, over the largest tension read; ratio. */
  readonly rms: number;
  /** The reading missed most; `miss` over the largest tension read, signed (fitted - read). */
  readonly worst: { readonly extension: number; readonly miss: number };
}

/** A strip pulled while its width was held. */
export interface HeldWidthEvidence {
  readonly direction: 'warp' | 'weft';
  readonly load: CurveEvidence;
}

/** Mean width of the specimens at one extension. */
export interface MeanWidth {
  readonly extension: number;
  /** Width over original width. */
  readonly ratio: number;
  /** Standard deviation over the specimens, ratio; null for one specimen. */
  readonly deviation: number | null;
  /** Width ratio of the virtual strip there. */
  readonly fitted: number;
}

/** The strip's width under load. */
export interface WidthEvidence {
  /** Empty where the width was not measured. */
  readonly readings: readonly MeanWidth[];
  readonly specimens: readonly (readonly (readonly [number, number])[])[];
  readonly fitted: { readonly extensions: Float64Array; readonly ratios: Float64Array };
  /** Root mean square of fitted - read, ratio; null where nothing was read. */
  readonly rms: number | null;
  /** True where a usual width was assumed, for want of readings. */
  readonly assumed: boolean;
}

/** What the strip keeps of the work or of the force put into it. Two different numbers: say which one is shown. */
export interface PowerLoss {
  /** From where the strip was let back, extension ratio. */
  readonly peak: number;
  /** (W_load - W_return) / W_load, ratio. */
  readonly byEnergy: number;
  /** (F_load - F_return) / F_load at an extension, ratio. */
  readonly byForce: readonly { readonly extension: number; readonly loss: number }[];
}

/** Force per original width at a stated extension ("modulus" in the trade), off the virtual strip. */
export interface Modulus {
  /** Ratio: 0.2, 0.4, 0.6, 0.8. */
  readonly extension: number;
  /** N/m. */
  readonly load: number;
  /** N/m; null without a return law. */
  readonly return: number | null;
  readonly beyondReadings: boolean;
}

/** All that the bench said of one direction, and how the law answers. */
export interface StripEvidence {
  readonly load: CurveEvidence;
  readonly return: CurveEvidence | null;
  readonly width: WidthEvidence;
  readonly loss: PowerLoss | null;
  readonly modulus: readonly Modulus[];
}
