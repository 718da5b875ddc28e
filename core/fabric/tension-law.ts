/**
 * Law L (placeholder until fitted): energy per rest area of a knit under stretch along warp and weft and shear.
 */
export interface TensionLaw {
  /** Stretch ratios beyond which the law is extrapolated. */
  readonly measuredTo: { readonly warp: number; readonly weft: number };
}

/** What the fabric answers to one deformation. Reuse one across a loop. */
export interface TensionResponse {
  /** Energy per rest area, N/m. */
  energy: number;
  /** dW/dF, 6: by warp column (3), by weft column (3). Force per rest width, N/m. */
  readonly stress: Float64Array;
  /** d2W/dF2, row-major 6x6, N/m. */
  readonly stiffness: Float64Array;
  /** True where a yarn direction carries nothing. */
  slackWarp: boolean;
  slackWeft: boolean;
  /** True beyond the last reading of either direction. */
  beyondReadings: boolean;
}
