import type { FitFigureKind } from '../body/fit-measures.ts';
import { fitSliders, type AskedForm, type FitParameterName } from '../sheet/fit-sliders.ts';
import { houseChart } from '../sheet/house-chart.ts';
import { fixed } from '../sheet/number-format.ts';
import { sizeOf } from '../sheet/size-measures.ts';

/** All that our own form is asked for, as a cutter calls it. */
const PARAMETER_WORDS: Readonly<Record<FitParameterName, string>> = {
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
  legSpread: 'Feet apart',
  armAbduction: 'Arms away',
  thighGap: 'Thigh gap',
  lumbarFurrow: 'Back furrow',
  seatCleft: 'Seat cleft',
  bustSupport: 'Bust held up',
  relief: 'Bones shown',
};

/** `Bust`; a male form has a chest. */
export const parameterWord = (name: FitParameterName, figure: FitFigureKind): string =>
  name === 'bust' && figure === 'male' ? 'Chest' : PARAMETER_WORDS[name];

/** The leaf's parts, and the words of the first: our own form by its measures. */
export const FORM_WORDS = {
  parts: { form: 'Form', tape: 'Tape', flesh: 'Flesh' },
  partsName: 'Parts of the body leaf',
  groups: { trunk: 'Height and trunk', limbs: 'Legs and arms', shape: 'Stance and shape' },
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

/** What is said of a form tried otherwise: each of two measures, or how many. */
export function formTried(tried: AskedForm, opened: AskedForm): string[] {
  const figure = tried.measures.figure ?? 'female';
  const isOther = figure !== (opened.measures.figure ?? 'female');
  const before = new Map(fitSliders(opened).map((slider) => [slider.name, slider]));
  const changed = fitSliders(tried).filter(({ name, value, isEstimated }) => {
    const was = before.get(name);
    return was?.isEstimated !== isEstimated || (!isEstimated && Math.abs(was.value - value) > 0.005);
  });
  const size = changed.length > 2 || isOther ? sizeOf(houseChart(figure), tried.measures) : null;
  if (size !== null) return [`${FORM_WORDS.figures[figure]} form, house size ${size}`];
  if (isOther) return [`${FORM_WORDS.figures[figure]} form`];
  if (changed.length > 2) return [`form with ${changed.length} other measures`];
  return changed.map(({ name, value, unit, decimals, isEstimated }) => {
    const word = parameterWord(name, figure).toLowerCase();
    return isEstimated
      ? `${word} ${FORM_WORDS.estimated}`
      : `${word} ${fixed(value, decimals)}${unit === '°' ? '' : '\u00a0'}${unit}`;
  });
}
