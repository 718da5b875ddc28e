/** Which closed section of the body the tube goes round. `whole`: the only one there is. */
export type TubeRegion = 'trunk' | 'leftLeg' | 'rightLeg' | 'whole';

/** A tube as a spec sheet gives it. m. */
export interface TubeSheet {
  readonly region: TubeRegion;
  /** Heights of the two hems as the wearer lays them. */
  readonly from: number;
  readonly to: number;
  /** Relaxed girths, each at its height on the body; at least one, rising. */
  readonly girths: readonly { readonly at: number; readonly relaxed: number }[];
  readonly relaxedLength: number;
  readonly warp: 'along' | 'around';
  /** Elastics sewn round it. */
  readonly bands?: readonly TubeBand[];
  /** Second layers bonded to it. */
  readonly linings?: readonly TubeLining[];
}

/** An elastic sewn round the tube: waistband, hem elastic, drawcord. m. */
export interface TubeBand {
  /** From the hem inwards, or with its middle at a height on the body as laid. */
  readonly at: 'upper' | 'lower' | number;
  /** Along the skin. */
  readonly width: number;
  /** Relaxed length, the whole way round. */
  readonly relaxed: number;
  /** [extension as a ratio, N of the whole band], rising; (0, 0) may be left out. */
  readonly curve: readonly (readonly [number, number])[];
}

/** A second layer bonded to the tube, cut to the same relaxed size. */
export interface TubeLining {
  /** Which of the garment's fabrics. */
  readonly fabric: number;
  /** Heights between which it lies; the whole tube if left out. m. */
  readonly from?: number;
  readonly to?: number;
  /** How far its warp is turned from the tube's, rad; 0 if left out. */
  readonly grain?: number;
}
