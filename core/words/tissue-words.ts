import type { BodyRegion } from '../body/body-regions.ts';
import type { BonyPoint } from '../body/tissue-map.ts';
import { fixed } from '../sheet/number-format.ts';
import { BONY_WORDS, REGION_WORDS } from './tape-words.ts';

/** Words of the flesh's part of the body leaf. */
export const TISSUE_WORDS = {
  reading: 'The flesh is being read …',
  shown: 'Shown',
  shows: { depth: 'depth', modulus: 'stiffness' },
  headings: { depth: 'Depth of tissue', modulus: 'Stiffness of tissue' },
  moduli: 'Stiffness',
  moduliKinds: { even: 'as the body has it', byRegion: 'by region' },
  regions: 'By region',
  region: 'Region',
  depth: 'depth, mm',
  modulus: 'kPa',
  depthOf: (region: string) => `${region}: mean depth, mm`,
  modulusOf: (region: string) => `${region}: stiffness, kPa`,
  back: (region: string) => `${region}: back to the estimate`,
  noRegions: 'No standing person was seen in this body, so it has no regions; the brush still corrects it.',
  brush: 'Brush',
  brushOn: 'Brush on the form',
  radius: 'Radius',
  value: { depth: 'Depth', modulus: 'Stiffness' },
  brushHint: 'Draw on the form; beside it you still turn it.',
  strokeHere: 'Stroke at the middle',
  removeStrokes: (count: number) => `Remove ${count === 1 ? 'the stroke' : `${count} strokes`}`,
  legend: 'Legend of the tissue map',
} as const;

/** `Small of the back`, as a row of the table begins. */
export function regionName(region: BodyRegion): string {
  const words = REGION_WORDS[region];
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** `kneecap, 6 mm` */
export const bonyLabel = ({ place, depth }: Pick<BonyPoint, 'place' | 'depth'>): string =>
  `${BONY_WORDS[place]}, ${fixed(1000 * depth, 0)}\u00a0mm`;
