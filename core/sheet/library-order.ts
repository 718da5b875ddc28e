import type { LibraryEntry } from './library-entry.ts';

/** A line of the library: a file, and what it says; null while unread or where it cannot be read. */
export interface LibraryLine {
  readonly path: string;
  readonly entry: LibraryEntry | null;
}

/** What the library can be put in order by. */
export type LibraryColumn =
  'name' | 'lot' | 'date' | 'weight' | 'thickness' | 'warp40' | 'weft40' | 'remarks';

export interface LibraryOrder {
  readonly by: LibraryColumn;
  /** Largest or latest first. */
  readonly falling: boolean;
}

/**
 * Whether every word of a search is somewhere in a line's name, lot, note or file name. Case and accents do not count:
 * `grosse` finds `Größe`.
 */
export function isFound({ path, entry }: LibraryLine, search: string): boolean {
  const words = folded(search).split(/\s+/);
  const text = folded([path, entry?.name, entry?.lot, entry?.note].join(' '));
  return words.every((word) => text.includes(word));
}

/** Without case and accents. */
const folded = (text: string): string =>
  text.normalize('NFD').replaceAll(/\p{M}/gu, '').toLowerCase().replaceAll('ß', 'ss').trim();

/**
 * Lines in order; lines without an entry come last whichever way the order runs, and equal ones by their paths.
 * Thicknesses are put in order within one pressure of the foot, for at unlike pressures they are not to be compared.
 */
export function inOrder<Line extends LibraryLine>(
  lines: readonly Line[],
  { by, falling }: LibraryOrder,
): Line[] {
  const compare = COMPARE[by];
  return [...lines].sort((a, b) => {
    if (a.entry === null || b.entry === null) {
      return Number(a.entry === null) - Number(b.entry === null) || compareText(a.path, b.path);
    }
    const order = compare(a.entry, b.entry);
    return (falling ? -order : order) || compareText(a.path, b.path);
  });
}

type Compare = (a: LibraryEntry, b: LibraryEntry) => number;

const byNumber =
  (read: (entry: LibraryEntry) => number): Compare =>
  (a, b) =>
    read(a) - read(b);

/** `Tern 9` before `Tern 10`, whatever the case. One order on every system: the language is fixed. */
const { compare: compareText } = new Intl.Collator('en', { numeric: true, sensitivity: 'base' });

const COMPARE: Readonly<Record<LibraryColumn, Compare>> = {
  name: (a, b) => compareText(a.name, b.name),
  lot: (a, b) => compareText(a.lot, b.lot),
  date: (a, b) => compareText(a.date, b.date),
  weight: byNumber((entry) => entry.arealDensity),
  thickness: (a, b) => a.thicknessPressure - b.thicknessPressure || a.thickness - b.thickness,
  warp40: byNumber((entry) => entry.pull40.warp),
  weft40: byNumber((entry) => entry.pull40.weft),
  remarks: byNumber((entry) => entry.remarkCount),
};
