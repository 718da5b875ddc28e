import type { BenchSheet } from '../../core/io/bench-sheet.ts';
import type { Direction } from '../../core/fabric/fabric.ts';
import type { BenchStep, ProblemKind } from '../../core/words/bench-place-words.ts';
import type { SheetParts } from '../worker/bench-messages.ts';
import {
  CURVES,
  DIRECTIONS,
  EMPTY_DRAFT,
  isBlank,
  isBlankSpecimen,
  numberIn,
  type BenchDraft,
  type CurveName,
  type PairRow,
  type Repeats,
  type StripName,
} from './bench-draft.ts';

export interface DraftProblem {
  readonly step: BenchStep | 'label';
  /** The field, as `weigh.length` or `stretch.warp[0].load[3][1]`. */
  readonly place: string;
  readonly kind: ProblemKind;
}

/** A draft as far as it can be read. */
export interface ReadDraft {
  readonly problems: readonly DraftProblem[];
  readonly parts: SheetParts;
  /** Null while any problem stands. */
  readonly sheet: BenchSheet | null;
}

/** Collects problems of one step. */
type Complain = (place: string, kind: ProblemKind) => void;

/** Reads a draft: the sheet, or every field that keeps it from being one. */
export function sheetFromDraft(draft: BenchDraft): ReadDraft {
  const problems: DraftProblem[] = [];
  const complain =
    (step: DraftProblem['step']): Complain =>
    (place, kind) =>
      problems.push({ step, place, kind });
  const label = readLabel(draft, complain('label'));
  const parts: SheetParts = {
    strip: readStrip(draft.weigh, complain('weigh')),
    thickness: readThickness(draft.thickness, complain('thickness')),
    stretch: readStretch(draft.stretch, complain('stretch')),
    bending: readBending(draft.bend, complain('bend')),
  };
  if (draft.greatestStretch === null) complain('stretch')('greatestStretch', 'asked');
  const { strip, thickness, stretch, bending } = parts;
  const isWhole =
    problems.every(({ kind }) => kind === 'asked') &&
    strip !== null &&
    thickness !== null &&
    stretch !== null &&
    bending !== null;
  return {
    problems,
    parts,
    sheet: isWhole ? { snugfieldBench: 1, ...label, strip, thickness, stretch, bending } : null,
  };
}

/** Only what is wrong, not what is still to be read. */
export const wrongFields = (problems: readonly DraftProblem[]): readonly DraftProblem[] =>
  problems.filter(({ kind }) => kind !== 'missing' && kind !== 'asked');

type Label = Pick<BenchSheet, 'name' | 'lot' | 'date' | 'invented' | 'note' | 'greatestStretch'>;

function readLabel(draft: BenchDraft, complain: Complain): Label {
  if (isBlank(draft.name)) complain('name', 'missing');
  const date = draft.date.trim();
  if (date === '') complain('date', 'missing');
  else if (!isDate(date)) complain('date', 'notDate');
  return {
    name: draft.name.trim(),
    lot: draft.lot.trim(),
    date,
    invented: draft.invented,
    ...(isBlank(draft.note) ? {} : { note: draft.note.trim() }),
    ...(draft.greatestStretch === null ? {} : { greatestStretch: draft.greatestStretch }),
  };
}

/** A day of the calendar, `2025-03-14`. */
function isDate(text: string): boolean {
  const day = /^\d{4}-\d{2}-\d{2}$/.test(text) ? new Date(`${text}T00:00:00Z`) : null;
  return day !== null && !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text);
}

/** A number above 0 that must be there. */
function positive(text: string, place: string, complain: Complain): number {
  if (isBlank(text)) {
    complain(place, 'missing');
    return Number.NaN;
  }
  return positiveCell(text, place, complain);
}

/** A number above 0 where something stands. */
function positiveCell(text: string, place: string, complain: Complain): number {
  const value = numberIn(text);
  if (value === null) complain(place, 'notNumber');
  else if (value <= 0) complain(place, 'notPositive');
  return value ?? Number.NaN;
}

