import type { StripChartSheet } from '../../../core/sheet/strip-chart.ts';
import { CHART_NOTES, CHART_WORDS } from '../../../core/words/chart-words.ts';
import { screenPalette } from '../../store/palette.ts';
import { chartDrawing } from './chart-drawing.ts';
import { writing } from './chart-frame.ts';
import type { ChartPanel } from './chart-layout.ts';
import { NUMBER_COLUMNS, numberTable } from './chart-numbers.ts';
import {
  pathOf,
  type AreaShape,
  type DotsShape,
  type LinesShape,
  type Shape,
  type TextShape,
} from './chart-shapes.ts';

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
    const groupShapes = groups.map(({ text, span }) => {
      column += span;
      return writing(text, [ends[column - 1]!, top], { align: 'end' });
    });
    return [
      ...groupShapes,
      ...heads.map((head, index) => writing(head, [ends[index]!, top + ROW], { align: 'end' })),
      ...rows.flatMap(({ cells }, row) => {
        const y = top + (row + 2) * ROW;
        const texts = cells[direction]!;
        if (texts.length === 1)
          return [writing(texts[0]!, [force.x + force.width, y], { align: 'end', ink: 'ink' })];
        return texts.map((text, index) => writing(text, [ends[index]!, y], { align: 'end', ink: 'ink' }));
      }),
    ];
  });
  const names = rows.map(({ name }, row) => writing(name, [0, top + (row + 2) * ROW]));
  return { shapes: [...names, ...shapes], height: (rows.length + 2) * ROW };
}

function moved(shape: Shape, x: number, y: number): Shape {
  const move = (at: readonly [number, number]): readonly [number, number] => [at[0] + x, at[1] + y];
  switch (shape.kind) {
    case 'text':
      return { ...shape, at: move(shape.at) };
    case 'lines':
      return { ...shape, lines: shape.lines.map((line) => line.map(move)) };
    case 'area':
      return { ...shape, outline: shape.outline.map(move) };
    case 'dots':
      return { ...shape, at: shape.at.map(move) };
  }
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
  for (const shape of sheet.shapes) draw(pen, shape);
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
  if (blob === null) throw new Error('the picture could not be written');
  return new Uint8Array(await blob.arrayBuffer());
}

function draw(pen: CanvasRenderingContext2D, shape: Shape): void {
  pen.save();
  switch (shape.kind) {
    case 'text':
      drawText(pen, shape);
      break;
    case 'lines':
      drawLines(pen, shape);
      break;
    case 'area':
      drawArea(pen, shape);
      break;
    case 'dots':
      drawDots(pen, shape);
      break;
  }
  pen.restore();
}

const ALIGN = { start: 'left', middle: 'center', end: 'right' } as const;

function drawText(pen: CanvasRenderingContext2D, { text, at, size, weight, ink, align }: TextShape): void {
  pen.font = `${weight} ${size}px "Inter Variable", sans-serif`;
  pen.textAlign = ALIGN[align];
  pen.textBaseline = 'alphabetic';
  pen.fillStyle = screenPalette[ink];
  pen.fillText(text, at[0], at[1]);
}

function drawLines(pen: CanvasRenderingContext2D, shape: LinesShape): void {
  pen.strokeStyle = screenPalette[shape.ink];
  pen.lineWidth = shape.width;
  pen.lineJoin = 'round';
  pen.globalAlpha = shape.opacity ?? 1;
  pen.setLineDash([...(shape.dash ?? [])]);
  pen.stroke(new Path2D(pathOf(shape)));
}

/** As in `bench-chart.css`. */
const TINT = 0.1;
const HATCH = { gap: 6, opacity: 0.45 } as const;

function drawArea(pen: CanvasRenderingContext2D, shape: AreaShape): void {
  const outline = new Path2D(pathOf(shape));
  if (shape.fill === 'tint') {
    pen.globalAlpha = TINT;
    pen.fillStyle = screenPalette.ink;
    pen.fill(outline, 'nonzero');
    return;
  }
  pen.clip(outline);
  pen.globalAlpha = HATCH.opacity;
  pen.strokeStyle = screenPalette.soft;
  pen.lineWidth = 1;
  const step = HATCH.gap * Math.SQRT2;
  const xs = shape.outline.map(([x]) => x);
  const ys = shape.outline.map(([, y]) => y);
  const low = Math.max(...ys);
  const high = Math.min(...ys);
  for (let x = Math.min(...xs) - (low - high); x < Math.max(...xs); x += step) {
    pen.beginPath();
    pen.moveTo(x, low);
    pen.lineTo(x + low - high, high);
    pen.stroke();
  }
}

function drawDots(pen: CanvasRenderingContext2D, shape: DotsShape): void {
  const outline = new Path2D(pathOf(shape));
  const isOpen = shape.form === 'ring' || shape.form === 'frame';
  pen.fillStyle = isOpen ? screenPalette.paper : screenPalette[shape.ink];
  pen.fill(outline, 'nonzero');
  if (!isOpen) return;
  pen.strokeStyle = screenPalette[shape.ink];
  pen.lineWidth = 1.2;
  pen.stroke(outline);
}
