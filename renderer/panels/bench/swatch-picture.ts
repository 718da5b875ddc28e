import { screenPalette } from '../../store/palette.ts';

/** What a picture of swatches shows. */
export interface SwatchPictureParts {
  readonly canvas: HTMLCanvasElement;
  readonly title: string;
  /** One list of lines per swatch, left to right. */
  readonly captions: readonly (readonly string[])[];
  /** What is exaggerated; null where everything is as measured. */
  readonly mark: string | null;
}

interface Hand {
  readonly weight: 400 | 600;
  readonly colour: string;
}

const HEADING: Hand = { weight: 600, colour: screenPalette.ink };
const LINE: Hand = { weight: 400, colour: screenPalette.soft };
const FONT = "'Inter Variable', system-ui, sans-serif";

/** The swatches as drawn, on paper, with title and captions; PNG. */
export async function swatchPicture({
  canvas,
  title,
  captions,
  mark,
}: SwatchPictureParts): Promise<Uint8Array> {
  const picture = document.createElement('canvas');
  const unit = canvas.width / 900;
  const [head, foot] = [64 * unit, 96 * unit];
  picture.width = canvas.width;
  picture.height = Math.round(canvas.height + head + foot);
  const pen = picture.getContext('2d')!;
  pen.fillStyle = screenPalette.paper;
  pen.fillRect(0, 0, picture.width, picture.height);
  pen.drawImage(canvas, 0, head);
  const write = (text: string, x: number, y: number, { weight, colour }: Hand): void => {
    pen.fillStyle = colour;
    pen.font = `${weight} ${15 * unit}px ${FONT}`;
    pen.fillText(text, x, y);
  };
  write(title, 24 * unit, 32 * unit, HEADING);
  if (mark !== null) write(mark, 24 * unit, 54 * unit, { ...HEADING, colour: screenPalette.alarm });
  captions.forEach((lines, index) => {
    const x = 24 * unit + (index * picture.width) / captions.length;
    lines.forEach((line, row) => {
      const y = head + canvas.height + (24 + 22 * row) * unit;
      write(line, x, y, row === 0 ? HEADING : LINE);
    });
  });
  const blob = await new Promise<Blob | null>((resolve) => {
    picture.toBlob(resolve, 'image/png');
  });
  if (blob === null) throw new Error('The picture could not be drawn.');
  return new Uint8Array(await blob.arrayBuffer());
}