/** Repeats, the blank ones left out; at least one must be there. A single one stands alone. */
function repeatsOf(texts: Repeats, place: string, complain: Complain): number | number[] {
  const values = texts.flatMap((text, index) =>
    isBlank(text) ? [] : [positiveCell(text, `${place}[${index}]`, complain)],
  );
  if (values.length === 0) complain(`${place}[0]`, 'missing');
  return values.length === 1 ? values[0]! : values;
}

function eachRepeats(
  texts: Readonly<Record<Direction, Repeats>>,
  step: string,
  complain: Complain,
): Record<Direction, number | number[]> {
  const [warp, weft, bias] = DIRECTIONS.map((direction) =>
    repeatsOf(texts[direction], `${step}.${direction}`, complain),
  );
  return { warp: warp!, weft: weft!, bias: bias! };
}

/** Gives null where `read` complained. */
function unlessFaulty<T>(complain: Complain, read: (complain: Complain) => T): T | null {
  let count = 0;
  const value = read((place, kind) => {
    count++;
    complain(place, kind);
  });
  return count === 0 ? value : null;
}

const readStrip = (weigh: BenchDraft['weigh'], complain: Complain): BenchSheet['strip'] | null =>
  unlessFaulty(complain, (note) => {
    const size = {
      lengthMm: positive(weigh.length, 'weigh.length', note),
      widthMm: positive(weigh.width, 'weigh.width', note),
    };
    const grams = (masses: number | number[]): number | number[] =>
      Array.isArray(masses)
        ? masses.map((mass) => gramsFrom(mass, weigh.unit))
        : gramsFrom(masses, weigh.unit);
    if (weigh.weighed === 'together') {
      return { ...size, massTogetherG: grams(repeatsOf(weigh.together, 'weigh.together', note)) };
    }
    const { warp, weft, bias } = eachRepeats(weigh.apart, 'weigh', note);
    return { ...size, massG: { warp: grams(warp), weft: grams(weft), bias: grams(bias) } };
  });

/** Rounded to twelve figures, so that 2112 mg is 2.112 g and not a neighbour of it. */
const gramsFrom = (mass: number, unit: 'g' | 'mg'): number =>
  unit === 'g' ? mass : Number((mass / 1000).toPrecision(12));

const readThickness = (
  thickness: BenchDraft['thickness'],
  complain: Complain,
): BenchSheet['thickness'] | null =>
  unlessFaulty(complain, (note) => ({
    mm: repeatsOf(thickness.values, 'thickness.values', note),
    pressureKPa: positive(thickness.pressure, 'thickness.pressure', note),
    ...(thickness.standard === null ? {} : { standard: thickness.standard }),
  }));

const readBending = (bend: BenchDraft['bend'], complain: Complain): BenchSheet['bending'] | null =>
  unlessFaulty(complain, (note) =>
    bend.kind === 'cantilever'
      ? {
          angleDeg: positive(bend.angle, 'bend.angle', note),
          overhangMm: eachRepeats(bend.overhang, 'bend', note),
        }
      : {
          heartLoop: {
            stripLengthMm: positive(bend.stripLength, 'bend.stripLength', note),
            loopHeightMm: eachRepeats(bend.loopHeight, 'bend', note),
          },
        },
  );

type StretchSheet = BenchSheet['stretch'];
type Pairs = StretchSheet['warp']['load'];
type Pair = [number, number];

function readStretch(stretch: BenchDraft['stretch'], complain: Complain): StretchSheet | null {
  return unlessFaulty(complain, (note) => {
    const { strips, heldDirection } = stretch;
    const held = strips.held.some((specimen) => !isBlankSpecimen(specimen))
      ? {
          heldWidth: {
            direction: heldDirection,
            load: pairsOf(stretch, { strip: 'held', curve: 'load' }, note)!,
          },
        }
      : {};
    return {
      ...readTest(stretch, note),
      warp: stripOf(stretch, 'warp', note),
      weft: stripOf(stretch, 'weft', note),
      bias: stripOf(stretch, 'bias', note),
      ...held,
    };
  });
}

