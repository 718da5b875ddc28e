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
    'A disc of 300 mm laid on a round table of 180 mm, as in a drape test (ISO 9073-9, from memory). The drape coefficient is the share of the overhanging ring that the shadow still covers: 100 % for a board, little for a limp cloth. Folds pass through each other here if they meet.',
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
  drag: 'Drag to turn both.',
  picture: 'Save picture',
  none: 'Type or open a bench sheet first: a swatch needs weight, stretch and bending.',
  along: 'Strip cut along',
} as const;

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
  `Drape coefficient ${fixed(percentFromRatio(coefficient), 0)} %, ${foldCount} ${foldCount === 1 ? 'fold' : 'folds'}`;

/** `Overhang 28.1 mm; the bench read 28.0 mm (warp)`. */
export function overhangWords(overhang: number, bench: number | null, direction: Direction): string {
  const found = `Overhang ${fixed(mmFromMetres(overhang), 1)} mm`;
  return bench === null
    ? `${found} (${direction})`
    : `${found}; the bench read ${fixed(mmFromMetres(bench), 1)} mm (${direction})`;
}

/** `0.45 mm thick, 210 g/m² ...` is the card's; here only whether it lies still. */
export const swatchRestWords = (atRest: boolean, residual: number): string =>
  atRest
    ? `at rest, ${residualText(residual)} unbalanced`
    : `NOT AT REST: ${residualText(residual)} unbalanced`;
