/** What a fit body is asked to measure. m. */
export interface FitMeasures {
  readonly stature: number;
  readonly bust: number;
  readonly underbust: number;
  readonly waist: number;
  readonly hip: number;
}
