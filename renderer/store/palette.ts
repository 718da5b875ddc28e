/** Ink on paper, as pictures have it; `styles/base.css` holds the same for the window, light and dark. */
export const screenPalette = {
  paper: '#f3f2ee',
  ink: '#22262a',
  soft: '#5b5f63',
  line: '#cfccc3',
  bar: '#d6d2c6',
  alarm: '#a61e2b',
} as const;
