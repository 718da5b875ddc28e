import type { BodyTape } from '../body/body-tape.ts';
import { fixed } from '../sheet/number-format.ts';
import { levelWords } from './judgement-words.ts';

/** Words of the tape's part of the body leaf. */
export const TAPE_LEAF_WORDS = {
  head: 'mm',
  up: 'up',
  girth: 'girth',
  chart: 'chart',
  difference: 'differs',
  beside: 'Beside size',
  nearest: (size: string) => `nearest (${size})`,
  side: 'Arms and legs',
  sides: { left: 'left', right: 'right' },
  heights: 'Heights above the floor',
  openChart: 'Open a chart',
  houseChart: 'House chart',
  picture: 'Girths as a tape lies',
  measuring: 'The tape is being laid …',
  choose: 'Draw a tape on the form, or ↑ ↓: 1 mm, Shift 10 mm.',
  level: 'Level, mm up',
  tiltForward: 'Tilt to the front, degrees',
  tiltLeft: 'Tilt to the left, degrees',
  tilt: 'Tilt',
  front: 'front',
  left: 'left',
  degrees: '°',
  back: 'Back to found',
  remove: 'Remove',
  surface: 'Drawn',
  surfaces: { taut: 'taut', along: 'along the skin' },
  another: 'Another beside it',
  nobody: 'No standing person was seen in this body, so no level is known.',
  first: 'Lay a tape at half its height',
  own: (count: number) => `tape ${count}`,
  handle: (name: string) => `Level of the ${name}`,
  handleText: (height: string, girth: string) => `${height} mm up, ${girth} mm round`,
} as const;

const HEIGHT_WORDS: Readonly<Partial<Record<BodyTape['heights'][number]['name'], string>>> = {
  stature: 'height',
  shoulder: 'shoulder',
  armpit: 'armpit',
  seatPoint: 'seat, fullest',
};

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** `Waist`, `Left thigh`. */
export const tapeName = ({
  name,
  side,
}: {
  readonly name: string;
  readonly side: 'left' | 'middle' | 'right';
}): string => capital(side === 'middle' ? levelWords(name) : `${side} ${levelWords(name)}`);

/** `Waist` in a table that says the side above. */
export const tapeRowName = (name: string): string => capital(levelWords(name));

export const heightName = (name: string): string => {
  const words: Readonly<Record<string, string | undefined>> = HEIGHT_WORDS;
  return capital(words[name] ?? levelWords(name));
};

/** `760 mm` round, as it stands beside a tape on the form. */
export const girthLabel = (girth: number): string => `${fixed(1000 * girth, 0)}\u00a0mm`;
