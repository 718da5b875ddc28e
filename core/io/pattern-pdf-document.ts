/** Points of a PDF page per mm. */
const POINTS_PER_MM = 72 / 25.4;

/** Width of an average letter of Helvetica, as a share of its size. From memory; only used to place words. */
const LETTER = 0.5;

/**
 * A PDF file of A4 pages; what is drawn on each is given in mm from its lower left corner.
 *
 * Readers are asked not to scale it to the paper.
 *
 * @param pages - Drawing operators of each page.
 * @see ISO 32000-1:2008 (PDF 1.7), 7.5 file structure, 8.4 and 8.5 graphics, 9.6.2.2 standard fonts; from memory.
 */
export function pdfDocument(pages: readonly string[], title: string): Uint8Array {
  const first = 5;
  const kids = pages.map((_, p) => `${first + 2 * p} 0 R`).join(' ');
  const box = `0 0 ${pdfNumber(210 * POINTS_PER_MM)} ${pdfNumber(297 * POINTS_PER_MM)}`;
  const objects = [
    '<< /Type /Catalog /Pages 2 0 R /ViewerPreferences << /PrintScaling /None >> >>',
    `<< /Type /Pages /Kids [${kids}] /Count ${pages.length} >>`,
    '<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>',
    `<< /Title ${pdfString(title)} /Producer (Snugfield) >>`,
    ...pages.flatMap((content, p) => {
      const scale = pdfNumber(POINTS_PER_MM);
      const stream = `${scale} 0 0 ${scale} 0 0 cm\n${content}\n`;
      return [
        `<< /Type /Page /Parent 2 0 R /MediaBox [${box}] /Resources << /Font << /F1 3 0 R >> >> /Contents ${first + 2 * p + 1} 0 R >>`,
        `<< /Length ${stream.length} >>\nstream\n${stream}endstream`,
      ];
    }),
  ];
  let text = '%PDF-1.4\n';
  const starts = objects.map((object, i) => {
    const start = text.length;
    text += `${i + 1} 0 obj\n${object}\nendobj\n`;
    return start;
  });
  const table = text.length;
  text += `xref\n0 ${objects.length + 1}\n0000000000 65535 f \n`;
  text += starts.map((start) => `${String(start).padStart(10, '0')} 00000 n \n`).join('');
  text += `trailer\n<< /Size ${objects.length + 1} /Root 1 0 R /Info 4 0 R >>\nstartxref\n${table}\n%%EOF\n`;
  return Uint8Array.from(text, (character) => character.charCodeAt(0));
}

/** A number as PDF writes it: no exponent. */
export const pdfNumber = (value: number): string => String(Number(value.toFixed(5)) + 0);

/** Text in parentheses; letters beyond Latin-1 become question marks. */
export const pdfString = (text: string): string =>
  `(${text
    .normalize('NFC')
    .replaceAll(/[^ -~\u00A1-\u00FF]/gu, '?')
    .replaceAll(/[\\()]/g, (character) => `\\${character}`)})`;

/** Words at a place; all in mm. */
export function pdfText(
  words: string,
  [x, y]: readonly [number, number],
  size: number,
  anchor: 'start' | 'middle' | 'end' = 'start',
): string {
  const share = { start: 0, middle: 0.5, end: 1 }[anchor];
  const left = x - share * LETTER * size * words.length;
  return `BT /F1 ${pdfNumber(size)} Tf ${pdfNumber(left)} ${pdfNumber(y)} Td ${pdfString(words)} Tj ET`;
}

/** A line through points; all in mm. */
export const pdfLine = (points: readonly (readonly [number, number])[]): string =>
  points.length === 0
    ? ''
    : `${points.map(([x, y], i) => `${pdfNumber(x)} ${pdfNumber(y)} ${i === 0 ? 'm' : 'l'}`).join('\n')} S`;

/** Line width in mm, grey from 0 (black) to 1, and dashes in mm. */
export const pdfPen = (width: number, grey = 0, dashes: readonly number[] = []): string =>
  `${pdfNumber(width)} w ${pdfNumber(grey)} G ${pdfNumber(grey)} g [${dashes.join(' ')}] 0 d`;
