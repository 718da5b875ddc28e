import type { Branch, Direction } from '../fabric/fabric.ts';
import type { FieldId } from '../fields/field.ts';
import type { TubeRegion } from '../garment/tube-sheet.ts';
import type { Showing } from '../sheet/field-range.ts';
import { fixed } from '../sheet/number-format.ts';
import type { BodyChoice, StudyProgress } from '../study/study.ts';
import { fieldHeading } from './field-words.ts';

/** The leaves down the left edge, in the order of work. */
export type LeafName = 'fabric' | 'body' | 'garment' | 'try' | 'review';

export const LEAF_WORDS: Readonly<Record<LeafName, string>> = {
  fabric: 'Fabric',
  body: 'Body',
  garment: 'Garment',
  try: 'Try',
  review: 'Review',
};

export const LEAF_ORDER: readonly LeafName[] = ['fabric', 'body', 'garment', 'try', 'review'];

/** Standard views. */
export type ViewName = 'front' | 'back' | 'left' | 'right' | 'threeQuarter';

export const VIEW_WORDS: Readonly<Record<ViewName, string>> = {
  front: 'Front',
  back: 'Back',
  left: 'Left',
  right: 'Right',
  threeQuarter: 'Three-quarter',
};

/** As one walks round the form. */
export const VIEW_ORDER: readonly ViewName[] = ['front', 'threeQuarter', 'left', 'back', 'right'];

/** The key of each view. */
export const VIEW_KEYS: Readonly<Record<ViewName, string>> = {
  front: 'F',
  back: 'B',
  left: 'L',
  right: 'R',
  threeQuarter: 'T',
};

/** One line of the help leaf. */
export interface KeyLine {
  readonly keys: readonly string[];
  readonly does: string;
}

/** Every key the window listens to. */
export const KEY_LINES: readonly { readonly title: string; readonly lines: readonly KeyLine[] }[] = [
  {
    title: 'The map',
    lines: [
      { keys: ['1', '–', '9'], does: 'choose what is painted' },
      { keys: ['Space'], does: 'swap fabric A and B' },
      { keys: ['D'], does: 'show B minus A, and back' },
      { keys: ['C'], does: 'change the colours: viridis or cividis' },
      { keys: ['A'], does: 'fit the range to the values, once' },
    ],
  },
  {
    title: 'The paper',
    lines: [
      { keys: ['O'], does: 'open a study, at the bench a sheet; or drop files on the table' },
      { keys: ['I'], does: 'bring in a body of your own, from a mesh' },
      { keys: ['P'], does: 'save a picture' },
      {
        keys: ['Esc'],
        does: 'stop a run or a try, close a leaf, leave the bench or a body that is brought in',
      },
      { keys: ['?'], does: 'this leaf' },
    ],
  },
  {
    title: 'Both places',
    lines: [
      { keys: ['N'], does: 'to the bench, and back to the stage' },
      { keys: ['Ctrl+Z'], does: 'take back what was typed, tried or shown' },
      { keys: ['Ctrl+Shift+Z'], does: 'do it again' },
    ],
  },
  {
    title: 'The form',
    lines: [
      { keys: ['F', 'B', 'L', 'R'], does: 'front, back, left, right' },
      { keys: ['T'], does: 'three-quarter' },
      { keys: ['Z'], does: 'garment close, or the whole form' },
      { keys: ['←', '→', '↑', '↓'], does: 'turn by 15 degrees' },
      { keys: ['+', '−'], does: 'nearer, farther' },
      { keys: ['drag'], does: 'turn; with the right button move; wheel to come near' },
    ],
  },
];

/** How far a run has come, in words. */
export interface ProgressWords {
  readonly doing: string;
  readonly detail: string;
}

export function progressWords(progress: StudyProgress, fabricName: string): ProgressWords {
  switch (progress.step) {
    case 'body':
      return { doing: 'Standing the body up', detail: '' };
    case 'garment':
      return { doing: 'Laying the garment on the body', detail: '' };
    case 'settle': {
      const { level, levelCount, iteration, residual } = progress.settle;
      return {
        doing: `${fabricName} settles`,
        detail: `mesh ${level + 1} of ${levelCount}, step ${iteration}, unbalanced ${residualText(residual)}`,
      };
    }
    default: {
      const never: never = progress;
      return never;
    }
  }
}

