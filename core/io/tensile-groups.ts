import { NO_TAGS } from './tensile-columns.ts';
import type { ReadColumn, Tags } from './tensile-columns.ts';
import type { ColumnMeaning, TableQuestion } from './tensile-table.ts';

/** The columns that belong to one strip. */
export interface ColumnGroup {
  readonly extension: ReadColumn;
  readonly force: ReadColumn;
  readonly width: ReadColumn | null;
  readonly stripWidth: ReadColumn | null;
  readonly cycle: ReadColumn | null;
  readonly specimen: ReadColumn | null;
  readonly direction: ReadColumn | null;
  readonly branch: ReadColumn | null;
  /** What header and title say of the strip. */
  readonly tags: Tags;
  /** Among groups with the same tags, from 1. */
  readonly ordinal: number;
}

type Question = Extract<TableQuestion, { asks: 'column' }>;

/**
 * Which columns belong together: one extension and one force, several of both side by side, or several forces over one
 * extension. Where two columns claim one part and nothing tells them apart, it is asked.
 *
 * @param titles - Tags of the title over each column; empty without titles.
 * @param numeric - Columns (from 1) with a number in the first row of readings.
 */
export function groupColumns(options: {
  readonly columns: readonly ReadColumn[];
  readonly titles: readonly Tags[];
  readonly numeric: ReadonlySet<number>;
}): { groups: ColumnGroup[]; questions: TableQuestion[] } {
  const { columns, titles, numeric } = options;
  const tagged = columns.map((column, i) => ({ ...column, tags: joinTags(column.tags, titles[i]) }));
  const of = (meaning: ColumnMeaning): ReadColumn[] => tagged.filter((column) => column.meaning === meaning);
  const [extensions, forces] = [of('extension'), of('force')];
  const questions = [
    ...missing('extension', tagged, numeric),
    ...missing('force', tagged, numeric),
    ...rivals(extensions, forces),
  ];
  const count = forces.length;
  const share = (meaning: ColumnMeaning): readonly (ReadColumn | null)[] => {
    const found = of(meaning);
    if (found.length === count) return found;
    const isShared = found.length <= 1 && (meaning !== 'width' || count <= 1);
    if (!isShared && found.length > 0) questions.push({ asks: 'column', meaning, candidates: found });
    return forces.map(() => found[0] ?? null);
  };
  const parts = {
    width: share('width'),
    stripWidth: share('stripWidth'),
    cycle: share('cycle'),
    specimen: share('specimen'),
    direction: share('direction'),
    branch: share('branch'),
  };
  if (questions.length > 0) return { groups: [], questions };
  const groups = forces.map((force, i): ColumnGroup => {
    const extension = extensions[i] ?? extensions[0]!;
    return {
      extension,
      force,
      width: parts.width[i]!,
      stripWidth: parts.stripWidth[i]!,
      cycle: parts.cycle[i]!,
      specimen: parts.specimen[i]!,
      direction: parts.direction[i]!,
      branch: parts.branch[i]!,
      tags: joinTags(force.tags, extensions.length > 1 ? extension.tags : undefined),
      ordinal: 1,
    };
  });
  return { groups: numbered(groups), questions };
}

/** Asks for a quantity that no column is known to hold. */
function missing(
  meaning: ColumnMeaning,
  columns: readonly ReadColumn[],
  numeric: ReadonlySet<number>,
): Question[] {
  if (columns.some((column) => column.meaning === meaning)) return [];
  const free = columns.filter((column) => column.meaning === 'ignored' || column.meaning === 'time');
  const withNumbers = free.filter(({ column }) => numeric.has(column));
  return [{ asks: 'column', meaning, candidates: withNumbers.length > 0 ? withNumbers : columns }];
}

/** Asks where two columns claim to be the one extension or force and are not strips side by side. */
function rivals(extensions: readonly ReadColumn[], forces: readonly ReadColumn[]): Question[] {
  const sideBySide = forces.length > 1 && areAlike(forces);
  const paired = sideBySide && extensions.length === forces.length && areAlike(extensions);
  const questions: Question[] = [];
  if (extensions.length > 1 && !paired)
    questions.push({ asks: 'column', meaning: 'extension', candidates: extensions });
  if (forces.length > 1 && !sideBySide)
    questions.push({ asks: 'column', meaning: 'force', candidates: forces });
  return questions;
}

/** First what the column says, then what stands over it. */
export function joinTags(first: Tags, second: Tags = NO_TAGS): Tags {
  return {
    direction: first.direction ?? second.direction,
    specimen: first.specimen ?? second.specimen,
    cycle: first.cycle ?? second.cycle,
    branch: first.branch ?? second.branch,
  };
}

/** Columns of side-by-side blocks: one name and one unit, or named by the user; a return beside its load counts too. */
function areAlike(columns: readonly ReadColumn[]): boolean {
  const named = columns.filter(({ from, tags }) => from !== 'wish' && tags.branch === null);
  const oneUnit = new Set(columns.map(({ unit }) => unit)).size === 1;
  const oneStem = new Set(named.map(({ stem }) => stem)).size <= 1;
  return oneStem && (oneUnit || columns.every(({ from }) => from === 'wish'));
}

function numbered(groups: readonly ColumnGroup[]): ColumnGroup[] {
  const seen = new Map<string, number>();
  const hasReturns = groups.some(({ tags }) => tags.branch === 'return');
  return groups.map((group) => {
    const branch = group.tags.branch ?? (hasReturns ? 'load' : null);
    const tags: Tags = { ...group.tags, branch };
    const key = JSON.stringify([tags.direction, tags.specimen, tags.cycle, tags.branch]);
    const ordinal = (seen.get(key) ?? 0) + 1;
    seen.set(key, ordinal);
    return { ...group, tags, ordinal };
  });
}
