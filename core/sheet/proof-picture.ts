import { proofNumber, type ProofGroup, type ProofRow, type ProofTable } from './proof-table.ts';

/** px; the pages are drawn one below another or each as a picture of its own. */
export const PROOF_PAGE = { width: 1600, height: 2263 } as const;

/** A line of text, its baseline at (x, y); px. */
export interface ProofText {
  readonly kind: 'text';
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly size: number;
  readonly weight: 400 | 600;
  readonly ink: 'ink' | 'soft' | 'fail';
  readonly align: 'start' | 'end';
}

/** A filled box: the rule below a heading, or how much of a tolerance is used; px. */
export interface ProofBox {
  readonly kind: 'box';
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly ink: 'ink' | 'soft' | 'hair' | 'fail';
}

export type ProofShape = ProofText | ProofBox;

/** One page of the table, ready to be drawn on {@link PROOF_PAGE}. */
export interface ProofPage {
  readonly shapes: readonly ProofShape[];
}

/** What the pages say beside the table's own words. */
export interface ProofPageWords {
  readonly title: string;
  readonly headings: Readonly<Record<'what' | 'expected' | 'got' | 'within' | 'used', string>>;
  readonly fail: string;
  readonly tally: (count: { readonly passed: number; readonly failed: number }) => string;
  readonly pageOf: (page: number, count: number) => string;
}

/** How wide a text is, px. */
export type MeasureProofText = (text: string, size: number, weight: 400 | 600) => number;

const MARGIN = 64;
const FOOT = PROOF_PAGE.height - 48;
const LAST_LINE = FOOT - 40;
const SIZE = { title: 34, subject: 24, row: 19, source: 15 } as const;
const LEADING = { row: 28, source: 20, subject: 40, before: 34 } as const;
/** Right edges of the columns of numbers; the words end before them. */
const COLUMN = {
  expected: 1010,
  got: 1160,
  within: 1310,
  unit: 1330,
  used: PROOF_PAGE.width - MARGIN,
} as const;
const WORDS_END = 870;
const BAR = { from: 1452, width: 84, height: 9 } as const;

/** Lines that must stay on one page: a row, its source where it is a new one, the heading it follows. */
interface Block {
  readonly height: number;
  readonly shapesAt: (y: number) => readonly ProofShape[];
}

/**
 * The table as pages of text and boxes: each subject under its heading, each source above the rows it speaks for, again on a new page.
 *
 * @param measure - In the type the pages are drawn in.
 */
export function proofPages(table: ProofTable, words: ProofPageWords, measure: MeasureProofText): ProofPage[] {
  const pages: ProofShape[][] = [];
  let y = Infinity;
  for (const { following, leading } of table.subjects.flatMap((group) => linesOf(group, words, measure))) {
    let block = following;
    if (y + block.height > LAST_LINE) {
      pages.push([...headOf(table, words, pages.length === 0)]);
      y = pages.length === 1 ? MARGIN + 110 : MARGIN + 50;
      block = leading;
    }
    pages.at(-1)!.push(...block.shapesAt(y));
    y += block.height;
  }
  return pages.map((shapes, i) => ({
    shapes: [
      ...shapes,
      text(words.pageOf(i + 1, pages.length), { x: COLUMN.used, y: FOOT, ink: 'soft', align: 'end' }),
    ],
  }));
}

type TextLook = Partial<Omit<ProofText, 'kind' | 'text'>> & { readonly x: number; readonly y: number };

const text = (words: string, look: TextLook): ProofText => ({
  kind: 'text',
  text: words,
  size: SIZE.row,
  weight: 400,
  ink: 'ink',
  align: 'start',
  ...look,
});

