import { PRESSURE_BAND_FLOOR, PRESSURE_BAND_SHARE, type HoldLevel } from '../judgement/limits.ts';
import type { Place, Side } from '../judgement/place.ts';
import type { PlaceDifference } from '../judgement/compare.ts';
import type { Zone } from '../judgement/tight-zones.ts';
import { areaText, fixed } from '../sheet/number-format.ts';
import { kPaFromPascals, mmFromMetres, mmHgFromPascals, percentFromRatio } from '../units/units.ts';

/** What each band of pressure is called at the table. */
export const HOLD_WORDS: Readonly<Record<HoldLevel, string>> = {
  none: 'hardly felt',
  light: 'light hold',
  firm: 'firm hold',
  shaping: 'shaping hold',
  tight: 'tight, look at it',
  caution: 'digs in, change it',
};

/** The same beside the tape, where there is room for one word. */
export const HOLD_SHORT: Readonly<Record<HoldLevel, string>> = {
  none: '',
  light: 'light',
  firm: 'firm',
  shaping: 'shaping',
  tight: 'tight',
  caution: 'digs in',
};

export const SIDE_WORDS: Readonly<Record<Side, string>> = {
  front: 'front',
  back: 'back',
  left: 'left side',
  right: 'right side',
  leftFront: 'left front',
  rightFront: 'right front',
  leftBack: 'left back',
  rightBack: 'right back',
  bothSides: 'both sides',
  bothFronts: 'left and right front',
  bothBacks: 'left and right back',
  around: 'all round',
};

/** Names of measured levels; a level not listed is said as its own name with its words parted. */
const LEVEL_WORDS: Readonly<Record<string, string>> = {
  bust: 'bust',
  underbust: 'under-bust',
  chest: 'chest',
  waist: 'waist',
  topHip: 'high hip',
  hip: 'hip',
  thigh: 'thigh',
  midThigh: 'mid thigh',
  knee: 'knee',
  calf: 'calf',
  ankle: 'ankle',
  neck: 'neck',
  upperArm: 'upper arm',
  elbow: 'elbow',
  wrist: 'wrist',
};

/** `topHip` -> `high hip`, `someLevel` -> `some level`. */
export const levelWords = (name: string): string =>
  LEVEL_WORDS[name] ?? name.replaceAll(/([A-Z])/g, ' $1').toLowerCase();

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** `Upper hem at the waist, left side`. Heights stand in where no level is near. */
export function placeWords({ level, height, side, hem }: Place): string {
  const at = level === null ? `${fixed(height * 100, 0)} cm up` : levelWords(level);
  const where = hem === null ? at : `${hem} hem, ${at}`;
  return `${capital(where)}, ${SIDE_WORDS[side]}`;
}

const SIDE_IN_SENTENCE: Readonly<Partial<Record<Side, string>>> = { bothSides: 'sides' };

/** The same inside a sentence: `waist sides`, `high hip back`. */
function placePhrase({ level, height, side }: Place): string {
  const at = level === null ? `height of ${fixed(height * 100, 0)}\u00a0cm,` : levelWords(level);
  return `${at} ${SIDE_IN_SENTENCE[side] ?? SIDE_WORDS[side]}`;
}

/** The small print under a tight zone: `46 cm², mean 2.5 kPa`. */
export const zoneFacts = ({ area, mean }: Zone): string =>
  `${areaText(area)}, mean ${fixed(kPaFromPascals(mean), 1)}\u00a0kPa`;

/** The small print under a bridged zone. */
export const bridgeFacts = ({ area, mean }: Zone): string =>
  `${areaText(area)}, mean ${fixed(mmFromMetres(mean), 1)}\u00a0mm, holds nothing there`;

/** Smaller differences than this are no news: a tenth of the floor of the band, in kPa. Common practice. */
const SMALLEST_NEWS_KPA = 0.05;

/** One sentence: what changing from A to B does to the body at one place. */
export function differenceSentence({ place, first, second, difference }: PlaceDifference): string {
  const change = kPaFromPascals(difference);
  const where = placePhrase(place);
  if (Math.abs(change) < SMALLEST_NEWS_KPA) return `A and B press alike at the ${where}.`;
  const word = change < 0 ? 'less' : 'more';
  const from = fixed(kPaFromPascals(first), 1);
  const to = fixed(kPaFromPascals(second), 1);
  return `B presses ${fixed(Math.abs(change), 1)}\u00a0kPa ${word} at the ${where} (${from} to ${to}\u00a0kPa).`;
}

/** `0.8 kPa less at the thigh back`; the unit only where it is asked for. */
function changeAt({ place, difference }: PlaceDifference, unit: string): string {
  const kPa = kPaFromPascals(difference);
  const word = kPa < 0 ? 'less' : 'more';
  return `${fixed(Math.abs(kPa), 1)}${unit} ${word} at the ${placePhrase(place)}`;
}

/** What the swap does, in one sentence for the rail: the two places where it matters most. */
export function swapSentence(places: readonly PlaceDifference[]): string {
  const [most, ...rest] = places;
  if (most === undefined) return 'No place of this garment can be compared by name.';
  const change = kPaFromPascals(most.difference);
  if (Math.abs(change) < SMALLEST_NEWS_KPA) return 'A and B press alike everywhere.';
  const next = rest.find((place) => place.place.level !== most.place.level) ?? rest[0];
  const second = next === undefined ? '' : ` and ${changeAt(next, '')}`;
  return `B presses ${changeAt(most, '\u00a0kPa')}${second}.`;
}

/** How far an absolute pressure may be off on a person. */
const BAND = `±${fixed(percentFromRatio(PRESSURE_BAND_SHARE), 0)} % or ±${fixed(kPaFromPascals(PRESSURE_BAND_FLOOR), 1)} kPa (${fixed(mmHgFromPascals(PRESSURE_BAND_FLOOR), 0)} mmHg), whichever is larger`;

/** Always in sight. */
export const CAUTION_SHORT = `Design estimate, ${BAND}. Not a medical device; local rules and licensed practice decide.`;

/**
 * The longer caution, in the review. Our words.
 *
 * @see Contraindications as usually printed with compression stockings of 20 mmHg and more; consensus: Rabe et al.,
 *   Risks and contraindications of medical compression treatment, Phlebology 2020 (journal from memory). The rest is
 *   common practice for shapewear.
 */
export const CAUTION_LONG: readonly string[] = [
  `Ranking two fabrics on one body is safe ground. One absolute pressure on one person is not: it carries ${BAND}, and the body here stands still. Sitting down can double what a waistband presses.`,
  'Above 4.3 kPa (32 mmHg) be careful: this is a line to look at, no line of harm. Over a rib, the hip bone, the shin or the collar bone count a third less.',
  'Firm compression is a matter for a doctor first with poor blood flow in the legs, heart failure, an infected or swollen vein, broken or weeping skin, numb limbs, pregnancy, hernia, reflux, trouble breathing or a recent operation. Whoever feels numbness or sees the colour change takes the garment off; nobody sleeps in it.',
  'Snugfield is a design tool and no medical device. Where a garment is sold as compression, local rules and licensed practice decide.',
];
