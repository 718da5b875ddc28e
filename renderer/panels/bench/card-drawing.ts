import type { FabricCard } from '../../../core/sheet/fabric-card.ts';
import type { StripChartSheet } from '../../../core/sheet/strip-chart.ts';
import {
  CARD_WORDS,
  cardText,
  remarksOnPage,
  type CardTable,
  type CardText,
} from '../../../core/words/card-text.ts';
import { curveShapes } from './chart-curves.ts';
import { frameShapes, gutterShapes } from './chart-frame.ts';
import { chartLayout } from './chart-layout.ts';
import { moved, type Place, type Shape, type TextShape } from './chart-shapes.ts';

/** A4 at 96 px an inch, and what of it is written on; as in `bench-card.css`. */
export const CARD_SIZE = { width: 794, height: 1123 } as const;
const MARGIN = { x: 49, top: 34, bottom: 30 } as const;
const INNER = CARD_SIZE.width - 2 * MARGIN.x;
/** The right of two columns, and the air before it. */
const SIDE = { width: 250, gap: 34 } as const;
const MAIN = INNER - SIDE.width - SIDE.gap;
const ROW = 16;
const BEFORE_PART = 24;
/** Room for the day at the right of the foot. */
const FOOT_RIGHT = 140;

/** The curves on the card, px. */
export const CARD_CHART = { width: INNER, height: 215 } as const;

/** The curves by the bench's own drawing, without its legend: the card shows one fabric, and its title says the rest. */
export function cardCharts(sheet: StripChartSheet): readonly Shape[] {
  return chartLayout(sheet, CARD_CHART, 0).panels.flatMap((panel, index) => {
    const { traces } = sheet.charts[index]!;
    return [
      ...(index === 0 ? gutterShapes(sheet, panel) : []),
      ...frameShapes(sheet, panel, traces),
      ...curveShapes(sheet, panel, traces),
    ];
  });
}

/** How wide a text is in the card's type, px. */
export type Measure = (text: string, type: Pick<TextShape, 'size' | 'weight'>) => number;

type TextLook = Partial<Pick<TextShape, 'size' | 'weight' | 'ink' | 'align'>>;

const text = (words: string, at: Place, look: TextLook = {}): TextShape => ({
  kind: 'text',
  text: words,
  at,
  size: 12,
  weight: 400,
  ink: 'ink',
  align: 'start',
  ...look,
});

/** Shapes and how far down they reach. */
interface Part {
  readonly shapes: readonly Shape[];
  readonly bottom: number;
}

/** The card as shapes on an A4 sheet, for a picture: the page's words and numbers in the page's order. */
export function cardDrawing(card: FabricCard, measure: Measure, printedOn?: string): readonly Shape[] {
  const words = cardText(card);
  const left = MARGIN.x;
  const side = MARGIN.x + MAIN + SIDE.gap;
  const head = headPart(words, measure);
  const first = head.bottom + BEFORE_PART;
  const methods = methodsPart(words, [left, first], measure);
  const single = singlePart(words, [side, first]);
  const second = Math.max(methods.bottom, single.bottom) + BEFORE_PART;
  const numbers = tablePart(words.numbers, [left, second], [MAIN - 240, MAIN - 160, MAIN - 80, MAIN]);
  const star = words.star === null ? [] : [text(words.star, [left, numbers.bottom + ROW], { ink: 'soft' })];
  const coupling = wordsPart(CARD_WORDS.coupling, words.coupling, {
    at: [side, second],
    width: SIDE.width,
    measure,
  });
  const third = Math.max(numbers.bottom + ROW, coupling.bottom) + BEFORE_PART;
  const charts = chartPart(card, [left, third]);
  const residuals = headed(CARD_WORDS.residuals, [left, charts.bottom], (at) =>
    tablePart(words.residuals, at, [0, 320, 560, INNER]),
  );
  const remarks = wordsPart(CARD_WORDS.remarks, remarksOnPage(words.remarks), {
    at: [left, residuals.bottom + BEFORE_PART],
    width: INNER,
    measure,
  });
  const footer = footPart(words, measure, printedOn);
  return [head, methods, single, numbers, coupling, charts, residuals, remarks]
    .flatMap(({ shapes }) => shapes)
    .concat(star, footer);
}

/** The caution to the left and the day to the right, the last line on the foot of the sheet. */
function footPart({ caution }: CardText, measure: Measure, printedOn?: string): readonly Shape[] {
  const foot = CARD_SIZE.height - MARGIN.bottom;
  const lines = wrapped(caution, INNER - FOOT_RIGHT, measure);
  const top = foot - (lines.length - 1) * ROW;
  const day =
    printedOn === undefined
      ? []
      : [text(CARD_WORDS.printed(printedOn), [MARGIN.x + INNER, top], { ink: 'soft', align: 'end' })];
  return [...lines.map((line, index) => text(line, [MARGIN.x, top + index * ROW], { ink: 'soft' })), ...day];
}

