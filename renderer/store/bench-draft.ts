import type { ExtensionUnit, ForceUnit, WidthUnit } from '../../core/io/bench-sheet.ts';
import type { Direction } from '../../core/fabric/fabric.ts';

/** Repeats of one reading, as typed; an empty text is a repeat that was not taken. */
export type Repeats = readonly string[];

/** One row of a reading table: an extension and what was read there, as typed. */
export type PairRow = readonly [extension: string, reading: string];

/** The three tables of one strip: pulled out, let back, and how wide it was. */
export type CurveName = 'load' | 'return' | 'width';

export type SpecimenDraft = Readonly<Record<CurveName, readonly PairRow[]>>;

/** Strips by the direction they were cut in, and the strip whose width was held. */
export type StripName = Direction | 'held';

export const DIRECTIONS: readonly Direction[] = ['warp', 'weft', 'bias'];
export const STRIPS: readonly StripName[] = [...DIRECTIONS, 'held'];
export const CURVES: readonly CurveName[] = ['load', 'return', 'width'];

export type MassUnit = 'g' | 'mg';
export type ThicknessStandard = 'ISO 5084' | 'ASTM D1777';

/** What the numbers of the reading tables are in. Changing one changes no number. */
export interface PairUnits {
  readonly extension: ExtensionUnit;
  readonly force: ForceUnit;
  readonly width: WidthUnit;
}

/** A bench sheet while it is typed: every number as the text in its field, nothing lost, nothing guessed. */
export interface BenchDraft {
  readonly name: string;
  readonly lot: string;
  readonly date: string;
  readonly note: string;
  readonly invented: boolean;
  /** Null until somebody says which way the cloth stretches most. */
  readonly greatestStretch: Direction | null;
  readonly weigh: {
    /** Of every strip, mm. */
    readonly length: string;
    readonly width: string;
    readonly weighed: 'apart' | 'together';
    readonly unit: MassUnit;
    readonly apart: Readonly<Record<Direction, Repeats>>;
    readonly together: Repeats;
  };
  readonly thickness: {
    /** mm. */
    readonly values: Repeats;
    /** kPa. */
    readonly pressure: string;
    readonly standard: ThicknessStandard | null;
  };
  readonly stretch: {
    readonly test: 'strip' | 'loop';
    readonly cycle: string;
    /** mm. */
    readonly gauge: string;
    readonly width: string;
    readonly circumference: string;
    readonly units: PairUnits;
    readonly strips: Readonly<Record<StripName, readonly SpecimenDraft[]>>;
    /** Along which the held strip was pulled. */
    readonly heldDirection: 'warp' | 'weft';
  };
  readonly bend: {
    readonly kind: 'cantilever' | 'heartLoop';
    /** Degrees. */
    readonly angle: string;
    /** mm. */
    readonly stripLength: string;
    readonly overhang: Readonly<Record<Direction, Repeats>>;
    readonly loopHeight: Readonly<Record<Direction, Repeats>>;
  };
}

export const EMPTY_SPECIMEN: SpecimenDraft = { load: [], return: [], width: [] };

const NO_REPEATS: Readonly<Record<Direction, Repeats>> = { warp: [], weft: [], bias: [] };

/** A sheet on which nothing stands yet; the slope is that of the standard tester. */
export const EMPTY_DRAFT: BenchDraft = {
  name: '',
  lot: '',
  date: '',
  note: '',
  invented: false,
  greatestStretch: null,
  weigh: { length: '', width: '', weighed: 'apart', unit: 'g', apart: NO_REPEATS, together: [] },
  thickness: { values: [], pressure: '', standard: null },
  stretch: {
    test: 'strip',
    cycle: '',
    gauge: '',
    width: '',
    circumference: '',
    units: { extension: '%', force: 'N', width: 'mm' },
    strips: {
      warp: [EMPTY_SPECIMEN],
      weft: [EMPTY_SPECIMEN],
      bias: [EMPTY_SPECIMEN],
      held: [EMPTY_SPECIMEN],
    },
    heldDirection: 'warp',
  },
  bend: { kind: 'cantilever', angle: '41.5', stripLength: '', overhang: NO_REPEATS, loopHeight: NO_REPEATS },
};

/** Parts of a draft that are groups of fields. */
export type DraftPart = 'weigh' | 'thickness' | 'stretch' | 'bend';

/** The draft with some fields of one part changed. */
export const withPart = <P extends DraftPart>(
  draft: BenchDraft,
  part: P,
  fields: Partial<BenchDraft[P]>,
): BenchDraft => ({ ...draft, [part]: { ...draft[part], ...fields } });

/** The list with one item changed; filled up with `blank` where it was shorter. */
export function withItem<T>(list: readonly T[], index: number, item: T, blank: T): readonly T[] {
  const longer = [...list];
  while (longer.length <= index) longer.push(blank);
  longer[index] = item;
  return longer;
}

/** Without the blank items at the end. */
export function trimmed<T>(list: readonly T[], isBlank: (item: T) => boolean): readonly T[] {
  let end = list.length;
  while (end > 0 && isBlank(list[end - 1]!)) end--;
  return list.slice(0, end);
}

export const isBlank = (text: string): boolean => text.trim() === '';
export const isBlankRow = ([extension, reading]: PairRow): boolean => isBlank(extension) && isBlank(reading);

/** The draft with one reading table of one specimen changed. */
export function withTable(
  draft: BenchDraft,
  at: { readonly strip: StripName; readonly specimen: number; readonly curve: CurveName },
  rows: readonly PairRow[],
): BenchDraft {
  const { strips } = draft.stretch;
  const specimens = strips[at.strip];
  const specimen = { ...(specimens[at.specimen] ?? EMPTY_SPECIMEN), [at.curve]: trimmed(rows, isBlankRow) };
  return withPart(draft, 'stretch', {
    strips: { ...strips, [at.strip]: withItem(specimens, at.specimen, specimen, EMPTY_SPECIMEN) },
  });
}

/** One more strip of the same cut, nothing read on it yet. */
export const withSpecimen = (draft: BenchDraft, strip: StripName): BenchDraft =>
  withStrip(draft, strip, [...draft.stretch.strips[strip], EMPTY_SPECIMEN]);

/** Without one strip; the last one is emptied, not taken away. */
export function withoutSpecimen(draft: BenchDraft, strip: StripName, specimen: number): BenchDraft {
  const left = draft.stretch.strips[strip].filter((_, index) => index !== specimen);
  return withStrip(draft, strip, left);
}

/** All strips of one direction replaced, as when they come from a tester's table. */
export const withStrip = (
  draft: BenchDraft,
  strip: StripName,
  specimens: readonly SpecimenDraft[],
): BenchDraft =>
  withPart(draft, 'stretch', {
    strips: { ...draft.stretch.strips, [strip]: specimens.length > 0 ? specimens : [EMPTY_SPECIMEN] },
  });

/** True where nothing was typed on any of these tables. */
export const isBlankSpecimen = (specimen: SpecimenDraft): boolean =>
  CURVES.every((curve) => specimen[curve].every(isBlankRow));

/** A number as typed, with a point or a comma; null where it is none. */
export function numberIn(text: string): number | null {
  const plain = text.trim().replace('\u2212', '-').replace(',', '.');
  if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(plain)) return null;
  const value = Number(plain);
  return Number.isFinite(value) ? value : null;
}
