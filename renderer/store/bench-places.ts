import type { Direction } from '../../core/fabric/fabric.ts';
import type { BenchStep } from '../../core/words/bench-place-words.ts';
import type { PostedFault } from '../worker/messages.ts';
import type { Finding } from '../../core/fault/finding.ts';
import {
  CURVES,
  DIRECTIONS,
  isBlank,
  isBlankRow,
  numberIn,
  STRIPS,
  type BenchDraft,
  type CurveName,
  type StripName,
} from './bench-draft.ts';

/** Where a remark belongs on the bench: a step and, as far as that can be told, the strip, the table and the field. */
export interface RemarkPlace {
  readonly step: BenchStep | 'label';
  readonly strip: StripName | null;
  readonly curve: CurveName | null;
  /** As {@link DraftProblem}'s place; null where no single field can be named. */
  readonly field: string | null;
}

type Facts = Readonly<Record<string, unknown>>;

const NOWHERE: Omit<RemarkPlace, 'step'> = { strip: null, curve: null, field: null };

/** Where a fault of the sheet belongs. */
export function placeOfFault({ code, facts }: PostedFault, draft: BenchDraft): RemarkPlace {
  if (code === 'file/wrong-shape') return placeOfPath(facts.path, draft);
  return placeOfFacts(code, { ...facts }, draft);
}

/** Where a finding belongs. */
export const placeOfFinding = ({ code, facts }: Finding, draft: BenchDraft): RemarkPlace =>
  placeOfFacts(code, { ...facts }, draft);

function placeOfFacts(code: string, facts: Facts, draft: BenchDraft): RemarkPlace {
  const direction = directionIn(facts);
  if ('massG' in facts) return { ...NOWHERE, step: 'weigh', strip: direction, field: massField(direction) };
  if ('thicknessMm' in facts || 'densityKgM3' in facts || code.startsWith('bench/thickness'))
    return { ...NOWHERE, step: 'thickness', field: 'thickness.values[0]' };
  if ('overhangMm' in facts || 'heightMm' in facts || code.startsWith('bench/bending'))
    return { ...NOWHERE, step: 'bend', strip: direction, field: direction && `bend.${direction}[0]` };
  const strip: StripName | null = code.startsWith('bench/held')
    ? 'held'
    : code.startsWith('bench/bias')
      ? 'bias'
      : direction;
  const curve = curveIn(code, facts);
  return { step: 'stretch', strip, curve, field: strip && cellAt(draft, strip, curve, facts) };
}

const massField = (direction: Direction | null): string | null => direction && `weigh.${direction}[0]`;

const directionIn = (facts: Facts): Direction | null =>
  DIRECTIONS.find((direction) => direction === facts['direction']) ?? null;

function curveIn(code: string, facts: Facts): CurveName | null {
  if ('widthMm' in facts || code.includes('width')) return code.startsWith('bench/held') ? 'load' : 'width';
  if (facts['branch'] === 'return' || 'returnN' in facts || code.startsWith('bench/return')) return 'return';
  return 'extensionPercent' in facts || 'branch' in facts || 'forceN' in facts ? 'load' : null;
}

/** The cell whose extension the facts name, in the first specimen that has it. */
function cellAt(draft: BenchDraft, strip: StripName, curve: CurveName | null, facts: Facts): string | null {
  const percent = facts['extensionPercent'];
  if (curve === null || typeof percent !== 'number') return null;
  for (const [specimen, tables] of draft.stretch.strips[strip].entries()) {
    const row = tables[curve].findIndex(([extension]) => isNear(percentOf(extension, draft), percent));
    if (row >= 0) return `stretch.${strip}[${specimen}].${curve}[${row}][1]`;
  }
  return null;
}

const isNear = (one: number | null, other: number): boolean =>
  one !== null && Math.abs(one - other) < 1e-6 * Math.max(1, Math.abs(other));

/** A typed extension in percent; null where it cannot be told. Reads in both tests as the sheet's reader does. */
function percentOf(text: string, { stretch }: BenchDraft): number | null {
  const value = numberIn(text);
  if (value === null) return null;
  switch (stretch.units.extension) {
    case '%':
      return value;
    case 'ratio':
      return 100 * value;
    case 'mm': {
      const isLoop = stretch.test === 'loop';
      const length = numberIn(isLoop ? stretch.circumference : stretch.gauge);
      return length === null ? null : (100 * (isLoop ? 2 : 1) * value) / length;
    }
  }
}

