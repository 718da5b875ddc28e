import type { Branch, Direction } from '../fabric/fabric.ts';
import { Fault } from '../fault/fault.ts';
import {
  branchInHeader,
  cycleIn,
  directionIn,
  isOtherQuantity,
  meaningOf,
  plainWords,
  specimenIn,
} from './tensile-names.ts';
import type { ColumnMeaning, ColumnWish, TableColumn, TableWish } from './tensile-table.ts';
import { unitOf, unitsFor } from './tensile-units.ts';
import type { TableUnit } from './tensile-units.ts';

/** Which strip, cycle and branch a title or header speaks of; null where it does not say. */
export interface Tags {
  readonly direction: Direction | null;
  readonly specimen: string | null;
  readonly cycle: number | null;
  readonly branch: Branch | null;
}

export const NO_TAGS: Tags = { direction: null, specimen: null, cycle: null, branch: null };

/** A column with what its header says beside its meaning. */
export interface ReadColumn extends TableColumn {
  readonly tags: Tags;
  /** The header without unit, numbers and tags: alike for the columns of side-by-side blocks. */
  readonly stem: string;
}

/** What a table knows of a column before the user's wish. */
interface Named {
  readonly meaning: ColumnMeaning;
  readonly unit: TableUnit | null;
  readonly tags: Tags;
  readonly stem: string;
}

/**
 * The columns under one header row, as their names, units and the user's wish have them.
 *
 * @param headers - Texts of the header row; `units` those of a row of units under it, or none.
 * @param headerRow - From 1; null for a table without header.
 * @throws {Fault} `table/no-such-column`, `table/unit-unfit` for a wish that does not fit.
 */
export function readColumns(options: {
  readonly headers: readonly string[];
  readonly units: readonly string[];
  readonly headerRow: number | null;
  readonly wish: TableWish;
}): readonly ReadColumn[] {
  const { headers, units, headerRow, wish } = options;
  const wishes = new Map((wish.columns ?? []).map((entry) => [entry.column, entry]));
  // A column named for a quantity takes it away from the others, which the header alone may have claimed.
  const claimed = new Set(
    [...wishes.values()].flatMap(({ column, meaning }) =>
      meaning !== undefined && column <= headers.length ? [meaning] : [],
    ),
  );
  return headers.map((header, i): ReadColumn => {
    const { meaning: byName, unit: written, tags, stem } = readHeader(header, units[i] ?? '');
    const place = { column: i + 1, headerRow, header, tags, stem };
    const asked = wishes.get(i + 1);
    if (asked !== undefined) {
      const meaning = asked.meaning ?? byName;
      return { ...place, meaning, unit: wishedUnit(place, meaning, { asked, written }), from: 'wish' };
    }
    const meaning = claimed.has(byName) ? 'ignored' : byName;
    const unit = fitting(written, meaning);
    return { ...place, meaning, unit, from: meaning === 'ignored' ? 'nothing' : 'file' };
  });
}

const fitting = (unit: TableUnit | null, meaning: ColumnMeaning): TableUnit | null =>
  unit !== null && unitsFor(meaning).includes(unit) ? unit : null;

function wishedUnit(
  { column, header }: Pick<TableColumn, 'column' | 'header'>,
  meaning: ColumnMeaning,
  { asked, written }: { readonly asked: ColumnWish; readonly written: TableUnit | null },
): TableUnit | null {
  const { unit } = asked;
  if (unit === undefined || meaning === 'ignored') return fitting(written, meaning);
  if (fitting(unit, meaning) === null) throw new Fault('table/unit-unfit', { column, header, meaning, unit });
  return unit;
}

