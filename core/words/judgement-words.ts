import { PRESSURE_BAND_FLOOR, PRESSURE_BAND_SHARE, type HoldLevel } from '../judgement/limits.ts';
import type { Place, Side } from '../judgement/place.ts';
import type { ValueBand } from '../fields/field.ts';
import { isSure, type PlaceDifference } from '../judgement/compare.ts';
import type { Zone } from '../judgement/tight-zones.ts';
import type { BodyRegion } from '../body/body-regions.ts';
import { areaText, fixed } from '../sheet/number-format.ts';
import { kPaFromPascals, mmFromMetres, mmHgFromPascals, percentFromRatio } from '../units/units.ts';
import { REGION_WORDS } from './tape-words.ts';

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

/** Regions that a fitter calls by their own name where they lie straight in front or behind. */
const OWN_REGIONS: readonly BodyRegion[] = ['belly', 'crotch', 'lumbar', 'seat', 'underSeat'];

/** `small of the back` for the back at the waist, `left side` otherwise. */
function sideWords({ side, region }: Place): string {
  const isStraight = side === 'front' || side === 'back';
  return isStraight && region !== undefined && OWN_REGIONS.includes(region)
    ? REGION_WORDS[region]
    : SIDE_WORDS[side];
}

/** `Upper hem at the waist, left side`. Heights stand in where no level is near. */
export function placeWords(place: Place): string {
  const { level, height, hem } = place;
  const at = level === null ? `${fixed(height * 100, 0)} cm up` : levelWords(level);
  const where = hem === null ? at : `${hem} hem, ${at}`;
  return `${capital(where)}, ${sideWords(place)}`;
}

const SIDE_IN_SENTENCE: Readonly<Partial<Record<Side, string>>> = { bothSides: 'sides' };

/** The same inside a sentence: `waist sides`, `high hip back`. */
function placePhrase({ level, height, side }: Place): string {
  const at = level === null ? `height of ${fixed(height * 100, 0)}\u00a0cm,` : levelWords(level);
  return `${at} ${SIDE_IN_SENTENCE[side] ?? SIDE_WORDS[side]}`;
}

const kPaText = (pascals: number): string => fixed(kPaFromPascals(pascals), 1);

/** `2.0 to 2.5`, in kPa; no more decimals than the estimate bears. */
export const pressureBandText = ({ low, high }: ValueBand): string => `${kPaText(low)} to ${kPaText(high)}`;

/** The small print under a tight zone: `band 2.0 to 2.5 · 46 cm², mean 2.2 kPa (1.9 to 2.4)`. */
export function zoneFacts({ area, mean, band }: Zone): string {
  const facts = `${areaText(area)}, mean ${kPaText(mean)}\u00a0kPa`;
  if (band === undefined) return facts;
  return `band ${pressureBandText(band.max)} · ${facts} (${pressureBandText(band.mean)})`;
}

/** The small print under a bridged zone. */
export const bridgeFacts = ({ area, mean }: Zone): string =>
  `${areaText(area)}, mean ${fixed(mmFromMetres(mean), 1)}\u00a0mm, holds nothing there`;

/** Smaller differences than this are no news: a tenth of the floor of the band, in kPa. Common practice. */
const SMALLEST_NEWS_KPA = 0.05;

const isNews = (difference: number): boolean => Math.abs(kPaFromPascals(difference)) >= SMALLEST_NEWS_KPA;

/** `0.8 kPa less`, `0.1 kPa more`, `none`; the unit only where it is asked for. */
function changeText(difference: number, unit = '\u00a0kPa'): string {
  if (!isNews(difference)) return 'none';
  return `${kPaText(Math.abs(difference))}${unit} ${difference < 0 ? 'less' : 'more'}`;
}

/** The band of a sure difference without its sign, smaller end first: `0.5 to 1.1`. */
function sureBandText({ low, high }: ValueBand): string {
  return low < 0 ? pressureBandText({ low: -high, high: -low }) : pressureBandText({ low, high });
}

/** One sentence: what changing from A to B does to the body at one place. */
export function differenceSentence(change: PlaceDifference): string {
  const { place, first, second, difference, band } = change;
  const where = placePhrase(place);
  if (band !== undefined && !isSure(change)) return unsureSentence(where, difference, band.difference);
  if (!isNews(difference)) return `A and B press alike at the ${where}.`;
  const sure = band === undefined ? '' : `, band ${sureBandText(band.difference)}`;
  return `B presses ${changeText(difference)} at the ${where} (${kPaText(first)} to ${kPaText(second)}\u00a0kPa${sure}).`;
}

