import { CHART_LEGEND, chartedFabricText } from '../../../core/words/chart-words.ts';
import type { StripChartSheet } from '../../../core/sheet/strip-chart.ts';
import { DASH, FABRIC_PENS, penOf, RADII, SPECIMEN_OPACITY, WEIGHTS } from './chart-curves.ts';
import { writing } from './chart-frame.ts';
import type { LinesShape, Place, Shape } from './chart-shapes.ts';

/** A sample of a line or mark, and what it stands for. */
interface LegendEntry {
  readonly text: string;
  /** Drawn from x to x + SAMPLE about the height y. */
  readonly sample: (x: number, y: number) => readonly Shape[];
  readonly strong?: boolean;
}

const SAMPLE = 28;
const GAP = { sample: 7, entry: 24 } as const;
/** px from one line of the legend to the next. */
const ROW = 20;
/** Mean width of a letter over its size, Inter: enough to break lines by. */
const LETTER = { plain: 0.48, strong: 0.51 } as const;

/** The key to lines and marks, broken into as many lines as the width asks for. */
export interface LegendDrawing {
  readonly shapes: readonly Shape[];
  readonly height: number;
}

/** Fabrics first, then only those lines and marks that are drawn. */
export function legendDrawing(sheet: StripChartSheet, width: number): LegendDrawing {
  const shapes: Shape[] = [];
  let x = 0;
  let row = 0;
  const put = ({ text, sample, strong = false }: LegendEntry): void => {
    const length = SAMPLE + GAP.sample + text.length * 12 * (strong ? LETTER.strong : LETTER.plain);
    if (x > 0 && x + length > width) {
      x = 0;
      row++;
    }
    const y = 9 + row * ROW;
    shapes.push(
      ...sample(x, y),
      writing(text, [x + SAMPLE + GAP.sample, y + 4], strong ? { weight: 600, ink: 'ink' } : {}),
    );
    x += length + GAP.entry;
  };
  fabricEntries(sheet).forEach(put);
  x = 0;
  row++;
  lineEntries(sheet).forEach(put);
  return { shapes, height: (row + 1) * ROW };
}

const fabricEntries = ({ fabrics }: StripChartSheet): readonly LegendEntry[] =>
  fabrics.map((fabric, index) => {
    const { ink, dash, form } = penOf(index);
    return {
      text: `${fabric.letter}  ${chartedFabricText(fabric)}`,
      strong: true,
      sample: (x, y) => [
        line(across(x, y), { ink, width: WEIGHTS.load, ...(dash && { dash }) }),
        { kind: 'dots', at: [[x + SAMPLE / 2, y]], radius: RADII.load, form, ink },
      ],
    };
  });

function lineEntries({ charts, fabrics }: StripChartSheet): readonly LegendEntry[] {
  const traces = charts.flatMap((chart) => chart.traces);
  const curves = traces.flatMap(({ load, back, width }) => [load, ...(back ? [back] : []), width]);
  const hasRepeats = curves.some(({ readings }) => readings.some(({ deviation }) => deviation !== null));
  const { ink, form, heldForm } = FABRIC_PENS[0]!;
  const plain =
    (width: number, dash?: readonly number[]): LegendEntry['sample'] =>
    (x, y) => [line(across(x, y), { ink, width, ...(dash && { dash }) })];
  const entries: readonly (LegendEntry & { readonly drawn: boolean })[] = [
    {
      text: hasRepeats ? CHART_LEGEND.mean : CHART_LEGEND.read,
      drawn: true,
      sample: (x, y) => [
        ...(hasRepeats ? [line(whisker(x + SAMPLE / 2, y), { ink, width: WEIGHTS.whisker })] : []),
        { kind: 'dots', at: [[x + SAMPLE / 2, y]], radius: RADII.load, form, ink },
      ],
    },
    {
      text: CHART_LEGEND.specimen,
      drawn: curves.some(({ specimens }) => specimens.length > 0),
      sample: (x, y) => [line(across(x, y), { ink, width: WEIGHTS.specimen, opacity: SPECIMEN_OPACITY })],
    },
    { text: CHART_LEGEND.fitted, drawn: true, sample: plain(WEIGHTS.load) },
    { text: CHART_LEGEND.back, drawn: traces.some(({ back }) => back !== null), sample: plain(WEIGHTS.back) },
    {
      text: CHART_LEGEND.held,
      drawn: traces.some(({ held }) => held !== null),
      sample: (x, y) => [
        line(across(x, y), { ink, width: WEIGHTS.held }),
        { kind: 'dots', at: [[x + SAMPLE / 2, y]], radius: RADII.held, form: heldForm, ink },
      ],
    },
    {
      text: CHART_LEGEND.beyond,
      drawn: traces.some(({ load }) => load.beyond.length > 0),
      sample: plain(WEIGHTS.load, DASH.beyond),
    },
    {
      text: CHART_LEGEND.modulus,
      drawn: traces.some(({ modulus }) => modulus.length > 0),
      sample: (x, y) => [
        line(
          [
            [
              [x + SAMPLE / 2, y + 8],
              [x + SAMPLE / 2, y - 3],
            ],
          ],
          { ink: 'soft', width: 1, dash: DASH.stem },
        ),
        line(
          [
            [
              [x + SAMPLE / 2 - 6.5, y - 3],
              [x + SAMPLE / 2 + 6.5, y - 3],
            ],
          ],
          { ink, width: 1 },
        ),
      ],
    },
    {
      text: CHART_LEGEND.loop,
      drawn: traces.some(({ loop }) => loop.length > 2),
      sample: (x, y) =>
        fabrics.map((_, index) => ({
          kind: 'area',
          outline: boxed(x + (index * SAMPLE) / fabrics.length, y, SAMPLE / fabrics.length),
          fill: penOf(index).fill,
        })),
    },
    {
      text: CHART_LEGEND.assumed,
      drawn: traces.some((trace) => trace.width.assumed),
      sample: plain(WEIGHTS.width, DASH.assumed),
    },
  ];
  return entries.filter(({ drawn }) => drawn);
}

const across = (x: number, y: number): readonly (readonly Place[])[] => [
  [
    [x, y],
    [x + SAMPLE, y],
  ],
];

const whisker = (x: number, y: number): readonly (readonly Place[])[] => [
  [
    [x, y - 7],
    [x, y + 7],
  ],
  ...[y - 7, y + 7].map((end): readonly Place[] => [
    [x - 2.5, end],
    [x + 2.5, end],
  ]),
];

const boxed = (x: number, y: number, width: number): readonly Place[] => [
  [x, y - 6],
  [x + width, y - 6],
  [x + width, y + 6],
  [x, y + 6],
];

const line = (
  lines: LinesShape['lines'],
  look: Pick<LinesShape, 'ink' | 'width' | 'dash' | 'opacity'>,
): LinesShape => ({ kind: 'lines', lines, ...look });