/** What one header says, with the unit under it if there is a row of units. */
export function readHeader(header: string, unitBelow: string): Named {
  const plain = plainWords(header);
  const { unit: written, rest, isSure } = splitUnit(plain);
  const below = unitOf(plainWords(unitBelow).replaceAll(/^[[(]|[\])]$/g, ''));
  const shown = written ?? below;
  const tags = tagsIn(rest);
  const byName = meaningOf(rest);
  // "Return (N)": the unit tells what the name does not.
  const isUnnamed = (byName === 'ignored' && !isOtherQuantity(rest)) || byName === 'specimen';
  const isByUnit = shown !== null && (isSure || below !== null) && isForceUnit(shown);
  const meaning = isUnnamed && isByUnit ? 'force' : byName;
  const specimen = tags.specimen ?? numberOf(rest, meaning);
  return { meaning, unit: ratioUnit(shown, plain, meaning), tags: { ...tags, specimen }, stem: stemOf(rest) };
}

/** A "stretch ratio" is 1 for the unstretched strip, whatever kind of ratio its unit says. */
function ratioUnit(shown: TableUnit | null, plain: string, meaning: ColumnMeaning): TableUnit | null {
  if (meaning !== 'extension' || (shown !== null && shown !== 'ratio')) return shown;
  return /stretch ratio|\blambda\b|streckverh|l\/l0/.test(plain) ? 'stretch ratio' : shown;
}

const isForceUnit = (unit: TableUnit): boolean => unitsFor('force').includes(unit);

/** `Force 2` -> 2. */
function numberOf(rest: string, meaning: ColumnMeaning): string | null {
  if (!['extension', 'force', 'width'].includes(meaning) || cycleIn(rest) !== null) return null;
  return /(?:^|\s|[a-z])(\d{1,6})$/.exec(rest)?.[1] ?? null;
}

/** The tags in a title or in the header of a column. */
export function tagsIn(plain: string): Tags {
  const specimen = specimenIn(plain);
  return {
    direction: directionIn(plain),
    specimen: specimen === null ? null : String(specimen),
    cycle: cycleIn(plain),
    branch: branchInHeader(plain),
  };
}

/** Names that differ only by number or by tag have the same stem; what names a strip is cut down to nothing. */
function stemOf(rest: string): string {
  const words = rest.replaceAll(/\d+/g, '').split(/[\s,;:./()[\]-]+/);
  return words
    .filter((word) => word !== '' && directionIn(word) === null && branchInHeader(word) === null)
    .filter((word) => meaningOf(word) !== 'specimen' && meaningOf(word) !== 'cycle')
    .join(' ');
}

/** The unit in a header: in brackets, or behind its last words ("Load / gf", "Force in N", "force_N", "Weg %"). */
function splitUnit(plain: string): { unit: TableUnit | null; rest: string; isSure: boolean } {
  for (const match of plain.matchAll(/[[({]([^\])}]*)[\])}]/g)) {
    const unit = unitOf(match[1]!);
    if (unit !== null) return { unit, rest: plain.replace(match[0], ' ').trim(), isSure: true };
  }
  for (const match of plain.matchAll(/[\s/,;:]+|(?=%)/g)) {
    const tail = plain.slice(match.index + match[0].length);
    const unit = match.index === 0 || /^[-–1]$/.test(tail) ? null : unitOf(tail);
    if (unit !== null) {
      const rest = plain.slice(0, match.index).replace(/\s+(in|en|em)$/, '');
      return { unit, rest, isSure: false };
    }
  }
  return { unit: null, rest: plain, isSure: false };
}

/** Whether a row holds units and nothing else: "[%];[N];[mm]". */
export function isUnitRow(cells: readonly string[]): boolean {
  const filled = cells.filter((cell) => cell !== '');
  const units = filled.map((cell) => plainWords(cell).replaceAll(/^[[({]|[\])}]$/g, ''));
  const known = units.filter((unit) => unitOf(unit) !== null && !/^[-–1]$/.test(unit));
  return (
    known.length > 0 && units.every((unit) => unitOf(unit) !== null || /^(#|s|min|sec|nr|no\.?)$/.test(unit))
  );
}