function headPart({ name, lot, mark, note }: CardText, measure: Measure): Part {
  const right = MARGIN.x + INNER;
  const markWidth = mark === null ? 0 : measure(mark, { size: 12, weight: 600 });
  const frame = (y: number): Shape => ({
    kind: 'lines',
    ink: 'ink',
    width: 1,
    lines: [
      [
        [right - markWidth - 18, y - 14],
        [right, y - 14],
        [right, y + 6],
        [right - markWidth - 18, y + 6],
        [right - markWidth - 18, y - 14],
      ],
    ],
  });
  const top = MARGIN.top + 19;
  const notes = note === null ? [] : wrapped(note, INNER, measure);
  return {
    shapes: [
      text(name, [MARGIN.x, top], { size: 19, weight: 600 }),
      ...(mark === null ? [] : [frame(top), text(mark, [right - 9, top], { weight: 600, align: 'end' })]),
      text(lot, [MARGIN.x, top + 20]),
      ...notes.map((line, index) => text(line, [MARGIN.x, top + 36 + index * ROW], { ink: 'soft' })),
    ],
    bottom: top + 20 + notes.length * ROW,
  };
}

const METHOD_INDENT = 70;

function methodsPart({ methods }: CardText, at: Place, measure: Measure): Part {
  return headed(CARD_WORDS.methods, at, ([x, top]) => {
    let y = top;
    const shapes = methods.flatMap(({ title, text: how }) => {
      const lines = wrapped(how, MAIN - METHOD_INDENT, measure);
      const line = y;
      y += lines.length * ROW;
      return [
        text(title, [x, line], { ink: 'soft' }),
        ...lines.map((words, index) => text(words, [x + METHOD_INDENT, line + index * ROW])),
      ];
    });
    return { shapes, bottom: y - ROW };
  });
}

const singlePart = ({ single }: CardText, at: Place): Part =>
  headed(CARD_WORDS.numbers, at, ([x, top]) => ({
    shapes: single.flatMap(({ title, value }, index) => [
      text(title, [x, top + index * ROW], { ink: 'soft' }),
      text(value, [x + SIDE.width, top + index * ROW], { align: 'end' }),
    ]),
    bottom: top + (single.length - 1) * ROW,
  }));

interface Column {
  readonly at: Place;
  readonly width: number;
  readonly measure: Measure;
}

function wordsPart(title: string, paragraphs: readonly string[], { at, width, measure }: Column): Part {
  return headed(title, at, ([x, top]) => {
    let y = top;
    const shapes = paragraphs.flatMap((paragraph) => {
      const lines = wrapped(paragraph, width, measure);
      const line = y;
      y += lines.length * ROW + 4;
      return lines.map((words, index) => text(words, [x, line + index * ROW]));
    });
    return { shapes, bottom: y - ROW - 4 };
  });
}

function headed(title: string, [x, y]: Place, part: (at: Place) => Part): Part {
  const { shapes, bottom } = part([x, y + ROW + 2]);
  return { shapes: [text(title, [x, y], { weight: 600 }), ...shapes], bottom };
}

/** A table whose first column stands left and whose others end at `ends`, from the left edge. */
function tablePart({ heading, lines }: CardTable, [x, y]: Place, ends: readonly number[]): Part {
  const line = (cells: readonly string[], row: number, weight: 400 | 600): readonly Shape[] =>
    cells.map((cell, column) =>
      column === 0
        ? text(cell, [x, y + row * ROW], { ink: 'soft', weight })
        : text(cell, [x + ends[column]!, y + row * ROW], { align: 'end', weight }),
    );
  const width = ends.at(-1)!;
  const rules: Shape = {
    kind: 'lines',
    ink: 'line',
    width: 1,
    lines: [heading, ...lines].map((_, row): readonly Place[] => [
      [x, y + row * ROW + 4],
      [x + width, y + row * ROW + 4],
    ]),
  };
  return {
    shapes: [rules, ...line(heading, 0, 600), ...lines.flatMap((cells, row) => line(cells, row + 1, 400))],
    bottom: y + lines.length * ROW,
  };
}

/** The curves, or nothing where there are none; ends where the next part begins. */
function chartPart({ chart }: FabricCard, at: Place): Part {
  if (chart === null) return { shapes: [], bottom: at[1] };
  return headed(CARD_WORDS.curves, at, ([x, y]) => ({
    shapes: cardCharts(chart).map((shape) => moved(shape, x, y - 10)),
    bottom: y + CARD_CHART.height + ROW,
  }));
}

/** Words in lines no wider than `width`; a word too long for a line stands alone. */
export function wrapped(words: string, width: number, measure: Measure): readonly string[] {
  const lines: string[] = [];
  for (const word of words.split(' ')) {
    const longer = `${lines.at(-1) ?? ''} ${word}`;
    if (lines.length > 0 && measure(longer, { size: 12, weight: 400 }) <= width)
      lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}
