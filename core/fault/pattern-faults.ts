/** Flat patterns that cannot be read or sewn. Lines count from 1; places are in mm as the drawing has them. */
export interface PatternFaults {
  'pattern/too-large': { what: string; found: number; limit: number };
  /** Not a pair of group code and value, or not where one belongs. */
  'pattern/not-dxf': { line: number; value: string; expected: string };
  'pattern/dxf-binary': { line: number };
  'pattern/not-svg': { line: number; value: string; expected: string };
  /** The text ends before what stands at `line` is closed. */
  'pattern/unfinished': { line: number; what: string };
  'pattern/bad-number': { line: number; what: string; value: string };
  'pattern/bad-path': { line: number; value: string; expected: string };
  'pattern/bad-transform': { line: number; value: string };
  'pattern/no-such-block': { line: number; value: string };
  'pattern/blocks-in-circles': { line: number; value: string };
  'pattern/no-outline': { what: string };
  'pattern/outline-open': { piece: string; line: number; gapMm: number; xMm: number; yMm: number };
  'pattern/outline-crosses': { piece: string; line: number; xMm: number; yMm: number };
  'pattern/outline-flat': { piece: string; line: number; areaMm2: number };
  /** A fold line along which the outline does not run. */
  'pattern/fold-off-outline': { piece: string; line: number; awayMm: number };
  'pattern/no-such-edge': { seam: string; panel: string; edge: string };
}
