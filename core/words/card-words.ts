import type { Source } from '../sheet/bench-sources.ts';
import type { DerivedInput, DerivedLabel, DerivedNumber, InputName } from '../sheet/derived-number.ts';
import type { ThicknessComparison } from '../sheet/derived-weight.ts';
import { fixed } from '../sheet/number-format.ts';
import { kPaFromPascals } from '../units/units.ts';

/** What each derived number is called. */
export const DERIVED_WORDS: Readonly<Record<DerivedLabel, string>> = {
  arealDensity: 'Areal density',
  thickness: 'Thickness',
  bulkDensity: 'Bulk density',
  bendingLength: 'Bending length',
  bendingRigidity: 'Bending rigidity',
  overallRigidity: 'Overall bending rigidity',
  tension: 'Tension, pulled out',
  returnTension: 'Tension, let back',
  stretchAtLoad: 'Stretch',
  lossByEnergy: 'Power loss by energy',
  lossByForce: 'Power loss by force',
  growth: 'Growth on the way back',
  coupling: 'Coupling of warp and weft',
  greatestStretch: 'Stretches most',
};

/** What goes into a derived number. */
export const INPUT_WORDS: Readonly<Record<InputName, string>> = {
  stripMass: 'mass of one strip',
  massTogether: 'mass of all strips together',
  stripCount: 'strips',
  stripLength: 'length of a strip',
  stripWidth: 'width of a strip',
  thickness: 'thickness',
  footPressure: 'pressure of the foot',
  arealDensity: 'areal density',
  gravity: 'standard gravity',
  overhang: 'overhang',
  slope: 'slope of the tester',
  elasticaFactor: 'bending length over overhang, exact heavy elastica',
  loopStrip: 'length of the looped strip',
  loopLength: 'height of a loop without weight',
  loopHeight: 'height of the heart loop',
  bendingLength: 'bending length',
  bendingRigidity: 'bending rigidity',
  force: 'force read on the strip',
  loopForce: 'force read on both legs of the loop',
  testWidth: 'width of the unstretched strip',
  gripTravel: 'travel of the grips',
  circumference: 'circumference of the loop',
  lastReading: 'last reading at',
  cycle: 'cycle',
  statedLoad: 'load per width',
  peakStretch: 'let back from',
  workTaken: 'work taken, per area',
  workReturned: 'work given back, per area',
  tensionOut: 'tension on the way out',
  tensionBack: 'tension on the way back',
  ceasesToPull: 'extension at which the strip ceases to pull on the way back',
  couplingLow: 'low end of the band',
  couplingHigh: 'high end of the band',
  heldWidthReadings: 'readings with the width held',
  widthReadings: 'width readings',
  secantStiffness: 'stiffness to there',
  secantContraction: 'narrowing over stretch to there (in logarithms)',
  secantAt: 'strips compared at',
  couplingFactor: 'factor on the formula’s value that guards or a held width ask for',
  stretchAtLoad: 'stretch',
  saidGreatest: 'said on the sheet',
};

const SEEN_WORDS: Readonly<Record<Source['seen'], string>> = {
  memory: ' (from memory)',
  excerpt: ' (seen in excerpts)',
  arithmetic: '',
};

/** `ISO 3801:1977, method 5 (from memory)` */
export const sourceText = ({ name, part, seen }: Source): string =>
  `${name}${part === null ? '' : `, ${part}`}${SEEN_WORDS[seen]}`;

/** What stands where a number has no standard. */
export const NO_STANDARD_WORDS = 'No standard is named on the sheet.';

/** `Tension, pulled out, at 20 %`: what a number is, without its direction. */
export const kindText = ({ label, at }: Pick<DerivedNumber, 'label' | 'at'>): string =>
  at === null ? DERIVED_WORDS[label] : `${DERIVED_WORDS[label]}, ${placeWord(label)} ${at}`;

/** `Bending length, warp` */
export const derivedText = (number: Pick<DerivedNumber, 'label' | 'at' | 'direction'>): string =>
  number.direction === null ? kindText(number) : `${kindText(number)}, ${number.direction}`;

const placeWord = (label: DerivedLabel): string =>
  label === 'stretchAtLoad' || label === 'thickness' || label === 'greatestStretch' ? 'under' : 'at';

/** `mass of one strip, warp` */
export const inputText = ({ what, direction }: Pick<DerivedInput, 'what' | 'direction'>): string =>
  direction === null ? INPUT_WORDS[what] : `${INPUT_WORDS[what]}, ${direction}`;

/** `2.098 g, 3 readings, deviation 0.0124 g` */
export function inputValueText({ value, count, deviation }: DerivedInput): string {
  if (count === null) return value;
  const readings = count === 1 ? 'one reading' : `mean of ${count}`;
  return `${value}, ${readings}${deviation === null ? '' : `, standard deviation ${deviation}`}`;
}

/** Above and beside a number's works. */
export const DERIVED_PART_WORDS = {
  show: 'How it was worked out',
  hide: 'Close',
  formula: 'Formula',
  inputs: 'From',
  sources: 'After',
  beyond: 'beyond the last reading',
} as const;

/** Why two thicknesses may not be compared; null where they may. */
export function thicknessComparisonText(comparison: ThicknessComparison): string | null {
  if (comparison.comparable) return null;
  const [a, b] = comparison.pressures.map((pressure) => fixed(kPaFromPascals(pressure), 2));
  return `The thicknesses are not compared: one was read under ${a} kPa, the other under ${b} kPa, and cloth gives under the foot. Read both under one pressure.`;
}
