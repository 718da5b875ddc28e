import { CanvasTexture, LinearFilter } from 'three';

/** A word written with the page's own letters, and how much wider than high it is. */
export interface WrittenWord {
  readonly texture: CanvasTexture;
  readonly aspect: number;
}

/** Height of the letters' line, px of the texture: sharp on a dense screen. */
const LINE = 128;

/** Writes a word in one colour on nothing. */
export function writtenWord(word: string, colour: string, weight: 400 | 600): WrittenWord {
  const canvas = document.createElement('canvas');
  const pen = canvas.getContext('2d')!;
  const font = `${weight} ${0.72 * LINE}px "Inter Variable", system-ui, sans-serif`;
  pen.font = font;
  canvas.width = Math.ceil(pen.measureText(word).width + 0.2 * LINE);
  canvas.height = LINE;
  pen.font = font;
  pen.fillStyle = colour;
  pen.textBaseline = 'middle';
  pen.fillText(word, 0.1 * LINE, LINE / 2);
  const texture = new CanvasTexture(canvas);
  texture.minFilter = LinearFilter;
  texture.anisotropy = 8;
  return { texture, aspect: canvas.width / canvas.height };
}

/** A ring in one colour, as a pencil draws it round a place. */
export function writtenRing(colour: string): CanvasTexture {
  const canvas = document.createElement('canvas');
  canvas.width = 64;
  canvas.height = 64;
  const pen = canvas.getContext('2d')!;
  pen.strokeStyle = colour;
  pen.lineWidth = 6;
  pen.arc(32, 32, 26, 0, 2 * Math.PI);
  pen.stroke();
  const texture = new CanvasTexture(canvas);
  texture.minFilter = LinearFilter;
  return texture;
}
