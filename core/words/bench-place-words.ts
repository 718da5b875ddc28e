import type { Direction } from '../fabric/fabric.ts';
import type { ExtensionUnit, ForceUnit, WidthUnit } from '../io/bench-sheet.ts';

/** What the bench is made of, in the order of work. */
export type BenchPart = 'library' | 'readings' | 'curves' | 'swatch' | 'card';

export const BENCH_PART_WORDS: Readonly<Record<BenchPart, string>> = {
  library: 'Library',
  readings: 'Readings',
  curves: 'Curves',
  swatch: 'Swatch',
  card: 'Card',
};

export const BENCH_PART_ORDER: readonly BenchPart[] = ['library', 'readings', 'curves', 'swatch', 'card'];

/** The steps of taking readings, in the order of work. */
export type BenchStep = 'weigh' | 'thickness' | 'stretch' | 'bend';

export const STEP_WORDS: Readonly<Record<BenchStep, string>> = {
  weigh: 'Weigh',
  thickness: 'Thickness',
  stretch: 'Stretch',
  bend: 'Bend',
};

export const STEP_ORDER: readonly BenchStep[] = ['weigh', 'thickness', 'stretch', 'bend'];

/** What is done in each step, in a line. */
export const STEP_LINES: Readonly<Record<BenchStep, string>> = {
  weigh: 'Cut strips of one size, one in each direction or more, and weigh them.',
  thickness: 'Lay the foot down on five or more places, away from the selvedge.',
  stretch: 'Pull a strip of each direction, let it back, and read its width at mid-length.',
  bend: 'Push a strip over the edge until its end meets the slope, or hang it as a loop.',
};

/** What keeps a field from being read; `asked` is a question that a sheet may leave open. */
export type ProblemKind =
  'asked' | 'missing' | 'notNumber' | 'notPositive' | 'negative' | 'notWhole' | 'notDate';

/** Said beside the field. */
export const PROBLEM_WORDS: Readonly<Record<ProblemKind, (typed: string) => string>> = {
  asked: () => 'Not said yet.',
  missing: () => 'Not read yet.',
  notNumber: (typed) => `“${shortened(typed)}” is no number: write it like 2.1 or 2,1.`,
  notPositive: (typed) => `${shortened(typed)} must be above 0.`,
  negative: (typed) => `${shortened(typed)}: an extension is never below 0.`,
  notWhole: (typed) => `${shortened(typed)}: cycles are counted 1, 2, 3.`,
  notDate: (typed) => `“${shortened(typed)}” is no day: write it like 2025-03-14.`,
};

const shortened = (text: string): string => {
  const trimmed = text.trim();
  return trimmed.length > 16 ? `${trimmed.slice(0, 15)}…` : trimmed;
};

const CURVE_PLACES: Readonly<Record<string, string>> = {
  load: 'pulled out',
  return: 'let back',
  width: 'width',
};

/** Fields by their place in the draft. */
const FIELD_PLACES: Readonly<Record<string, string>> = {
  name: 'name of the fabric',
  lot: 'lot',
  date: 'day of the readings',
  greatestStretch: 'which way it stretches most',
  'weigh.length': 'length of the strips',
  'weigh.width': 'width of the strips',
  'weigh.together': 'masses weighed together',
  'weigh.warp': 'masses of the warp strips',
  'weigh.weft': 'masses of the weft strips',
  'weigh.bias': 'masses of the bias strips',
  'thickness.values': 'thickness',
  'thickness.pressure': 'pressure of the foot',
  'stretch.gauge': 'gauge length',
  'stretch.width': 'strip width',
  'stretch.circumference': 'circumference of the loop',
  'stretch.cycle': 'cycle',
  'bend.angle': 'slope of the tester',
  'bend.stripLength': 'length of the strip in the loop',
  'bend.warp': 'warp',
  'bend.weft': 'weft',
  'bend.bias': 'bias',
};

/** A field as it is called in a sentence: `warp, pulled out`. */
export function fieldPlaceWords(place: string): string {
  const pair = /^stretch\.(\w+)\[(\d+)\]\.(\w+)\[(\d+)\]/.exec(place);
  if (pair !== null) {
    const [, strip = '', , curve = ''] = pair;
    return strip === 'held' ? 'held width' : `${strip}, ${CURVE_PLACES[curve] ?? curve}`;
  }
  return FIELD_PLACES[place.replace(/\[\d+\]$/, '')] ?? place;
}

/** `Still to read: length of the strips, thickness.` */
export function stillToReadWords(places: readonly string[]): string {
  const names = [...new Set(places.map(fieldPlaceWords))];
  return `Still to read: ${names.join(', ')}.`;
}

