import { isBlock, type GarmentSheet } from '../block/garment-sheet.ts';
import type { BlockName, Construction } from '../block/blocks.ts';
import { centimetreText } from '../sheet/number-format.ts';
import { REGION_WORDS, WARP_WORDS } from './stage-words.ts';

export const BLOCK_WORDS: Readonly<Record<BlockName, string>> = {
  short: 'Short',
  legging: 'Legging',
  stocking: 'Knee stocking',
  brief: 'Brief',
  waistShaper: 'Waist shaper',
};

const CONSTRUCTION_WORDS: Readonly<Record<Construction, string>> = {
  cut: 'cut flat and sewn',
  moulded: 'knit to shape, seamless',
};

/** What the garment is, in a sentence or two. */
export function garmentText(sheet: GarmentSheet): string {
  if (isBlock(sheet)) {
    return `${BLOCK_WORDS[sheet.block]}, ${CONSTRUCTION_WORDS[sheet.construction]}. ${WARP_WORDS.along}.`;
  }
  const { region, from, to, warp } = sheet;
  return `Tube round ${REGION_WORDS[region]}, laid from ${centimetreText(from)} to ${centimetreText(to)}. ${WARP_WORDS[warp]}.`;
}

/** `frontRise` -> `front rise` */
const plain = (name: string): string => name.replaceAll(/([A-Z])/g, ' $1').toLowerCase();

/** The sheet's lengths, flat: `inseam 13.0 cm`. */
export function lengthFacts(sheet: GarmentSheet): { name: string; length: string }[] {
  if (!isBlock(sheet)) return [{ name: 'Length, flat', length: centimetreText(sheet.relaxedLength) }];
  return Object.entries(sheet.lengths).map(([name, length]) => ({
    name: `${plain(name).charAt(0).toUpperCase()}${plain(name).slice(1)}, flat`,
    length: centimetreText(length),
  }));
}
