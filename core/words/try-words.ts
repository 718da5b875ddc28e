import type { FitMeasures } from '../body/fit-measures.ts';
import type { FitShape } from '../body/fit-shape.ts';
import { isBlock, relaxedGirths, type GarmentSheet } from '../block/garment-sheet.ts';
import { centimetreText, fixed, signed } from '../sheet/number-format.ts';
import { SKIN_FRICTION } from '../study/skin-friction.ts';
import type { FleshChoice, Study, StudyChange, StudyProgress } from '../study/study.ts';
import { formTried } from './form-words.ts';
import { measureName, SPEC_WORDS } from './spec-words.ts';
import { fabricLetter, residualText } from './stage-words.ts';
import { FRICTION_FROM_WORDS } from './study-words.ts';

/** What of a study the tries are counted from. */
export interface TriedStudy extends Pick<Study, 'branch'> {
  readonly garment: GarmentSheet;
  /** Of our own form; null for a mesh. */
  readonly measures?: FitMeasures | null;
  readonly shape?: FitShape;
}

/** Headings and words of the leaf on which a study is tried otherwise. */
export const TRY_WORDS = {
  friction: 'Friction on skin',
  cut: 'Cut',
  cutUnit: '%',
  upper: 'Upper hem laid at',
  lower: 'Lower hem laid at',
  cm: 'cm up',
  together: 'both hems together',
  flesh: 'Flesh',
  foundation: 'foundation',
  layer: 'layer that bulges',
  poisson: 'Poisson’s ratio of the flesh',
  skin: 'Skin',
  slides: 'slides',
  held: 'held',
  curve: 'Curve',
  load: 'pulled on',
  return: 'let back',
  asSheet: 'as the sheet says',
  back: (value: string) => `sheet: ${value}`,
  resetAll: 'Back to the sheet',
  save: 'Save as study',
  savedBeside: (name: string) => `Saved ${name}. Keep it beside the fabric sheets that it names.`,
  tried: 'Tried',
  settling: 'Settling again',
  stop: 'Stop',
} as const;

/** Marks on the slider of friction: each stands for its published reading. */
export const FRICTION_MARKS = (['dry', 'damp'] as const).map((from) => ({
  from,
  at: SKIN_FRICTION[from].coefficient,
  word: `${from} ${fixed(SKIN_FRICTION[from].coefficient, 2)}`,
}));

/** Where a coefficient on a mark comes from; what a typed one is. */
export function frictionSource(coefficient: number, asSheet: number): string {
  const mark = FRICTION_MARKS.find(({ at }) => at === coefficient);
  if (mark === undefined)
    return coefficient === asSheet
      ? 'As typed in the study, not a reading.'
      : 'A number of your own, not a reading.';
  const { low, high, source } = SKIN_FRICTION[mark.from];
  return `${source.charAt(0).toUpperCase()}${source.slice(1)}; ${low} to ${high} on people.`;
}

/** `0.30, dry skin` */
export function frictionText({ coefficient, from }: NonNullable<StudyChange['friction']>): string {
  const number = fixed(coefficient, 2);
  return from === 'typed' ? number : `${number}, ${FRICTION_FROM_WORDS[from]}`;
}

/** `4 % smaller`, `as cut`, `2.5 % larger`. */
export function cutText(girthScale: number): string {
  const percent = 100 * Math.abs(1 - girthScale);
  if (percent < 0.05) return 'as cut';
  return `${fixed(percent, percent % 1 < 0.05 || percent % 1 > 0.95 ? 0 : 1)}\u00a0% ${girthScale < 1 ? 'smaller' : 'larger'}`;
}

/** `narrowest 57.0 to 54.7 cm (−2.3)`: what a cut changes there, all the way round. */
export function cutDetail(girthScale: number, { garment }: Pick<TriedStudy, 'garment'>): string {
  const narrowest = Math.min(...relaxedGirths(garment));
  const from = fixed(100 * narrowest, 1);
  if (Math.abs(1 - girthScale) < 5e-4) return `narrowest ${from}\u00a0cm around`;
  const change = signed(100 * narrowest * (girthScale - 1), 1);
  return `narrowest ${from} to ${fixed(100 * narrowest * girthScale, 1)}\u00a0cm (${change})`;
}