/** Units as they are printed; the order is that of the choice. */
export const EXTENSION_UNIT_WORDS: Readonly<Record<ExtensionUnit, string>> = {
  '%': '%',
  mm: 'mm',
  ratio: 'ratio',
};
export const FORCE_UNIT_WORDS: Readonly<Record<ForceUnit, string>> = {
  N: 'N',
  cN: 'cN',
  gf: 'gf',
  kgf: 'kgf',
  'N/m': 'N/m',
  'N/5 cm': 'N/5 cm',
  'gf/cm': 'gf/cm',
};
export const WIDTH_UNIT_WORDS: Readonly<Record<WidthUnit, string>> = { mm: 'mm', '%': '%', ratio: 'ratio' };

/** What an extension in mm is of; it differs between strip and loop. */
export const EXTENSION_MM_WORDS = {
  strip: 'mm: how much longer the gauge has become.',
  loop: 'mm: how far the grips have travelled.',
} as const;

/** Strips by their cut. */
export const STRIP_WORDS: Readonly<Record<Direction | 'held', string>> = {
  warp: 'Warp',
  weft: 'Weft',
  bias: 'Bias',
  held: 'Held width',
};

/** The three tables of a strip. */
export const TABLE_WORDS = {
  load: { title: 'Pulled out', reading: 'Force' },
  return: { title: 'Let back', reading: 'Force' },
  width: { title: 'Width', reading: 'Width' },
} as const;

/** On the corner that turns the numbers over to their remarks. */
export const moreRemarks = (count: number): string =>
  count === 1 ? 'One more remark' : `${count} more remarks`;

/** Short hints beside fields, once each. */
export const BENCH_HINTS = {
  empty:
    'Type what the instruments say; or open a sheet or a tester’s table, or drop it here. A fabric comes out as soon as all four steps are read.',
  turnBack: 'Back to the numbers',
  together: 'One strip of each direction on the pan at once, as ISO 3801 has it.',
  apart: 'Each direction for itself; blank cells are not counted.',
  pressure: 'Values taken under unlike pressures are not compared.',
  iso: 'ISO 5084: 1 kPa is usual for cloth; 0.1 kPa for what a foot would crush.',
  astm: 'ASTM D1777: the foot’s pressure depends on the kind of cloth; say which was used.',
  width: 'Read at mid-length, away from the clamps.',
  loopForce: 'Forces as the machine shows them: both legs of the loop.',
  held: 'May be left out. A strip wide and short, its width held: it fixes how warp and weft pull together.',
  paste: 'Two columns can be pasted from a spreadsheet.',
  slope: '41.5° is the standard tester.',
  overhang: 'What hangs over the edge, not what lies on the table.',
  loopHeight: 'From the clamps down to the lowest point; for knits that curl.',
} as const;

/** What the bench's words do. */
export const BENCH_DEEDS = {
  toBench: 'To the bench',
  toStage: 'To the stage',
  open: 'Open',
  save: 'Save',
  fresh: 'New',
  undo: 'Undo',
  redo: 'Redo',
  putOn: (letter: string) => `Put on the form as ${letter}`,
} as const;

/** What the bench tells of itself. */
export const BENCH_NOTICES = {
  noStudy: {
    what: 'There is no study on the stage to put this fabric into.',
    remedy: 'Go to the stage (N), open a study or the demonstration, then come back.',
  },
  unfinished: {
    what: 'This sheet is not whole yet.',
    remedy: 'The steps say what is still to be read.',
  },
  refused: {
    what: 'These readings make no fabric yet.',
    remedy: 'The remark beside the readings says why.',
  },
} as const;

/** A tester's table before its strips are taken over. */
export const IMPORT_WORDS = {
  title: 'A tester’s table',
  putAway: 'Put away',
  understood: (rows: number, test: 'strip' | 'loop') =>
    `${rows} rows, ${test === 'loop' ? 'pulled as loops' : 'pulled as strips'}. This is how the columns were understood:`,
  noHeader: 'no header',
  readAs: (column: number) => `Column ${column} is read as`,
  left: (more: number) => `${more} more columns`,
  takeOver: 'Take over',
  cycle: 'Which loading?',
  unsaid: 'Strips whose direction the table does not say',
  goesTo: (name: string) => `${name} go to`,
  specimensOf: (name: string) => `Specimens: ${name}`,
  choose: 'choose',
  leaveOut: 'left out',
  comma: 'a decimal comma',
  point: 'a decimal point',
  likely: (unit: string) => `${unit} (likely)`,
} as const;

export const DIRECTION_ANSWERS: readonly { readonly direction: Direction; readonly word: string }[] = [
  { direction: 'warp', word: 'warp' },
  { direction: 'weft', word: 'weft' },
  { direction: 'bias', word: 'bias' },
];

/** The little curve beside the tables, for whoever cannot see it. */
export const typedCurveLabel = (strip: Direction | 'held', count: number): string =>
  `${STRIP_WORDS[strip]}: force against extension as typed, ${count === 1 ? 'one strip' : `${count} strips`}.`;
