import type { PatternFaults } from '../fault/pattern-faults.ts';
import type { PatternFindings } from '../fault/pattern-findings.ts';
import type { FaultWords, FindingWords } from './word-tables.ts';

const mm = (value: number): string => `${Number(value.toFixed(1))} mm`;
const degrees = (value: number): string => `${value.toFixed(0)} degrees`;
const place = ({ xMm, yMm }: { readonly xMm: number; readonly yMm: number }): string =>
  `x ${Number(xMm.toFixed(1))}, y ${Number(yMm.toFixed(1))} mm`;
const times = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;

/** What is said of a flat pattern that cannot be read or sewn. */
export const patternFaultWords: FaultWords<PatternFaults> = {
  'pattern/too-large': ({ what, found, limit }) => ({
    what: `The pattern has ${found} ${what}; ${limit} can be read.`,
    remedy: 'Export one style and one size only, and curves with fewer points.',
  }),
  'pattern/not-dxf': ({ line, value, expected }) => ({
    what: `Line ${line} reads "${value}" where ${expected} belongs.`,
    remedy: 'Export the pattern again as text DXF (R12 or later); do not edit it by hand.',
  }),
  'pattern/dxf-binary': () => ({
    what: 'Line 1 says that this is a binary DXF file.',
    remedy: 'Export the pattern as text (ASCII) DXF.',
  }),
  'pattern/not-svg': ({ line, value, expected }) => ({
    what: `Line ${line} reads "${value}" where ${expected} belongs.`,
    remedy: 'Export the drawing again as plain SVG.',
  }),
  'pattern/unfinished': ({ line, what }) => ({
    what: `The file ends within ${what}, which begins in line ${line}: a part of it is missing.`,
    remedy: 'Copy or export the file again; nothing of it was used.',
  }),
  'pattern/bad-number': ({ line, what, value }) => ({
    what: `Line ${line}: ${what} reads "${value}", which is no number that a pattern can have.`,
    remedy: 'Correct that number, or export the pattern again with a decimal point.',
  }),
  'pattern/bad-path': ({ line, value, expected }) => ({
    what: `Line ${line}: the path reads "${value}" where ${expected} belongs.`,
    remedy: 'Correct the path at that place, or export the drawing again.',
  }),
  'pattern/bad-transform': ({ line, value }) => ({
    what: `Line ${line}: "${value}" is no transformation of a drawing.`,
    remedy:
      'Use matrix, translate, scale, rotate, skewX or skewY, or let the drawing program apply it to the shapes.',
  }),
  'pattern/no-such-block': ({ line, value }) => ({
    what: `Line ${line} places a block "${value}" that the file does not hold.`,
    remedy: 'Export the pattern again with all its pieces.',
  }),
  'pattern/blocks-in-circles': ({ line, value }) => ({
    what: `Line ${line} places the block "${value}" in blocks within blocks without end.`,
    remedy: 'Export the pattern again with one block per piece.',
  }),
  'pattern/no-outline': ({ what }) => ({
    what: `${what} holds no closed outline of a piece.`,
    remedy: 'Draw each piece as one closed outline; in DXF, on layer 1.',
  }),
  'pattern/outline-open': ({ piece, line, gapMm, ...at }) => ({
    what: `The outline of ${piece} (line ${line}) does not close: ${mm(gapMm)} are missing at ${place(at)}.`,
    remedy: 'Close it there; gaps up to 0.5 mm are closed by themselves.',
  }),
  'pattern/outline-crosses': ({ piece, line, ...at }) => ({
    what: `The outline of ${piece} (line ${line}) crosses or touches itself at ${place(at)}.`,
    remedy: 'Remove the loop or the doubled line at that place.',
  }),
  'pattern/outline-flat': ({ piece, line, areaMm2 }) => ({
    what: `The outline of ${piece} (line ${line}) holds no more than ${Number(areaMm2.toFixed(2))} mm².`,
    remedy: 'Check the unit of the drawing, and whether this is a piece at all.',
  }),
  'pattern/fold-off-outline': ({ piece, line, awayMm }) => ({
    what: `${piece} is to be folded on the line that begins in line ${line}, but its outline does not run along it (${mm(awayMm)} off).`,
    remedy: 'Let a straight side of the half piece lie on the fold line, and the piece on one side of it.',
  }),
  'pattern/no-such-edge': ({ seam, panel, edge }) => ({
    what: `The seam ${seam} names the edge "${edge}" of a panel "${panel}", which the pattern does not have.`,
    remedy: 'Choose one of the pattern’s edges for that seam, or remove the seam.',
  }),
};

