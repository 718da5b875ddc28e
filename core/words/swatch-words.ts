import type { CantileverRest, DrapeRest, SwatchWish } from '../swatch/swatch.ts';

/** The tests a swatch is put to. */
export const SWATCH_TEST_WORDS: Readonly<
  Record<SwatchWish['test'], { readonly name: string; readonly what: string }>
> = {
  drape: {
    name: 'Round table',
    what: 'A disc of fabric between two smaller discs; its free ring falls and folds (after ISO 9073-9).',
  },
  cantilever: {
    name: 'Over the edge',
    what: 'A strip pushed over an edge until its end touches the slope (after ISO 9073-7).',
  },
};

/** What has been exaggerated, and how often over. */
export interface Exaggeration {
  readonly of: 'bending' | 'thickness';
  /** 1 is true to the bench. */
  readonly factor: number;
}

const EXAGGERATED_WORDS: Readonly<Record<Exaggeration['of'], string>> = {
  bending: 'bending',
  thickness: 'thickness',
};

/** The mark that stands on a picture that is not true to the bench; null where it is. */
export function exaggeratedMark({ of, factor }: Exaggeration): string | null {
  if (factor === 1) return null;
  const times = factor > 1 ? `× ${trimmed(factor)}` : `÷ ${trimmed(1 / factor)}`;
  return `Exaggerated: ${EXAGGERATED_WORDS[of]} ${times}`;
}

/** Two digits, no trailing zeros. */
const trimmed = (value: number): string => String(Number(value.toPrecision(2)));

/** `Drape coefficient 31 %, 11 folds`. */
export function drapeWords({ drapeCoefficient, foldCount }: DrapeRest): string {
  const folds = foldCount === 0 ? 'no folds' : foldCount === 1 ? '1 fold' : `${foldCount} folds`;
  return `Drape coefficient ${(100 * drapeCoefficient).toFixed(0)} %, ${folds}`;
}

/** `Overhang 25.9 mm`. */
export const cantileverWords = ({ overhang }: CantileverRest): string =>
  `Overhang ${(1000 * overhang).toFixed(1)} mm`;

/** What a reader must know of any draped shape. */
export const DRAPE_REMARKS = {
  shape:
    'Cloth falls into one of several folded shapes, here as on the table. Another fall may differ by a few points and by a fold or two.',
  folds: 'Folds may pass through each other: the picture knows the table, not cloth on cloth.',
  specimen: (percent: number): string | null => {
    if (percent < 30)
      return 'Below 30 % the standard takes a smaller specimen, 240 mm across (from memory of ISO 9073-9).';
    if (percent > 85)
      return 'Above 85 % the standard takes a larger specimen, 360 mm across (from memory of ISO 9073-9).';
    return null;
  },
  notAtRest: 'The cloth still moves: the shape is near, but not at rest.',
} as const;
