/** A girth or length that a block's sheet may give, by its name. */
export interface SheetMeasure {
  readonly name: string;
  readonly needed: boolean;
}

/** What a block's sheet gives. */
export interface BlockKind {
  /** Whole relaxed girths (of one leg from the thigh down), highest first. */
  readonly levels: readonly SheetMeasure[];
  readonly lengths: readonly SheetMeasure[];
  /** Edges that the wearer holds at a height: `laid` may give it. */
  readonly laid: readonly string[];
}

const needed = (...names: readonly string[]): SheetMeasure[] => names.map((name) => ({ name, needed: true }));
const optional = (...names: readonly string[]): SheetMeasure[] =>
  names.map((name) => ({ name, needed: false }));

/** Every block that can be drafted from a spec sheet. */
export const BLOCKS = {
  /** Waist to the thigh. */
  short: {
    levels: [
      ...needed('waist'),
      ...optional('topHip'),
      ...needed('hip', 'thigh'),
      ...optional('midThigh'),
      ...needed('hem'),
    ],
    lengths: needed('side', 'frontRise', 'backRise', 'inseam'),
    laid: ['waist', 'hem'],
  },
  /** Waist to the ankle, or to wherever the inseam reaches. */
  legging: {
    levels: [
      ...needed('waist'),
      ...optional('topHip'),
      ...needed('hip', 'thigh'),
      ...optional('midThigh', 'knee', 'calf', 'ankle'),
      ...needed('hem'),
    ],
    lengths: needed('side', 'frontRise', 'backRise', 'inseam'),
    laid: ['waist', 'hem'],
  },
  /** Ankle to below the knee, of the left leg; the foot is left out. */
  stocking: {
    levels: [...needed('D', 'C'), ...optional('B1'), ...needed('B')],
    lengths: needed('length'),
    laid: ['D', 'C', 'B1', 'B'],
  },
  /** Waist to the leg line, with a gusset of its own. `legOpening` is one leg's, all round. */
  brief: {
    levels: [...needed('waist'), ...optional('topHip', 'hip'), ...needed('legOpening')],
    lengths: [
      ...needed('side', 'frontLength', 'gussetLength', 'backLength'),
      ...optional('gussetFront', 'gussetWidth', 'gussetBack'),
    ],
    laid: ['waist', 'legSide'],
  },
  /** A tube round the trunk: under the bust, and as far down as its side seam reaches. */
  waistShaper: {
    levels: [...needed('top', 'waist'), ...optional('topHip', 'hip'), ...needed('hem')],
    lengths: needed('side'),
    laid: ['top', 'hem'],
  },
} as const satisfies Readonly<Record<string, BlockKind>>;

export type BlockName = keyof typeof BLOCKS;

/** Cut flat and sewn, or knit to shape: then the unstretched shape is the body's own, scaled. */
export type Construction = 'cut' | 'moulded';

/** A garment as a spec sheet gives it: relaxed measures of the sewn garment lying flat; m. */
export interface BlockSheet {
  readonly block: BlockName;
  /** By level as {@link BLOCKS} names them. */
  readonly girths: Readonly<Record<string, number>>;
  readonly lengths: Readonly<Record<string, number>>;
  /** Heights on the body at which the wearer holds edges; where left out, the body's own. */
  readonly laid?: Readonly<Record<string, number>>;
  readonly construction: Construction;
}