type TestSheet = Omit<StretchSheet, Direction | 'heldWidth'>;

/** How the strips were pulled. What is as usual is left out, so that a plain sheet stays plain. */
function readTest(stretch: BenchDraft['stretch'], note: Complain): TestSheet {
  const usual = EMPTY_DRAFT.stretch.units;
  const { extension, force, width } = stretch.units;
  const units = {
    ...(extension === usual.extension ? {} : { extension }),
    ...(force === usual.force ? {} : { force }),
    ...(width === usual.width ? {} : { width }),
  };
  const isLoop = stretch.test === 'loop';
  const needsCircumference = isLoop && extension === 'mm';
  const circumference = stretch.circumference;
  return {
    ...(isLoop ? { test: stretch.test } : {}),
    ...(isBlank(stretch.cycle) ? {} : { cycle: wholeNumber(stretch.cycle, 'stretch.cycle', note) }),
    gaugeMm: positive(stretch.gauge, 'stretch.gauge', note),
    widthMm: positive(stretch.width, 'stretch.width', note),
    ...(isLoop && (needsCircumference || !isBlank(circumference))
      ? { circumferenceMm: positive(circumference, 'stretch.circumference', note) }
      : {}),
    ...(Object.keys(units).length > 0 ? { units } : {}),
  };
}

function wholeNumber(text: string, place: string, complain: Complain): number {
  const value = positiveCell(text, place, complain);
  if (value > 0 && !Number.isInteger(value)) complain(place, 'notWhole');
  return value;
}

function stripOf(stretch: BenchDraft['stretch'], strip: Direction, note: Complain): StretchSheet['warp'] {
  const [load, back, width] = CURVES.map((curve) => pairsOf(stretch, { strip, curve }, note));
  return {
    load: load!,
    ...(back === null || back === undefined ? {} : { return: back }),
    ...(width === null || width === undefined ? {} : { width }),
  };
}

/** One table of every specimen; null where none of them has a reading (which is wrong only of the load). */
function pairsOf(
  stretch: BenchDraft['stretch'],
  { strip, curve }: { readonly strip: StripName; readonly curve: CurveName },
  note: Complain,
): Pairs | null {
  const lists = stretch.strips[strip].flatMap((specimen, index) => {
    const list = rowsOf(specimen[curve], { place: `stretch.${strip}[${index}].${curve}`, curve }, note);
    return list.length === 0 ? [] : [list];
  });
  if (lists.length === 0) {
    if (curve === 'load') note(`stretch.${strip}[0].load[0][0]`, 'missing');
    return null;
  }
  return lists.length === 1 ? lists[0]! : lists;
}

function rowsOf(
  rows: readonly PairRow[],
  { place, curve }: { readonly place: string; readonly curve: CurveName },
  note: Complain,
): Pair[] {
  return rows.flatMap(([extension, reading], row): Pair[] => {
    if (isBlank(extension) && isBlank(reading)) return [];
    const extensionPlace = `${place}[${row}][0]`;
    const readingPlace = `${place}[${row}][1]`;
    return [
      [
        cellOf(extension, extensionPlace, { note, isAllowed: (value) => value >= 0, otherwise: 'negative' }),
        cellOf(reading, readingPlace, {
          note,
          // A little below 0 is a load cell's noise; the fabric's own guards judge forces.
          isAllowed: (value) => curve !== 'width' || value > 0,
          otherwise: 'notPositive',
        }),
      ],
    ];
  });
}

function cellOf(
  text: string,
  place: string,
  rule: { note: Complain; isAllowed: (value: number) => boolean; otherwise: ProblemKind },
): number {
  if (isBlank(text)) {
    // The other half of the row stands there.
    rule.note(place, 'missing');
    return Number.NaN;
  }
  const value = numberIn(text);
  if (value === null) rule.note(place, 'notNumber');
  else if (!rule.isAllowed(value)) rule.note(place, rule.otherwise);
  return value ?? Number.NaN;
}
