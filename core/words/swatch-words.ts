import type { Direction } from '../fabric/fabric.ts';
import { fixed } from '../sheet/number-format.ts';
import type { SwatchProgress, SwatchWish } from '../swatch/swatch.ts';
import { mmFromMetres, percentFromRatio } from '../units/units.ts';
import { residualText } from './stage-words.ts';

/** The two tests, as they are chosen. */
export const SWATCH_TEST_WORDS: Readonly<Record<SwatchWish['test'], string>> = {
  drape: 'Over a round table',
  cantilever: 'Over an edge',
};

export const SWATCH_TEST_ORDER: readonly SwatchWish['test'][] = ['drape', 'cantilever'];

/** What each test does, and where it comes from. */
export const SWATCH_TEST_LINES: Readonly<Record<SwatchWish['test'], string>> = {
  drape:
    'A disc of 300 mm held between two round tables of 180 mm, as in a drape test (after ISO 9073-9, from memory). The drape coefficient is the share of the free ring that its shadow still covers: 100 % for a board, little for a limp cloth.',
  cantilever:
    'A strip pushed over an edge until its end touches the slope of 41.5 degrees, as on the bench: the same overhang must come back.',
};

export const SWATCH_WORDS = {
  thickness: 'Thickness',
  bending: 'Stiffness in bending',
  asMeasured: 'as measured',
  times: (factor: number) => `× ${factor}`,
  exaggeratedMark: 'exaggerated',
  stop: 'Stop',
  goOn: 'Go on',
  stopped: 'Stopped: what lies here is older than what is asked for.',
  straight: 'Turn back',
  drag: 'Drag to turn.',
  picture: 'Save picture',
  none: 'Type or open a bench sheet first: a swatch needs weight, stretch and bending.',
  along: 'Strip cut along',
} as const;

/** What a reader must know of any draped shape. */
export const DRAPE_REMARKS = [
  'Cloth falls into one of several shapes. Another fall, or a finer mesh, may differ by a few points and by a fold or two.',
  'Folds may pass through each other: the computer knows the table, not cloth on cloth.',
] as const;

/** What the standard would have done with so limp or so stiff a cloth; null where the specimen is the right one. */
export function specimenRemark(coefficient: number): string | null {
  if (coefficient < 0.3) return 'Below 30 % the standard takes a disc of 240 mm (from memory).';
  if (coefficient > 0.85) return 'Above 85 % the standard takes a disc of 360 mm (from memory).';
  return null;
}

/** `thickness × 8, exaggerated`: stands on every picture where a slider is not at 1. */
export function exaggerationWords(thicknessFactor: number, bendingFactor: number): string | null {
  const parts = [
    thicknessFactor === 1 ? null : `thickness × ${thicknessFactor}`,
    bendingFactor === 1 ? null : `bending × ${bendingFactor}`,
  ].filter((part) => part !== null);
  return parts.length === 0 ? null : `${parts.join(', ')}: exaggerated, not this fabric`;
}

export const swatchProgressWords = ({ level, levelCount, iteration, residual }: SwatchProgress): string =>
  `settles: mesh ${level + 1} of ${levelCount}, step ${iteration}, unbalanced ${residualText(residual)}`;

/** `Drape coefficient 34 %, 7 folds`. */
export const drapeWords = (coefficient: number, foldCount: number): string =>
  `Drape coefficient ${fixed(percentFromRatio(coefficient), 0)} %, ${foldCount === 0 ? 'no' : foldCount} ${foldCount === 1 ? 'fold' : 'folds'}`;

/** `Overhang 28.1 mm; the bench read 28.0 mm (warp)`. */
export function overhangWords(overhang: number, bench: number | null, direction: Direction): string {
  const found = `Overhang ${fixed(mmFromMetres(overhang), 1)} mm`;
  return bench === null
    ? `${found} (${direction})`
    : `${found}; the bench read ${fixed(mmFromMetres(bench), 1)} mm (${direction})`;
}

/** Whether it lies still. */
export const swatchRestWords = (atRest: boolean, residual: number): string =>
  atRest
    ? `at rest, ${residualText(residual)} unbalanced`
    : `NOT AT REST: ${residualText(residual)} unbalanced`;
