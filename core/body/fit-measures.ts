/** Which of the two base figures a fit body starts from. */
export type FitFigureKind = 'female' | 'male';

/**
 * Girths that may be given besides the five a fit body always needs; each that is left out is estimated from those.
 * m, as a tape lies.
 */
export interface FurtherGirths {
  readonly neck?: number;
  readonly topHip?: number;
  readonly thigh?: number;
  readonly midThigh?: number;
  readonly knee?: number;
  readonly calf?: number;
  readonly ankle?: number;
  readonly upperArm?: number;
  readonly elbow?: number;
  readonly wrist?: number;
}

/** What a fit body is asked to measure. m. */
export interface FitMeasures extends FurtherGirths {
  readonly stature: number;
  /** Around the fullest chest, arms away. */
  readonly bust: number;
  /** Below the breasts; of no effect on the male figure, whose chest is measured once. */
  readonly underbust: number;
  readonly waist: number;
  readonly hip: number;
  /** Female when left out. */
  readonly figure?: FitFigureKind;
}