/** What is said of a flat pattern that leaves something in doubt. */
export const patternFindingWords: FindingWords<PatternFindings> = {
  'pattern/unit-assumed': ({ unit }) => `The file does not name its unit; its numbers were taken as ${unit}.`,
  'pattern/scale-assumed': ({ mmPerUnit }) =>
    `The drawing gives no size on paper; one of its units was taken as ${Number(mmPerUnit.toFixed(4))} mm. Check a length you know.`,
  'pattern/piece-large': ({ piece, widthMm, heightMm }) =>
    `${piece} measures ${widthMm.toFixed(0)} by ${heightMm.toFixed(0)} mm: check the unit of the file.`,
  'pattern/gap-closed': ({ piece, line, count, gapMm }) =>
    `${times(count, 'gap')} in the outline of ${piece} (line ${line}), up to ${gapMm.toFixed(2)} mm wide, ${count === 1 ? 'was' : 'were'} closed.`,
  'pattern/duplicate-dropped': ({ piece, line }) =>
    `The outline of ${piece} is drawn a second time in line ${line}; it was taken once.`,
  'pattern/passed-over': ({ what, count, line }) =>
    `${count} ${what} were passed over, the first in line ${line}.`,
  'pattern/cut-outs-passed-over': ({ piece, count }) =>
    `${piece} has ${times(count, 'outline')} inside; cut-outs are not worn yet and were left out.`,
  'pattern/line-passed-over': ({ piece, line }) =>
    `The inner line ${line} of ${piece} does not run from edge to edge; it was left out.`,
  'pattern/sew-line-taken': ({ piece }) =>
    `${piece} is drawn with a seam allowance; its sew line became the panel.`,
  'pattern/sew-line-open': ({ piece, count }) =>
    `${piece} has ${times(count, 'sew line')} that ${count === 1 ? 'makes' : 'make'} no closed outline; its cut line became the panel, allowance included.`,
  'pattern/unfolded': ({ piece }) =>
    `${piece} was drawn as a half on its fold line; both halves were made one piece.`,
  'pattern/pair-added': ({ piece, mirrored }) =>
    `${piece} is cut as a pair; its mirror image ${mirrored} was added.`,
  'pattern/cut-several-times': ({ piece, count }) =>
    `${piece} is cut ${count} times from one side; it was taken once.`,
  'pattern/no-grain': ({ piece }) => `${piece} has no grain line; its warp was taken to run up the drawing.`,
  'pattern/notch-off': ({ piece, awayMm, ...at }) =>
    `A notch of ${piece} at ${place(at)} lies ${mm(awayMm)} off the outline; it was left out.`,
  'pattern/no-corners': ({ piece }) =>
    `${piece} has fewer than two corners; its edges begin at places chosen by length.`,
  'pattern/several-sizes': ({ sizes, taken }) => `The file holds the sizes ${sizes}; ${taken} was taken.`,
  'pattern/ease-large': ({ seam, one, oneMm, other, otherMm, percent }) =>
    `Seam ${seam}: ${one} is ${mm(oneMm)} long and ${other} ${mm(otherMm)}, ${percent.toFixed(1)} % apart. Unless it is gathered or stretched on, that is a slip of the draft.`,
  'pattern/corner-not-square': ({ place: where, degrees: sum }) =>
    `Where ${where} meet at the open edge, the corners add up to ${degrees(sum)} instead of 180: the edge gets a ${sum > 180 ? 'point' : 'notch'} there.`,
  'pattern/point-not-flat': ({ place: where, degrees: sum }) =>
    `Where ${where} meet, the corners add up to ${degrees(sum)}; cloth lies at 360 and can take 300 to 440.`,
  'pattern/turns-sharply': ({ panel, edge, atMm, degrees: turn }) =>
    `Edge ${edge} of ${panel} turns by ${degrees(turn)} within 30 mm, ${mm(atMm)} from its start: give it a corner there, or a rounder curve.`,
  'pattern/sewn-twice': ({ panel, edge, seams }) =>
    `Edge ${edge} of ${panel} is sewn more than once: ${seams}.`,
  'pattern/edges-free': ({ edges, count }) =>
    `${times(count, 'edge')} stay${count === 1 ? 's' : ''} open: ${edges}.`,
  'pattern/panel-unsewn': ({ panel }) => `No seam joins ${panel} to the rest.`,
};
