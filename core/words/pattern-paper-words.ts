import type { PatternPaperWords } from '../io/write-pattern-pdf.ts';

/** What a pattern printed in its true size says. */
export const patternPaperWords: PatternPaperWords = {
  howTo: [
    'Print on A4 at 100 %, not fitted to the page, then measure the square: each side is 100 mm.',
    'Lay the crosses of neighbouring pages on each other; 10 mm are printed twice.',
    'No seam allowance. Arrows run along the warp; notches meet their like on the other edge.',
  ],
  square: '100 mm',
  page: ({ page, of, row, column }) => `page ${page} of ${of}, row ${row}, column ${column}`,
  piece: (name) => `${name}: cut 1`,
};