const FIELDS: Readonly<Record<string, string>> = {
  name: 'name',
  lot: 'lot',
  date: 'date',
  'strip.lengthMm': 'weigh.length',
  'strip.widthMm': 'weigh.width',
  'thickness.pressureKPa': 'thickness.pressure',
  'stretch.cycle': 'stretch.cycle',
  'stretch.gaugeMm': 'stretch.gauge',
  'stretch.widthMm': 'stretch.width',
  'stretch.circumferenceMm': 'stretch.circumference',
  'bending.angleDeg': 'bend.angle',
  'bending.heartLoop.stripLengthMm': 'bend.stripLength',
};

/** Lists of repeats: where they stand in a sheet, and in a draft. */
const REPEATS: readonly { readonly path: RegExp; readonly step: BenchStep; readonly field: string }[] = [
  { path: /^strip\.massG\.(warp|weft|bias)(?:\[(\d+)\])?$/, step: 'weigh', field: 'weigh.$' },
  { path: /^strip\.(massTogetherG)(?:\[(\d+)\])?$/, step: 'weigh', field: 'weigh.together' },
  { path: /^thickness\.(mm)(?:\[(\d+)\])?$/, step: 'thickness', field: 'thickness.values' },
  { path: /^bending\.overhangMm\.(warp|weft|bias)(?:\[(\d+)\])?$/, step: 'bend', field: 'bend.$' },
  {
    path: /^bending\.heartLoop\.loopHeightMm\.(warp|weft|bias)(?:\[(\d+)\])?$/,
    step: 'bend',
    field: 'bend.$',
  },
];

const PAIR = /^stretch\.(?:(warp|weft|bias)\.(load|return|width)|heldWidth\.load)((?:\[\d+\])*)$/;

/** Where a path of the sheet, `stretch.warp.load[3][1]`, stands in the draft. */
function placeOfPath(path: string, draft: BenchDraft): RemarkPlace {
  const step = stepOfPath(path);
  const plain = FIELDS[path];
  if (plain !== undefined) return { ...NOWHERE, step, field: plain };
  for (const { path: pattern, step: itsStep, field } of REPEATS) {
    const match = pattern.exec(path);
    if (match === null) continue;
    const [, name = '', index = '0'] = match;
    const place = field.replace('$', name);
    return { ...NOWHERE, step: itsStep, field: `${place}[${rawRepeat(draft, place, Number(index))}]` };
  }
  const pair = PAIR.exec(path);
  return pair === null ? { ...NOWHERE, step } : placeOfPair(pair, draft);
}

function stepOfPath(path: string): RemarkPlace['step'] {
  const [part] = path.split('.');
  return part === 'strip'
    ? 'weigh'
    : part === 'thickness' || part === 'stretch'
      ? part
      : part === 'bending'
        ? 'bend'
        : 'label';
}

function placeOfPair(match: RegExpExecArray, draft: BenchDraft): RemarkPlace {
  const [, direction = 'held', table = 'load'] = match;
  const strip = STRIPS.find((name) => name === direction) ?? 'held';
  const curve = CURVES.find((name) => name === table) ?? 'load';
  const tables = draft.stretch.strips[strip].map((specimen) => specimen[curve]);
  const filled = [...tables.keys()].filter((at) => tables[at]!.some((row) => !isBlankRow(row)));
  const numbers = Array.from(match[3]!.matchAll(/\d+/g), ([text]) => Number(text));
  // A lone specimen stands in the sheet without a list round it.
  const [ofSpecimen = 0, ofRow = 0, cell = 1] = filled.length > 1 ? numbers : [0, ...numbers];
  const specimen = filled[ofSpecimen] ?? 0;
  const row = filledAt(tables[specimen] ?? [], isBlankRow)[ofRow] ?? 0;
  return { step: 'stretch', strip, curve, field: `stretch.${strip}[${specimen}].${curve}[${row}][${cell}]` };
}

/** Where in a list something stands. */
const filledAt = <T>(list: readonly T[], isEmpty: (item: T) => boolean): number[] =>
  [...list.keys()].filter((at) => !isEmpty(list[at]!));

/** Blank repeats are left out of a sheet: the place of its n-th one in the draft. */
function rawRepeat({ weigh, thickness, bend }: BenchDraft, place: string, index: number): number {
  const [part, name = ''] = place.split('.');
  const direction = DIRECTIONS.find((one) => one === name);
  const bent = bend.kind === 'cantilever' ? bend.overhang : bend.loopHeight;
  const texts =
    part === 'thickness'
      ? thickness.values
      : direction === undefined
        ? weigh.together
        : (part === 'weigh' ? weigh.apart : bent)[direction];
  return filledAt(texts, isBlank)[index] ?? 0;
}
