import type { Direction } from '../../core/fabric/fabric.ts';
import type { ColumnWish, TableWish, TensileTable } from '../../core/io/tensile-table.ts';
import type { StripWish, TakenStrip, TakenUnits } from '../worker/bench-messages.ts';
import {
  EMPTY_DRAFT,
  isBlank,
  isBlankSpecimen,
  numberIn,
  STRIPS,
  withPart,
  withStrip,
  type BenchDraft,
  type PairRow,
  type StripName,
} from './bench-draft.ts';
import type { TableFile } from './bench-runner.ts';

/** Strips of one direction that a table holds, and where they are to go. */
export interface IncomingStrip {
  /** As the table says; null where it does not say. */
  readonly from: Direction | null;
  /** Null until somebody says, where the table does not; `out` where they are left out. */
  readonly into: StripName | 'out' | null;
  readonly specimens: readonly { readonly specimen: number; readonly isTaken: boolean }[];
}

/** A tester's table that lies on the bench before its strips are taken over. */
export interface Incoming {
  readonly file: TableFile;
  readonly table: TensileTable;
  readonly strips: readonly IncomingStrip[];
  /** Which loading is taken; null while the table leaves something open. */
  readonly cycle: number | null;
  readonly cycles: readonly number[];
}

/** A table as it was read; what was chosen before stays chosen where it is still there. */
export function incomingOf(file: TableFile, table: TensileTable, before: Incoming | null = null): Incoming {
  const directions = [...new Set(table.curves.map(({ direction }) => direction))];
  const cycles = [...new Set(table.curves.map(({ cycle }) => cycle))].sort((a, b) => a - b);
  const kept =
    before !== null && before.cycle !== null && cycles.includes(before.cycle) ? before.cycle : null;
  return {
    file,
    table,
    cycles,
    cycle: kept ?? table.defaultCycle,
    strips: directions.map((from) => {
      const known = before?.strips.find((strip) => strip.from === from);
      const numbers = table.curves.flatMap((curve) => (curve.direction === from ? [curve.specimen] : []));
      return {
        from,
        into: known?.into ?? from,
        specimens: [...new Set(numbers)].map((specimen) => ({
          specimen,
          isTaken: known?.specimens.find((one) => one.specimen === specimen)?.isTaken ?? true,
        })),
      };
    }),
  };
}

/** The wish with one answer added; answers about columns are gathered. */
export function withAnswer(
  wish: TableWish,
  answer: Omit<TableWish, 'columns'> & { readonly column?: ColumnWish },
): TableWish {
  const { column, directions, ...rest } = answer;
  const columns =
    column === undefined
      ? wish.columns
      : [
          ...(wish.columns ?? []).filter((one) => one.column !== column.column),
          { ...wish.columns?.find((one) => one.column === column.column), ...column },
        ];
  return {
    ...wish,
    ...rest,
    ...(columns === undefined ? {} : { columns }),
    ...(directions === undefined ? {} : { directions: { ...wish.directions, ...directions } }),
  };
}

/** What the sheet on the bench already says answers the table's questions about the test piece. */
export function answersFromDraft({ questions }: TensileTable, { stretch }: BenchDraft): TableWish {
  const known = {
    gaugeMm: positive(stretch.gauge),
    widthMm: positive(stretch.width),
    circumferenceMm: positive(stretch.circumference),
  };
  return questions.reduce<TableWish>((wish, { asks }) => {
    const value = asks === 'gaugeMm' || asks === 'widthMm' || asks === 'circumferenceMm' ? known[asks] : null;
    return value === null ? wish : { ...wish, [asks]: value };
  }, {});
}

/** The strips that are taken over; none while it is not said where one of them goes, or two go to one place. */
export function stripWishes({ strips, cycle }: Incoming): readonly StripWish[] {
  if (cycle === null || strips.some(({ into }) => into === null)) return [];
  const wishes = strips.flatMap(({ from, into, specimens }) => {
    const taken = specimens.flatMap(({ specimen, isTaken }) => (isTaken ? [specimen] : []));
    return into === null || into === 'out' || taken.length === 0
      ? []
      : [{ from, into, cycle, specimens: taken }];
  });
  return new Set(wishes.map(({ into }) => into)).size === wishes.length ? wishes : [];
}

/** True where strips that stay on the bench were typed: their units must go on meaning what they mean. */
export function hasOtherStrips(draft: BenchDraft, wishes: readonly StripWish[]): boolean {
  const replaced = new Set<StripName>(wishes.map(({ into }) => into));
  return STRIPS.some(
    (strip) => !replaced.has(strip) && draft.stretch.strips[strip].some((one) => !isBlankSpecimen(one)),
  );
}

const positive = (text: string): number | null => {
  const value = numberIn(text);
  return value !== null && value > 0 ? value : null;
};

/** The units the strips come in: the table's own where nothing else stands on the bench. */
export function unitsTaken(draft: BenchDraft, { table }: Incoming, wishes: readonly StripWish[]): TakenUnits {
  const { stretch } = draft;
  const isAlone = !hasOtherStrips(draft, wishes);
  return {
    ...(isAlone ? EMPTY_DRAFT.stretch.units : stretch.units),
    test: isAlone ? table.test : stretch.test,
    gaugeMm: positive(stretch.gauge) ?? table.named.gaugeMm?.value ?? null,
    widthMm: positive(stretch.width),
    circumferenceMm: positive(stretch.circumference) ?? table.named.circumferenceMm?.value ?? null,
  };
}

/** What was typed, or the value where nothing was. */
const filled = (text: string, value: number | null | undefined): string =>
  isBlank(text) && value !== null && value !== undefined ? String(value) : text;

/** The draft with strips taken over; what the sheet did not say of the test is filled in from the table. */
export function withTaken(
  draft: BenchDraft,
  {
    taken,
    incoming,
    units,
  }: { readonly taken: readonly TakenStrip[]; readonly incoming: Incoming; readonly units: TakenUnits },
): BenchDraft {
  const { stretch } = draft;
  const { named } = incoming.table;
  const { wish } = incoming.file;
  const width = taken.find(({ widthMm }) => widthMm !== null)?.widthMm;
  const start = withPart(draft, 'stretch', {
    test: units.test,
    units: { extension: units.extension, force: units.force, width: units.width },
    gauge: filled(stretch.gauge, named.gaugeMm?.value ?? wish.gaugeMm),
    width: filled(stretch.width, width ?? named.widthMm?.value),
    circumference: filled(stretch.circumference, named.circumferenceMm?.value ?? wish.circumferenceMm),
    cycle: incoming.cycle === null || incoming.cycles.length < 2 ? stretch.cycle : String(incoming.cycle),
  });
  return taken.reduce((made, strip) => withStrip(made, strip.into, specimensOf(strip)), start);
}

function specimensOf({
  load,
  return: back,
  width,
}: TakenStrip): readonly BenchDraft['stretch']['strips']['warp'][number][] {
  const count = Math.max(load.length, back.length, width.length);
  return Array.from({ length: count }, (_, index) => ({
    load: rows(load[index]),
    return: rows(back[index]),
    width: rows(width[index]),
  }));
}

const rows = (list: readonly (readonly [number, number])[] | undefined): readonly PairRow[] =>
  (list ?? []).map(([extension, reading]) => [String(extension), String(reading)]);
