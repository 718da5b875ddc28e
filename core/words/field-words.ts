import type { FieldId } from '../fields/field.ts';
import type { CouplingBand } from '../fabric/coupling-band.ts';
import type { Showing } from '../sheet/field-range.ts';
import type { LegendBand } from '../sheet/legend.ts';

/** How a painted quantity is spoken of. */
export interface FieldWords {
  /** The family word along the top of the stage; neighbours of one family share it. */
  readonly family: string;
  /** What follows the family word where there are several; empty where there is one. */
  readonly member: string;
  /** The whole name: legend, picture, screen reader. */
  readonly name: string;
  /** One sentence on what the number is. */
  readonly meaning: string;
  /** What a hatched place is, on the legend. */
  readonly missing: string;
  /** The same beside the pointer. */
  readonly missingHere: string;
}

export const FIELD_WORDS: Readonly<Record<FieldId, FieldWords>> = {
  skinPressure: {
    family: 'Pressure',
    member: 'on skin',
    name: 'Pressure on skin',
    meaning: 'How hard the cloth presses on the skin at each point.',
    missing: 'off the skin',
    missingHere: 'off the skin, nothing presses here',
  },
  discPressure: {
    family: 'Pressure',
    member: 'on a disc',
    name: 'Pressure on a disc of 20 mm',
    meaning: 'The pressure averaged over a disc of 20 mm, about the size of a small sensor.',
    missing: 'off the skin',
    missingHere: 'off the skin, nothing presses here',
  },
  stretchAcross: {
    family: 'Stretch',
    member: 'around',
    name: 'Stretch around',
    meaning: 'How much longer the cloth is around the body than it lay on the table.',
    missing: 'slack',
    missingHere: 'slack around, may fold here',
  },
  stretchAlong: {
    family: 'Stretch',
    member: 'along',
    name: 'Stretch along',
    meaning: 'How much longer the cloth is along the body than it lay on the table.',
    missing: 'slack',
    missingHere: 'slack along, may fold here',
  },
  tensionAcross: {
    family: 'Tension',
    member: 'around',
    name: 'Tension around',
    meaning: 'Pull in the cloth around the body, per width of cloth.',
    missing: 'slack',
    missingHere: 'slack around, holds nothing here',
  },
  tensionAlong: {
    family: 'Tension',
    member: 'along',
    name: 'Tension along',
    meaning: 'Pull in the cloth along the body, per width of cloth.',
    missing: 'slack',
    missingHere: 'slack along, holds nothing here',
  },
  gap: {
    family: 'Gap',
    member: '',
    name: 'Gap under the cloth',
    meaning: 'How far the cloth stands off the skin where it bridges a hollow.',
    missing: 'on the skin',
    missingHere: 'on the skin, no gap here',
  },
  give: {
    family: 'Give',
    member: '',
    name: 'Give of the body',
    meaning: 'How far the flesh moves in under the cloth.',
    missing: 'off the skin',
    missingHere: 'off the skin, nothing gives here',
  },
  gripUsed: {
    family: 'Grip',
    member: '',
    name: 'Grip used',
    meaning:
      'How much of the friction between cloth and skin is needed to hold the cloth here. At 100 % it has slid as far as friction let it, and creeps, rolls or rides up with movement.',
    missing: 'off the skin or no friction',
    missingHere: 'off the skin or no friction: nothing grips here',
  },
};

/** The order of the number keys. */
export const FIELD_ORDER: readonly FieldId[] = [
  'skinPressure',
  'discPressure',
  'stretchAcross',
  'stretchAlong',
  'tensionAcross',
  'tensionAlong',
  'gap',
  'give',
  'gripUsed',
];

/** What the legend and the picture are headed with. */
export const fieldHeading = (id: FieldId, showing: Showing): string =>
  showing === 'difference' ? `${FIELD_WORDS[id].name}, B minus A` : FIELD_WORDS[id].name;

/** What is hatched: in a difference, where neither fabric has a value. */
export const missingWords = (id: FieldId, showing: Showing): string =>
  showing === 'difference' ? `${FIELD_WORDS[id].missing} in both` : FIELD_WORDS[id].missing;

/** What a band is, in one sentence. */
export const BAND_MEANING =
  'Band: how far a number may lie lower or higher, because strips alone do not tell how warp and weft pull together.';

/** `Coupling band here: −12 to +6 %`, under the legend: half of the cloth has a narrower one, half a wider one. */
export const bandLine = ({ low, high, unit }: LegendBand): string =>
  `Coupling band here: ${low} to ${high}\u00a0${unit}`;

const BAND_FROM: Readonly<Record<CouplingBand['from'], string>> = {
  'held width': 'rests on a strip held at its width',
  reciprocity: 'rests on how the strips narrowed',
  'assumed width': 'narrowing assumed, not measured',
};

/** Best first, as `CouplingBand` has it. */
const EVIDENCE_ORDER = Object.keys(BAND_FROM);

/** What the band rests on; of several fabrics the weakest evidence counts. */
export function bandFromWords(from: readonly CouplingBand['from'][]): string {
  const weakest = from.toSorted((a, b) => EVIDENCE_ORDER.indexOf(b) - EVIDENCE_ORDER.indexOf(a))[0];
  if (weakest === undefined) return '';
  return from.length > 1 ? `${BAND_FROM[weakest]}; each fabric at its worst end` : BAND_FROM[weakest];
}
