/** Heights of the body at which a sheet may give a relaxed girth; `hem` is where the garment ends. */
export const BLOCK_LEVELS = [
  'waist',
  'topHip',
  'hip',
  'thigh',
  'midThigh',
  'knee',
  'calf',
  'ankle',
  'hem',
] as const;
export type BlockLevel = (typeof BLOCK_LEVELS)[number];

/** A garment with legs as a spec sheet gives it: relaxed measures of the sewn garment lying flat; m. */
export interface TrouserSheet {
  /** Whole girths; of one leg from the thigh down. `waist`, `hip`, `thigh` and `hem` are needed. */
  readonly girths: Readonly<Partial<Record<BlockLevel, number>>>;
  readonly lengths: {
    /** Along the side seam from waist to hem. */
    readonly side: number;
    /** Along centre front and centre back from the waist to the crotch. */
    readonly frontRise: number;
    readonly backRise: number;
    readonly inseam: number;
  };
  /** Where the wearer holds waist and hem, heights on the body; where left out, the body's waist and as far down as the inseam reaches. */
  readonly laid?: { readonly waist?: number; readonly hem?: number };
}
