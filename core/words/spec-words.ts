import type { Construction } from '../block/blocks.ts';
import type { PictureEdge } from '../sheet/panel-picture.ts';
import { centimetreText } from '../sheet/number-format.ts';
import { fabricLetter } from './stage-words.ts';

/** Words of the spec sheet in the garment leaf. */
export const SPEC_WORDS = {
  made: 'Made',
  constructions: { cut: 'cut and sewn', moulded: 'knit to shape' } satisfies Record<Construction, string>,
  girths: 'Girth',
  flat: 'flat',
  body: 'body',
  cutBy: 'cut\u00a0by %',
  stretch: 'stretch %',
  stretchNote: 'In cm, one leg from the thigh down. Cut by: of the body’s girth; stretch: of the flat one.',
  worn: (index: number) => `worn ${fabricLetter(index)}`,
  lengths: 'Lengths, flat, cm',
  laid: 'Held at, cm up; light: where the body has it',
  asBody: 'as the body',
  panels: 'Panels',
  remarks: (count: number) => (count === 1 ? 'One remark' : `${count} remarks`),
  part: 'Shown',
  picture: 'Panels lying flat',
  pointAt: 'Point at an edge, here or on the form.',
  refused: 'Not worn as typed; the form shows what settled last.',
  field: {
    girths: (name: string) => `${name} girth, flat, cm`,
    lengths: (name: string) => `${name} length, flat, cm`,
    laid: (name: string) => `${name} held at, cm up`,
  },
  back: (name: string, value: string) => `${name}: back to ${value}`,
} as const;

/** `frontRise` -> `front rise`; the points of a stocking keep their letters. */
export const measureName = (name: string): string =>
  /^[A-Z]/.test(name) ? name : name.replaceAll(/([A-Z])/g, ' $1').toLowerCase();

/** `Front, cut 2` */
export const pieceText = (name: string, count: 1 | 2): string =>
  `${capital(measureName(name))}, cut ${count}`;

/** `Front, side 39.2 cm: sewn to back, side.` */
export function edgeText({ panel, edge, length, sewnTo }: PictureEdge): string {
  const own = `${capital(measureName(panel))}, ${measureName(edge)} ${centimetreText(length)}`;
  if (sewnTo === null) return `${own}: a free edge.`;
  if (sewnTo === 'mirror') return `${own}: sewn to its mirror image.`;
  return `${own}: sewn to ${measureName(sewnTo.panel)}, ${measureName(sewnTo.edge)}.`;
}

const capital = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
