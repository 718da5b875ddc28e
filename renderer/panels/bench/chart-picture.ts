import type { StripChartSheet } from '../../../core/sheet/strip-chart.ts';
import { CHART_NOTES, CHART_WORDS } from '../../../core/words/chart-words.ts';
import { screenPalette } from '../../store/palette.ts';
import { chartDrawing } from './chart-drawing.ts';
import { writing } from './chart-frame.ts';
import type { ChartPanel } from './chart-layout.ts';
import { FIRST_MISS, NUMBER_COLUMNS, numberTable } from './chart-numbers.ts';
import { moved, type Shape, type TextShape } from './chart-shapes.ts';
import { drawShapes } from './draw-shapes.ts';

/** The sheet of paper in the units that the window draws in; a picture is that sheet, enlarged. */
const SHEET = { width: 1240, margin: 36, charts: 470 } as const;
const ROW = 19;

/** A picture as shapes: title, charts, numbers, what they mean. */
export interface ChartSheetDrawing {
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly Shape[];
}

/** Everything on a chart picture, laid out by the window's own drawing. */
export function chartSheet(charts: StripChartSheet): ChartSheetDrawing {
  const { margin, width } = SHEET;
  const drawing = chartDrawing(charts, { width: width - 2 * margin, height: SHEET.charts });
  const numbers = numberShapes(charts, drawing.panels, SHEET.charts + 26);
  const notesTop = SHEET.charts + 26 + numbers.height + 14;
  const notes = CHART_NOTES.map((note, index) => writing(note, [0, notesTop + index * ROW]));
  const inner: readonly Shape[] = [...drawing.shapes, ...numbers.shapes, ...notes];
  const top = margin + 34;
  const heading = writing(headingText(charts), [margin, margin + 12], { size: 19, weight: 600, ink: 'ink' });
  return {
    width,
    height: Math.ceil(top + notesTop + notes.length * ROW + margin / 2),
    shapes: [heading, ...inner.map((shape) => moved(shape, margin, top))],
  };
}

/** `Strip curves, forces in N/50 mm · readings invented for demonstration`. */
function headingText({ unit, fabrics }: StripChartSheet): string {
  const title = `${CHART_WORDS.title}, forces in ${unit}`;
  return fabrics.some(({ invented }) => invented) ? `${title} · ${CHART_WORDS.inventedLong}` : title;
}

/** The table of numbers, its columns under the panels. */
function numberShapes(
  charts: StripChartSheet,
  panels: readonly ChartPanel[],
  top: number,
): { readonly shapes: readonly TextShape[]; readonly height: number } {
  const { groups, heads, rows } = numberTable(charts);
  const shapes = panels.flatMap(({ force }, direction) => {
    const ends = NUMBER_COLUMNS.map(
      (_, column) =>
        force.x + force.width * NUMBER_COLUMNS.slice(0, column + 1).reduce((sum, share) => sum + share, 0),
    );
    let column = 0;
    const groupShapes = groups.map(({ text, span }, group) => {
      column += span;
      return group === 0
        ? writing(text, [force.x, top])
        : writing(text, [ends[column - 1]!, top], { align: 'end' });
    });
    return [
      ...groupShapes,
      ...heads.map((head, index) => writing(head, [ends[index]!, top + ROW], { align: 'end' })),
      ...rows.flatMap(({ cells }, row) => {
        const y = top + (row + 2) * ROW;
        const texts = cells[direction]!;
        if (texts.length === 1)
          return [writing(texts[0]!, [force.x + force.width, y], { align: 'end', ink: 'ink' })];
        return texts.map((text, index) =>
          writing(text, [ends[index]!, y], { align: 'end', ink: index < FIRST_MISS ? 'ink' : 'soft' }),
        );
      }),
    ];
  });
  const names = rows.map(({ name }, row) => writing(name, [0, top + (row + 2) * ROW]));
  return { shapes: [...names, ...shapes], height: (rows.length + 2) * ROW };
}

/**
 * The charts on a sheet of light paper, as the window draws them. PNG.
 *
 * @param width - Of the picture, px.
 */
export async function chartPicture(charts: StripChartSheet, width = 1600): Promise<Uint8Array> {
  await document.fonts.ready;
  const sheet = chartSheet(charts);
  const scale = width / sheet.width;
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(width);
  canvas.height = Math.round(sheet.height * scale);
  const pen = canvas.getContext('2d')!;
  pen.fillStyle = screenPalette.paper;
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.scale(scale, scale);
  drawShapes(pen, sheet.shapes, screenPalette.paper);
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
  if (blob === null) throw new Error('the picture could not be written');
  return new Uint8Array(await blob.arrayBuffer());
}
