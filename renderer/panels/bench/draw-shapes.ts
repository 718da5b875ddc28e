import { screenPalette } from '../../store/palette.ts';
import {
  pathOf,
  type AreaShape,
  type DotsShape,
  type LinesShape,
  type Shape,
  type TextShape,
} from './chart-shapes.ts';

/**
 * Draws a chart's shapes on a canvas in the pictures' light palette.
 *
 * @param pen - Scaled so that one unit is one px of the drawing.
 * @param paper - Colour of the ground; open marks are filled with it.
 */
export function drawShapes(pen: CanvasRenderingContext2D, shapes: readonly Shape[], paper: string): void {
  for (const shape of shapes) drawShape(pen, shape, paper);
}

function drawShape(pen: CanvasRenderingContext2D, shape: Shape, paper: string): void {
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
      drawDots(pen, shape, paper);
      break;
  }
  pen.restore();
}

const outlineOf = (shape: LinesShape | AreaShape | DotsShape): Path2D => new Path2D(pathOf(shape));

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
  pen.stroke(outlineOf(shape));
}

/** As in `bench-chart.css`. */
const TINT = 0.1;
const HATCH = { gap: 6, opacity: 0.45 } as const;

function drawArea(pen: CanvasRenderingContext2D, shape: AreaShape): void {
  const outline = outlineOf(shape);
  if (shape.fill === 'tint') {
    pen.globalAlpha = TINT;
    pen.fillStyle = screenPalette.ink;
    pen.fill(outline);
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

function drawDots(pen: CanvasRenderingContext2D, shape: DotsShape, paper: string): void {
  const outline = outlineOf(shape);
  const isOpen = shape.form === 'ring' || shape.form === 'frame';
  pen.fillStyle = isOpen ? paper : screenPalette[shape.ink];
  pen.fill(outline);
  if (!isOpen) return;
  pen.strokeStyle = screenPalette[shape.ink];
  pen.lineWidth = 1.2;
  pen.stroke(outline);
}
