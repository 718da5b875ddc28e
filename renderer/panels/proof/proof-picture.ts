import { PROOF_PAGE, proofPages, type ProofShape } from '../../../core/sheet/proof-picture.ts';
import type { ProofTable } from '../../../core/sheet/proof-table.ts';
import { PROOF_PLACE_WORDS } from '../../../core/words/proof-page-words.ts';
import { PROOF_WORDS } from '../../../core/words/proof-words.ts';
import { screenPalette } from '../../store/palette.ts';

const PAPER = '#ffffff';
const INKS = {
  ink: screenPalette.ink,
  soft: screenPalette.soft,
  hair: screenPalette.line,
  fail: screenPalette.alarm,
} as const;
/** px; browsers draw nothing on a canvas that is higher. */
const HIGHEST = 32_000;

/**
 * The table of outside checks as a picture on white paper, its pages one below another. PNG.
 *
 * @param of - How many subjects there are: a picture of some of them says so.
 */
export async function proofPicture(table: ProofTable, of: number): Promise<Uint8Array> {
  await document.fonts.ready;
  const canvas = document.createElement('canvas');
  const pen = canvas.getContext('2d');
  if (pen === null) throw new Error('this browser does not draw pictures');
  const done = table.subjects.length;
  const title = done === of ? PROOF_WORDS.title : `${PROOF_WORDS.title}: ${PROOF_PLACE_WORDS.some(done, of)}`;
  const pages = proofPages(table, { ...PROOF_WORDS, title }, (text, size, weight) => {
    pen.font = fontOf(size, weight);
    return pen.measureText(text).width;
  });
  const scale = Math.min(1, HIGHEST / (pages.length * PROOF_PAGE.height));
  canvas.width = Math.round(PROOF_PAGE.width * scale);
  canvas.height = Math.round(pages.length * PROOF_PAGE.height * scale);
  pen.fillStyle = PAPER;
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.scale(scale, scale);
  for (const { shapes } of pages) {
    for (const shape of shapes) drawShape(pen, shape);
    pen.translate(0, PROOF_PAGE.height);
  }
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
  if (blob === null) throw new Error('the picture could not be written');
  return new Uint8Array(await blob.arrayBuffer());
}

const fontOf = (size: number, weight: number): string => `${weight} ${size}px "Inter Variable", sans-serif`;

function drawShape(pen: CanvasRenderingContext2D, shape: ProofShape): void {
  pen.fillStyle = INKS[shape.ink];
  if (shape.kind === 'box') {
    pen.fillRect(shape.x, shape.y, shape.width, shape.height);
    return;
  }
  pen.font = fontOf(shape.size, shape.weight);
  pen.textAlign = shape.align === 'start' ? 'left' : 'right';
  pen.textBaseline = 'alphabetic';
  pen.fillText(shape.text, shape.x, shape.y);
}