function headOf(
  table: ProofTable,
  { title, headings, tally }: ProofPageWords,
  isFirst: boolean,
): ProofShape[] {
  const top = isFirst
    ? [
        text(title, { x: MARGIN, y: MARGIN + 28, size: SIZE.title, weight: 600 }),
        text(tally(table), {
          x: COLUMN.used,
          y: MARGIN + 28,
          align: 'end',
          ink: table.failed > 0 ? 'fail' : 'ink',
        }),
      ]
    : [];
  const y = isFirst ? MARGIN + 84 : MARGIN + 24;
  const soft = { y, size: SIZE.source, ink: 'soft' } as const;
  return [
    ...top,
    text(headings.what, { x: MARGIN, ...soft }),
    text(headings.expected, { x: COLUMN.expected, align: 'end', ...soft }),
    text(headings.got, { x: COLUMN.got, align: 'end', ...soft }),
    text(headings.within, { x: COLUMN.within, align: 'end', ...soft }),
    text(headings.used, { x: COLUMN.used, align: 'end', ...soft }),
    { kind: 'box', x: MARGIN, y: y + 8, width: COLUMN.used - MARGIN, height: 1, ink: 'ink' },
  ];
}

/** A row as it follows the one before it, and as it stands at the top of a page, where its source is said again. */
interface Line {
  readonly following: Block;
  readonly leading: Block;
}

function linesOf(group: ProofGroup, words: ProofPageWords, measure: MeasureProofText): Line[] {
  return group.rows.map((row, i) => {
    const heading = i === 0 ? [subjectBlock(group, words)] : [];
    const source = sourceBlock(wrapped(row.source, COLUMN.used - MARGIN, measure));
    const own = rowBlock(row, words, measure);
    const leading = stacked([...heading, source, own]);
    return { following: row.source === group.rows[i - 1]?.source ? own : leading, leading };
  });
}

const stacked = (parts: readonly Block[]): Block => ({
  height: parts.reduce((sum, { height }) => sum + height, 0),
  shapesAt: (top) => {
    let y = top;
    return parts.flatMap(({ height, shapesAt }) => {
      const shapes = shapesAt(y);
      y += height;
      return shapes;
    });
  },
});

const subjectBlock = (group: ProofGroup, { tally }: ProofPageWords): Block => ({
  height: LEADING.before + LEADING.subject,
  shapesAt: (top) => {
    const y = top + LEADING.before + SIZE.subject;
    return [
      text(group.title, { x: MARGIN, y, size: SIZE.subject, weight: 600 }),
      text(tally(group), { x: COLUMN.used, y, align: 'end', ink: group.failed > 0 ? 'fail' : 'soft' }),
    ];
  },
});

const sourceBlock = (lines: readonly string[]): Block => ({
  height: lines.length * LEADING.source + 10,
  shapesAt: (top) =>
    lines.map((line, i) =>
      text(line, { x: MARGIN, y: top + 6 + (i + 1) * LEADING.source - 4, size: SIZE.source, ink: 'soft' }),
    ),
});

const rowBlock = (row: ProofRow, words: ProofPageWords, measure: MeasureProofText): Block => {
  const { pass, expected, got, tolerance, unit, used } = row;
  const lines = wrapped(
    pass ? row.what : `${words.fail}: ${row.what}`,
    WORDS_END - MARGIN,
    (line, _, weight) => measure(line, SIZE.row, weight),
  );
  const share = Math.min(1, Number.isFinite(used) ? used : 1);
  const ink = pass ? 'ink' : 'fail';
  return {
    height: lines.length * LEADING.row,
    shapesAt: (top) => {
      const y = top + SIZE.row;
      const bar = { kind: 'box', x: BAR.from, y: y - BAR.height - 1, height: BAR.height } as const;
      return [
        ...lines.map((line, i) => text(line, { x: MARGIN, y: y + i * LEADING.row, ink })),
        text(proofNumber(expected), { x: COLUMN.expected, y, align: 'end' }),
        text(proofNumber(got), { x: COLUMN.got, y, align: 'end', ink }),
        text(proofNumber(tolerance, 3), { x: COLUMN.within, y, align: 'end', ink: 'soft' }),
        text(unit === '1' ? '' : unit, { x: COLUMN.unit, y, size: SIZE.source, ink: 'soft' }),
        { ...bar, width: BAR.width, ink: 'hair' },
        { ...bar, width: BAR.width * share, ink: pass ? 'soft' : 'fail' },
      ];
    },
  };
};

/** Words set in lines no wider than `width`; a word that is wider stands alone. */
function wrapped(words: string, width: number, measure: MeasureProofText): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of words.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && measure(longer, SIZE.source, 400) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return [...lines, line];
}
