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
}
