import { CHART_WORDS, DIRECTION_HEADINGS } from '../../../core/words/chart-words.ts';
import type { StripTrace } from '../../../core/sheet/strip-chart-trace.ts';
import type { StripChartSheet } from '../../../core/sheet/strip-chart.ts';
import type { ChartPanel } from './chart-layout.ts';
import type { Ink, Place, Shape, TextShape } from './chart-shapes.ts';

/** A line of writing in the charts' small size. */
export const writing = (
  text: string,
  at: Place,
  look: Partial<Pick<TextShape, 'size' | 'weight' | 'ink' | 'align'>> = {},
): TextShape => ({ kind: 'text', text, at, size: 12, weight: 400, ink: 'soft', align: 'start', ...look });

const stroke = (lines: readonly (readonly Place[])[], ink: Ink, width = 1): Shape => ({
  kind: 'lines',
  lines,
  ink,
  width,
});

/** Axes of one panel: rules across, a ruler for the extension between force and width, the names of both. */
export function frameShapes(
  sheet: StripChartSheet,
  panel: ChartPanel,
  traces: readonly StripTrace[],
): Shape[] {
  const { force, width } = panel;
  const rules = (at: number): readonly Place[] => [
    [force.x, at],
    [force.x + force.width, at],
  ];
  return [
    stroke(
      sheet.force.numbered.map((mark) => rules(panel.forceScale.place(mark.at))),
      'line',
    ),
    stroke(
      sheet.width.numbered.map((mark) => rules(panel.widthScale.place(mark.at))),
      'line',
    ),
    ...rulerShapes(sheet, panel),
    writing(DIRECTION_HEADINGS[panel.direction], [force.x, force.y - 10], {
      size: 14,
      weight: 600,
      ink: 'ink',
    }),
    ...noteShapes(panel, traces),
    stroke(
      [
        [
          [width.x, width.y + width.height],
          [width.x + width.width, width.y + width.height],
        ],
      ],
      'soft',
    ),
  ];
}

/** The extension as on a tape: long marks numbered, fine ones between. */
function rulerShapes({ extension }: StripChartSheet, panel: ChartPanel): Shape[] {
  const { force, width, extensionScale } = panel;
  const foot = force.y + force.height;
  const marks = (places: readonly number[], length: number): readonly (readonly Place[])[] =>
    places.flatMap((place) => {
      const x = extensionScale.place(place);
      return [
        [
          [x, foot],
          [x, foot + length],
        ],
        [
          [x, width.y + width.height],
          [x, width.y + width.height + length * 0.7],
        ],
      ] as const;
    });
  return [
    stroke(
      [
        [
          [force.x, foot],
          [force.x + force.width, foot],
        ],
        ...marks(
          extension.numbered.map(({ at }) => at),
          6,
        ),
      ],
      'ink',
    ),
    stroke(marks(extension.fine, 3), 'soft'),
    ...extension.numbered.map(({ at, label }) =>
      writing(label, [extensionScale.place(at), foot + 18], { align: 'middle' }),
    ),
  ];
}

/** What is missing is said where it would be. */
function noteShapes({ force, width }: ChartPanel, traces: readonly StripTrace[]): Shape[] {
  const notes: Shape[] = [];
  if (traces.length > 0 && traces.every(({ back }) => back === null)) {
    notes.push(writing(CHART_WORDS.noReturn, [force.x + force.width, force.y - 10], { align: 'end' }));
  }
  if (traces.length > 0 && traces.every((trace) => trace.width.readings.length === 0)) {
    const words = traces.every((trace) => trace.width.assumed)
      ? CHART_WORDS.assumed
      : CHART_WORDS.widthNotRead;
    notes.push(writing(words, [width.x + 6, width.y + width.height - 7]));
  }
  return notes;
}

/** The numbers of the force and of the width, once, left of the first panel. */
export function gutterShapes(sheet: StripChartSheet, panel: ChartPanel): Shape[] {
  const right = panel.force.x - 9;
  const numbers = [
    ...sheet.force.numbered.map(({ at, label }) => ({ label, y: panel.forceScale.place(at) })),
    ...sheet.width.numbered.map(({ at, label }) => ({ label, y: panel.widthScale.place(at) })),
  ];
  return [
    ...numbers.map(({ label, y }) => writing(label, [right, y + 4], { align: 'end' })),
    writing(sheet.unit, [0, panel.force.y + 4], { ink: 'ink' }),
    writing(CHART_WORDS.width, [0, panel.width.y + panel.width.height / 2 + 4], { ink: 'ink' }),
    writing(CHART_WORDS.extension, [0, panel.force.y + panel.force.height + 18], { ink: 'ink' }),
  ];
}
