import type { PanelSide } from './panel-sides.ts';

/** Names of edges on the body's middle, which join a left panel to a right one. Common practice. */
const ON_CENTRE: ReadonlySet<string> = new Set(['rise', 'centre', 'center', 'crotch']);
/** Names of edges that stay open, or are sewn to one of another name: two of the same name are not. Common practice. */
const NOT_TO_ITS_LIKE: ReadonlySet<string> = new Set([
  'hem',
  'waist',
  'neck',
  'neckline',
  'armhole',
  'leg',
  'ankle',
  'opening',
  'top',
  'bottom',
  'upper',
  'lower',
]);
const OPPOSITE: Readonly<Record<string, string>> = {
  upper: 'lower',
  lower: 'upper',
  top: 'bottom',
  bottom: 'top',
};

/** `frontBand left` -> front, band, left. */
const words = (text: string): string[] =>
  text
    .replaceAll(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .split(/[\s_.-]+/);
const isSideWord = (word: string): boolean => word === 'left' || word === 'right';
const withoutSide = (text: string): string =>
  words(text)
    .filter((word) => !isSideWord(word))
    .join(' ');

/** What an edge is called, without side and number; null where nobody named it. */
function baseName({ edges }: PanelSide): string | null {
  const name = withoutSide(edges[0]!.name).replace(/\s*\d+$/, '');
  return name === 'edge' || name === '' ? null : name;
}

/**
 * Whether the names of two edges say that they belong together: the same name (`side` and `side`), each the other's panel
 * (`gusset` of the front and `front` of the gusset), or upper and lower edge of panels that share a word (front, front band).
 */
export function namesAgree(one: PanelSide, other: PanelSide): boolean {
  if (one.edges.length !== 1 || one.panel === other.panel) return false;
  const [name, otherName] = [baseName(one), baseName(other)];
  if (name === null || otherName === null) return false;
  const [panel, otherPanel] = [withoutSide(one.panel), withoutSide(other.panel)];
  if (name === otherPanel && otherName === panel) return true;
  if (name === otherName) return !NOT_TO_ITS_LIKE.has(name);
  return OPPOSITE[name] === otherName && words(panel).some((word) => words(otherPanel).includes(word));
}

/** How the panels that two sides are on, and left and right, suit a seam between them. */
export type PanelsSuit = 'sameSide' | 'acrossCentre' | 'unknown' | 'samePanel' | 'mirrored' | 'crossed';

export function panelsSuit(one: PanelSide, other: PanelSide): PanelsSuit {
  if (one.panel === other.panel) return 'samePanel';
  const [side, otherSide] = [sideOf(one), sideOf(other)];
  if (side === null || otherSide === null) return 'unknown';
  if (side === otherSide) return 'sameSide';
  if (withoutSide(one.panel) !== withoutSide(other.panel)) return 'crossed';
  return ON_CENTRE.has(baseName(one) ?? '') ? 'acrossCentre' : 'mirrored';
}

const sideOf = ({ panel, edges }: PanelSide): string | null =>
  [...words(edges[0]!.name), ...words(panel)].find(isSideWord) ?? null;
