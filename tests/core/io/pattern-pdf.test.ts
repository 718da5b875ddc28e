/**
 * Source: ISO 32000-1:2008 (PDF 1.7), 7.5: a file's table holds where each object begins; 72 points are an inch (8.3.2.3).
 * From memory. The files were also opened once with poppler 22.12's pdfinfo and pdftoppm and looked at.
 */
import { describe, expect, it } from 'vitest';
import { fewestPages, pdfTiles } from '../../../core/io/pattern-pdf-tiles.ts';
import { pdfDocument, pdfNumber, pdfString } from '../../../core/io/pattern-pdf-document.ts';
import { writePatternPdf } from '../../../core/io/write-pattern-pdf.ts';
import { drawnPattern } from '../../../core/pattern/drawn-pattern.ts';
import { outlineOf } from '../../../core/pattern/flat-outline.ts';
import { patternPaperWords } from '../../../core/words/pattern-paper-words.ts';
import { halfShort } from '../../help/pattern-samples.ts';

const textOf = (bytes: Uint8Array): string => Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');

/** The drawing operators of every page. */
const pagesOf = (text: string): string[] =>
  [...text.matchAll(/\/Length (\d+) >>\nstream\n/g)].map((found) => {
    const start = found.index + found[0].length;
    const stream = text.slice(start, start + Number(found[1]));
    expect(text.slice(start + Number(found[1]))).toMatch(/^endstream/);
    return stream;
  });

const pdf = textOf(writePatternPdf(halfShort, { words: patternPaperWords, size: 'M' }));

describe('a pattern on paper', () => {
  it('is a PDF whose table points at its objects', () => {
    expect(pdf).toMatch(/^%PDF-1\.4\n/);
    const table = Number(/startxref\n(\d+)\n%%EOF\n$/.exec(pdf)![1]);
    expect(pdf.slice(table)).toMatch(/^xref\n0 (\d+)\n0000000000 65535 f \n/);
    const entries = [...pdf.slice(table).matchAll(/(\d{10}) 00000 n \n/g)].map(([, at]) => Number(at));
    entries.forEach((at, i) => expect(pdf.slice(at)).toMatch(new RegExp(`^${i + 1} 0 obj\\n`)));
    expect(pdf).toContain(`/Size ${entries.length + 1} `);
    expect(Number(/\/Count (\d+)/.exec(pdf)![1])).toBe(pagesOf(pdf).length);
    // A4 is 210 by 297 mm.
    const [, width, height] = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf)!;
    expect((Number(width) / 72) * 25.4).toBeCloseTo(210, 3);
    expect((Number(height) / 72) * 25.4).toBeCloseTo(297, 3);
  });

  it('has a square of 100 mm on its first page, drawn in mm', () => {
    const [cover] = pagesOf(pdf);
    const [, scale] = /^([\d.]+) 0 0 \1 0 0 cm\n/.exec(cover!)!;
    expect((Number(scale) / 72) * 25.4).toBeCloseTo(1, 5);
    expect(cover).toContain(' 100 100 re S');
  });

  it('shows every point of every outline on a page, in its true place, the 10 mm between pages twice', () => {
    const { drawn } = fewestPages(halfShort);
    const tiles = pagesOf(pdf).slice(1);
    const [border, width, height] = [10, 190, 277];
    const moves = tiles.map((tile) => {
      expect(tile).toContain(`${border} ${border} ${width} ${height} re W n`);
      const [, x, y] = /1 0 0 1 (\S+) (\S+) cm/.exec(tile)!;
      return { x: Number(x), y: Number(y), tile };
    });
    for (const piece of drawn.pieces) {
      for (const [px, py] of outlineOf(piece)) {
        const [x, y] = [1000 * (px + piece.offset[0]), 1000 * (py + piece.offset[1])];
        const shown = moves.filter((move) => {
          const [onX, onY] = [x + move.x, y + move.y];
          return onX >= border && onX <= border + width && onY >= border && onY <= border + height;
        });
        expect(shown.length).toBeGreaterThan(0);
        for (const { tile } of shown) expect(tile).toContain(`${pdfNumber(x)} ${pdfNumber(y)} `);
      }
    }
    // Neighbours in a row are 180 mm apart: what a page holds less the overlap.
    const rows = [...new Set(moves.map(({ y }) => y))];
    for (const row of rows) {
      const xs = moves.filter(({ y }) => y === row).map(({ x }) => x);
      for (let i = 1; i < xs.length; i++) expect((xs[i - 1]! - xs[i]!) % 180).toBeCloseTo(0, 9);
    }
    expect(tiles[0]).toContain(`(invented short M - page 2 of ${tiles.length + 1}, row 1, column 1)`);
  });

  it('takes no more pages than pieces in one row or in one column would', () => {
    const { tiles } = fewestPages(halfShort);
    for (const width of [10, 0]) {
      expect(tiles.length).toBeLessThanOrEqual(pdfTiles(drawnPattern(halfShort, width)).length);
    }
  });

  it('writes names with brackets and foreign letters so that the file stays whole', () => {
    expect(pdfString('a (b) \\ é 你\n')).toBe('(a \\(b\\) \\\\ é ??)');
    const odd = textOf(pdfDocument(['0 0 m'], 'Ж) >>'));
    expect(odd).toContain('/Title (?\\) >>)');
    expect(pagesOf(odd)).toHaveLength(1);
  });
});
