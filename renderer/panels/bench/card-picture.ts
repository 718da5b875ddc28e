import type { FabricCard } from '../../../core/sheet/fabric-card.ts';
import { CARD_SIZE, cardDrawing, type Measure } from './card-drawing.ts';
import { drawShapes } from './draw-shapes.ts';

/** What a card picture may be asked to be. */
export interface CardPictureWish {
  /** px; the height follows from A4. */
  readonly width?: number;
  /** As it is to stand on the card. */
  readonly printedOn?: string;
}

/** Wide enough to be read when printed: about 200 px an inch. */
const USUAL_WIDTH = 1654;

/** The fabric card as a picture on white paper, PNG. */
export async function cardPicture(
  card: FabricCard,
  { width = USUAL_WIDTH, printedOn }: CardPictureWish = {},
): Promise<Uint8Array> {
  await document.fonts.ready;
  const scale = width / CARD_SIZE.width;
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(width);
  canvas.height = Math.round(CARD_SIZE.height * scale);
  const pen = canvas.getContext('2d');
  if (pen === null) throw new Error('this browser does not draw pictures');
  pen.fillStyle = PAPER;
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.scale(scale, scale);
  const measure: Measure = (text, { size, weight }) => {
    pen.font = fontOf(size, weight);
    return pen.measureText(text).width;
  };
  drawShapes(pen, cardDrawing(card, measure, printedOn), PAPER);
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
  if (blob === null) throw new Error('the picture could not be written');
  return new Uint8Array(await blob.arrayBuffer());
}

const PAPER = '#ffffff';
const fontOf = (size: number, weight: number): string => `${weight} ${size}px "Inter Variable", sans-serif`;
