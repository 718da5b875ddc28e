import type { FitFigureKind, FitMeasures } from '../body/fit-measures.ts';
import { isNeeded, type FitMeasureName } from '../sheet/fit-sliders.ts';
import { houseChart } from '../sheet/house-chart.ts';
import { centimetreText, signed } from '../sheet/number-format.ts';
import { sizeOf } from '../sheet/size-measures.ts';

/** Measures of our own form as a cutter calls them. */
export const MEASURE_WORDS: Readonly<Record<FitMeasureName, string>> = {
  stature: 'Height',
  neck: 'Neck',
  bust: 'Bust',
  underbust: 'Under-bust',
  waist: 'Waist',
  topHip: 'High hip',
  hip: 'Hip',
  thigh: 'Thigh',
  midThigh: 'Mid thigh',
  knee: 'Knee',
  calf: 'Calf',
  ankle: 'Ankle',
  upperArm: 'Upper arm',
  elbow: 'Elbow',
  wrist: 'Wrist',
};

/** `Bust`; a male form has a chest. */
export const measureWord = (name: FitMeasureName, figure: FitFigureKind): string =>
  name === 'bust' && figure === 'male' ? 'Chest' : MEASURE_WORDS[name];

/** The leaf's parts, and the words of the first: our own form by its measures. */
export const FORM_WORDS = {
  parts: { form: 'Form', tape: 'Tape', flesh: 'Flesh' },
  partsName: 'Parts of the body leaf',
  groups: { trunk: 'Height and trunk', limbs: 'Legs and arms', stance: 'Stance', shape: 'Shape' },
  figure: 'Figure',
  figures: { female: 'female', male: 'male' },
  size: 'Size',
  noSize: 'own measures',
  invented: 'invented',
  openChart: 'Open a chart',
  ownChart: 'House sizes',
  girths: 'Girths in cm, all the way round; the height above the floor. Light: estimated from the others.',
  estimated: 'estimated',
  back: (name: string, value: string) => `${name}: back to ${value}`,
  estimate: (name: string) => `${name}: estimate it from the others`,
  mesh: 'A form read from a file. Its measures are its own; the tape tells them.',
} as const;

/** What is said of measures tried otherwise: each of two, or how many. */
export function measuresTried(tried: FitMeasures, opened: FitMeasures): string[] {
  const names = Object.keys(MEASURE_WORDS).filter((name): name is FitMeasureName => name in MEASURE_WORDS);
  const changed = names.filter((name) => Math.abs((tried[name] ?? 0) - (opened[name] ?? 0)) > 5e-5);
  const figure = tried.figure ?? 'female';
  const isOther = figure !== (opened.figure ?? 'female');
  const size = changed.length > 2 || isOther ? sizeOf(houseChart(figure), tried) : null;
  if (size !== null) return [`${FORM_WORDS.figures[figure]} form, house size ${size}`];
  if (isOther) return [`${FORM_WORDS.figures[figure]} form`];
  if (changed.length > 2) return [`form with ${changed.length} other measures`];
  return changed.map((name) => {
    const word = measureWord(name, figure).toLowerCase();
    const now = tried[name];
    if (now === undefined) return `${word} estimated`;
    const before = opened[name];
    const change = before === undefined || !isNeeded(name) ? '' : ` (${signed(100 * (now - before), 1)})`;
    return `${word} ${centimetreText(now)}${change}`;
  });
}
