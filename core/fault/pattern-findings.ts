/** What the reader of a flat pattern must know. */
export interface PatternFindings {
  /** The file does not say what its numbers are. */
  'pattern/unit-assumed': { unit: string };
  /** A drawing that gives no size on paper: one of its units was taken as so long. */
  'pattern/scale-assumed': { mmPerUnit: number };
  'pattern/piece-large': { piece: string; widthMm: number; heightMm: number };
  /** Ends of an outline that did not quite meet. */
  'pattern/gap-closed': { piece: string; line: number; count: number; gapMm: number };
  'pattern/duplicate-dropped': { piece: string; line: number };
  'pattern/passed-over': { what: string; count: number; line: number };
  'pattern/cut-outs-passed-over': { piece: string; count: number };
  /** An inner line that does not run from edge to edge. */
  'pattern/line-passed-over': { piece: string; line: string };
  /** The cut line holds a seam allowance; the sew line became the panel. */
  'pattern/sew-line-taken': { piece: string };
  /** Sew lines that make no closed outline; the cut line became the panel. */
  'pattern/sew-line-open': { piece: string; count: number };
  'pattern/unfolded': { piece: string };
  'pattern/pair-added': { piece: string; mirrored: string };
  'pattern/cut-several-times': { piece: string; count: number };
  'pattern/no-grain': { piece: string };
  'pattern/notch-off': { piece: string; xMm: number; yMm: number; awayMm: number };
  'pattern/no-corners': { piece: string };
  'pattern/several-sizes': { sizes: string; taken: string };
  /** Sewn edges of lengths so unlike that it is usually a slip of the draft. */
  'pattern/ease-large': {
    seam: string;
    one: string;
    oneMm: number;
    other: string;
    otherMm: number;
    percent: number;
  };
  /** Where a seam ends at an open edge, the edge does not run on smoothly. */
  'pattern/corner-not-square': { place: string; degrees: number };
  /** A point amid the garment where so much or so little cloth meets that it cannot lie. */
  'pattern/point-not-flat': { place: string; degrees: number };
  'pattern/turns-sharply': { panel: string; edge: string; atMm: number; degrees: number };
  'pattern/sewn-twice': { panel: string; edge: string; seams: string };
  'pattern/edges-free': { edges: string; count: number };
  'pattern/panel-unsewn': { panel: string };
}
