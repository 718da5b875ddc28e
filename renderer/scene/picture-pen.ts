import { screenPalette } from '../store/palette.ts';

/** One line of writing; places and sizes in thousandths of the picture's height. */
export interface Writing {
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly weight?: 400 | 600;
  readonly colour?: string;
  readonly align?: 'left' | 'right' | 'center';
}

/** A canvas with the house's type and inks. */
export interface Pen {
  readonly sheet: CanvasRenderingContext2D;
  /** Pixels per thousandth of the height. */
  readonly unit: number;
  /** Width of the sheet in thousandths of its height. */
  readonly width: number;
  readonly colours: typeof screenPalette;
  readonly write: (text: string, writing: Writing) => void;
  /** A filled box. */
  readonly box: (box: readonly [x: number, y: number, width: number, height: number], colour: string) => void;
}

/** Pictures are always on light paper: they are printed and sent. */
export function createPen(canvas: HTMLCanvasElement): Pen {
  const sheet = canvas.getContext('2d')!;
  const unit = canvas.height / 1000;
  return {
    sheet,
    unit,
    width: canvas.width / unit,
    colours: screenPalette,
    write: (text, { x, y, size, weight = 400, colour = screenPalette.ink, align = 'left' }) => {
      sheet.font = `${weight} ${size * unit}px "Inter Variable", sans-serif`;
      sheet.textAlign = align;
      sheet.textBaseline = 'alphabetic';
      sheet.fillStyle = colour;
      sheet.fillText(text, x * unit, y * unit);
    },
    box: ([x, y, width, height], colour) => {
      sheet.fillStyle = colour;
      sheet.fillRect(x * unit, y * unit, width * unit, height * unit);
    },
  };
}