/** Beside the pointer, where the band of B minus A reaches from less to more. */
export const NO_SURE_DIFFERENCE = 'no sure difference';

/** The bands of the two overlap: either may press harder. */
function unsureSentence(where: string, difference: number, { low, high }: ValueBand): string {
  if (!isNews(low) && !isNews(high)) return `A and B press alike at the ${where}.`;
  const shown = isNews(difference) ? `${changeText(difference)} is shown` : 'none is shown';
  return `No sure difference at the ${where}: ${shown}, the band reaches from ${changeText(low)} to ${changeText(high)}.`;
}

/** `0.8 kPa less at the thigh back (0.5 to 1.1)`; the unit only where it is asked for. */
function changeAt({ place, difference, band }: PlaceDifference, unit: string): string {
  const word = difference < 0 ? 'less' : 'more';
  const sure = band === undefined ? '' : ` (${sureBandText(band.difference)})`;
  return `${kPaText(Math.abs(difference))}${unit} ${word} at the ${placePhrase(place)}${sure}`;
}

/** What the swap does, in one sentence for the rail: the two places where it matters most and is sure. */
export function swapSentence(places: readonly PlaceDifference[]): string {
  const [largest] = places;
  if (largest === undefined) return 'No place of this garment can be compared by name.';
  const isBanded = largest.band !== undefined;
  const [most, ...rest] = places.filter((place) => isSure(place) && (!isBanded || isNews(place.difference)));
  if (most === undefined) return unsureSwap(largest);
  if (!isNews(most.difference)) return 'A and B press alike everywhere.';
  const next = rest.find((place) => place.place.level !== most.place.level) ?? rest[0];
  const second = next === undefined ? '' : ` and ${changeAt(next, '')}`;
  return `B presses ${changeAt(most, '\u00a0kPa')}${second}.`;
}

/** No place is sure. */
function unsureSwap({ place, difference, band }: PlaceDifference): string {
  const { low, high } = band!.difference;
  if (!isNews(low) && !isNews(high)) return 'A and B press alike everywhere.';
  const most = isNews(difference) ? changeText(difference) : 'none';
  const reach = `${changeText(low, '')} to ${changeText(high, '')}`;
  return `No sure difference between A and B: ${most} at the ${placePhrase(place)}, band ${reach}.`;
}

/** How far an absolute pressure may be off on a person. */
const PERSON = `±${fixed(percentFromRatio(PRESSURE_BAND_SHARE), 0)} % or ±${fixed(kPaFromPascals(PRESSURE_BAND_FLOOR), 1)} kPa (${fixed(mmHgFromPascals(PRESSURE_BAND_FLOOR), 0)} mmHg), whichever is larger`;

/** Always in sight. */
export const CAUTION_SHORT = `Design estimate, ${PERSON}. Not a medical device; local rules and licensed practice decide.`;

/** What the band beside a number is, and what it leaves out. */
export const BAND_LONG =
  'Strips alone do not tell how warp and weft pull together: the band beside a number is how far it may lie lower or higher for that. One strip pulled at held width narrows it most. Shape, stretch and gap are taken as they settled; with a wide band the garment may also sit a little otherwise. Where the band of a difference between A and B reaches from less to more, no difference is sure.';

/**
 * The longer caution, in the review. Our words.
 *
 * @see Contraindications as usually printed with compression stockings of 20 mmHg and more; consensus: Rabe et al.,
 *   Risks and contraindications of medical compression treatment, Phlebology 2020 (journal from memory). The rest is
 *   common practice for shapewear.
 */
export const CAUTION_LONG: readonly string[] = [
  `Ranking two fabrics on one body is safe ground where the difference is sure. One absolute pressure on one person is not: it carries ${PERSON}, and the body here stands still. Sitting down can double what a waistband presses.`,
  'Above 4.3 kPa (32 mmHg) be careful: this is a line to look at, no line of harm. Over a rib, the hip bone, the shin or the collar bone count a third less.',
  'Firm compression is a matter for a doctor first with poor blood flow in the legs, heart failure, an infected or swollen vein, broken or weeping skin, numb limbs, pregnancy, hernia, reflux, trouble breathing or a recent operation. Whoever feels numbness or sees the colour change takes the garment off; nobody sleeps in it.',
  'Snugfield is a design tool and no medical device. Where a garment is sold as compression, local rules and licensed practice decide.',
];