/** `1.5 cm higher`, `as laid`. */
export function shiftText(metres: number): string {
  if (Math.abs(metres) < 5e-4) return 'as the sheet says';
  return `${centimetreText(Math.abs(metres))} ${metres > 0 ? 'higher' : 'lower'}`;
}

/** `foundation`, or the layer with the ends of its bracket that are taken. */
export function fleshShort(flesh: FleshChoice): string {
  if (flesh.kind === 'foundation') return TRY_WORDS.foundation;
  return `layer (Poisson’s ratio ${flesh.poisson}, skin ${TRY_WORDS[flesh.skin]})`;
}

export const fleshText = (flesh: FleshChoice): string => `flesh ${fleshShort(flesh)}`;

/** How far a try has come, for the corner of the stage. */
export function tryProgress(progress: StudyProgress, fabrics: readonly { readonly id: string }[]): string {
  if (progress.step !== 'settle') return `${TRY_WORDS.settling} …`;
  const { fabricId, settle } = progress;
  const letter = fabricLetter(fabrics.findIndex(({ id }) => id === fabricId));
  return `${letter} settles again, ${residualText(settle.residual)} unbalanced`;
}

/** What is tried, one phrase each, in the order of work: `waist 78.0 cm`; `friction 0.30, dry skin`; `cut 4 % smaller`. */
export function triedParts(
  tried: StudyChange,
  { garment, measures, shape = {} }: Pick<TriedStudy, 'garment' | 'measures' | 'shape'>,
): string[] {
  const { friction, girthScale, flesh, branch, tape, tissue } = tried;
  return [
    ...((tried.measures ?? tried.shape) && measures
      ? formTried({ measures, shape, ...tried }, { measures, shape })
      : []),
    ...(tissue ? ['tissue corrected'] : []),
    ...(tape ? ['tape laid by hand'] : []),
    ...(friction ? [`friction ${frictionText(friction)}`] : []),
    ...(girthScale === undefined ? [] : [`cut ${cutText(girthScale)}`]),
    ...laidParts(tried, garment),
    ...blockParts(tried, garment),
    ...(flesh ? [fleshText(flesh)] : []),
    ...(branch ? [branch === 'load' ? 'load curve' : 'return curve'] : []),
  ];
}

function laidParts({ from, to }: StudyChange, garment: TriedStudy['garment']): string[] {
  if (isBlock(garment)) return [];
  const lower = (from ?? garment.from) - garment.from;
  const upper = (to ?? garment.to) - garment.to;
  if (Math.abs(lower) < 5e-4 && Math.abs(upper) < 5e-4) return [];
  if (Math.abs(lower - upper) < 5e-4) return [`laid ${shiftText(upper)}`];
  return [
    ...(Math.abs(upper) < 5e-4 ? [] : [`upper hem ${shiftText(upper)}`]),
    ...(Math.abs(lower) < 5e-4 ? [] : [`lower hem ${shiftText(lower)}`]),
  ];
}

/** `waist 60.0 cm`, `inseam 14.0 cm`, `waist held at 104.0 cm`, `knit to shape`. */
function blockParts({ block }: StudyChange, garment: TriedStudy['garment']): string[] {
  if (block === undefined || !isBlock(garment)) return [];
  const { girths = {}, lengths = {}, laid = {}, construction } = block;
  return [
    ...(construction ? [SPEC_WORDS.constructions[construction]] : []),
    ...measureParts(girths, 'girth left out'),
    ...measureParts(lengths, 'length left out'),
    ...measureParts(laid, 'held as the body has it', ' held at '),
  ];
}

const measureParts = (
  measures: Readonly<Record<string, number | null>>,
  none: string,
  between = ' ',
): string[] =>
  Object.entries(measures).map(([name, value]) =>
    value === null
      ? `${measureName(name)} ${none}`
      : `${measureName(name)}${between}${centimetreText(value)}`,
  );

/** `Tried: friction 0.30, dry skin · cut 4 % smaller`; empty where nothing is. For the stage and for pictures. */
export function triedLine(tried: StudyChange, opened: Pick<TriedStudy, 'garment' | 'measures'>): string {
  const parts = triedParts(tried, opened);
  return parts.length === 0 ? '' : `${TRY_WORDS.tried}: ${parts.join(' · ')}`;
}