const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';

/** `3·10⁻⁵`: a residual as a person writes it. */
export function residualText(residual: number): string {
  if (residual === 0) return '0';
  if (!Number.isFinite(residual)) return 'not a number';
  const power = Math.floor(Math.log10(residual));
  if (power >= -2 && power < 3) return fixed(residual, Math.max(0, 2 - power - 1));
  const lead = Math.round(residual / 10 ** power);
  const [digit, exponent] = lead === 10 ? [1, power + 1] : [lead, power];
  const raised = Array.from(String(Math.abs(exponent)), (figure) => SUPERSCRIPTS[Number(figure)]).join('');
  return `${digit}·10${exponent < 0 ? '⁻' : ''}${raised}`;
}

export const BRANCH_WORDS: Readonly<Record<Branch, string>> = {
  load: 'pulled on: load curve',
  return: 'let back: return curve',
};

export const DIRECTION_WORDS: Readonly<Record<Direction, string>> = {
  warp: 'Warp',
  weft: 'Weft',
  bias: 'Bias',
};

export const WARP_WORDS: Readonly<Record<'along' | 'around', string>> = {
  along: 'Warp runs up the body, weft goes around',
  around: 'Warp goes around the body, weft runs up',
};

export const REGION_WORDS: Readonly<Record<TubeRegion, string>> = {
  trunk: 'the trunk',
  leftLeg: 'the left leg',
  rightLeg: 'the right leg',
  whole: 'the whole form',
};

export const BODY_WORDS: Readonly<Record<BodyChoice['kind'], string>> = {
  fitBody: 'The studio form, shaped to the measures of the study. A tape goes round it at these heights.',
  mesh: 'A form read from a file. A tape goes round it at these heights.',
};

/** A, B, C ... */
export const fabricLetter = (index: number): string => String.fromCodePoint(65 + index);

/** What the open button's file may not be. */
export const DROP_WORDS = {
  noStudy: (names: readonly string[]) => ({
    what: `No study among ${names.length === 1 ? 'this file' : 'these files'}: ${names.slice(0, 4).join(', ')}${names.length > 4 ? ', …' : ''}.`,
    remedy:
      'Drop the study file (its name ends in .study.json or .json) together with the fabric sheets that it names.',
  }),
  severalStudies: (names: readonly string[]) => ({
    what: `More than one study: ${names.slice(0, 4).join(', ')}${names.length > 4 ? ', …' : ''}.`,
    remedy: 'Drop one study at a time.',
  }),
  nothingLost: 'What was on the table is still there.',
} as const;

export const restWords = (atRest: boolean): string => (atRest ? 'At rest' : 'NOT AT REST');

/** Across the stage while the forces do not balance. */
export const notAtRestWords = {
  title: 'Not at rest',
  line: (letters: readonly string[], residuals: readonly string[]) =>
    `${letters.join(' and ')} still ${letters.length > 1 ? 'move' : 'moves'}: ${residuals.join(' and ')} of the force is unbalanced. Do not use these numbers.`,
} as const;

/** What is on the stage, for whoever cannot see it. */
export function stageLabel(
  { field, showing, fabric }: { readonly field: FieldId; readonly showing: Showing; readonly fabric: number },
  fabrics: readonly { readonly name: string }[],
): string {
  const heading = fieldHeading(field, showing);
  if (showing === 'difference') return `${heading}.`;
  return `${heading}, fabric ${fabricLetter(fabric)}, ${fabrics[fabric]?.name ?? ''}.`;
}

/** Where the browser has no way to draw in space. */
export const CANNOT_DRAW_WORDS = {
  what: 'This browser does not draw in space (WebGL 2), so the form cannot be shown.',
  remedy:
    'Numbers, leaves and legend still hold. Turn on hardware acceleration, or open this page in another browser.',
} as const;

/** Quiet remarks on what was done. */
export const REMARK_WORDS = {
  saved: (name: string) => `Saved ${name}.`,
} as const;

/** When something breaks that is nobody's file. */
export const bugWords = (message: string) => ({
  what: `Something in Snugfield itself went wrong: ${message}.`,
  remedy: 'The study on the table is unharmed. Please report it with the study file.',
});
