import { pointReader } from './arc-length.ts';
import { boxOf, outlineOf } from './flat-outline.ts';
import { grainLine, middleOf, roomBeside } from './grain-line.ts';
import { seamNotches, type Notch } from './notches.ts';
import type { FlatPoint, Pattern, PatternCurve } from './pattern.ts';
import { wholePattern } from './whole-pattern.ts';

/** One piece of a pattern with all that is drawn on it; in the panel's own plane, m. */
export interface DrawnPiece {
  readonly name: string;
  /** A closed loop that runs counter-clockwise. */
  readonly edges: readonly PatternCurve[];
  /** Names of edges that are sewn. */
  readonly sewn: ReadonlySet<string>;
  readonly lines: readonly PatternCurve[];
  /** Along the warp, from low to high. */
  readonly grain: readonly [FlatPoint, FlatPoint];
  readonly notches: readonly Notch[];
  /** Where its name begins: well inside, beside the grain line. */
  readonly title: FlatPoint;
  /** How high its letters may be so that it lies inside, m. */
  readonly titleHeight: number;
  /** Names of edges, beside them. */
  readonly labels: readonly EdgeLabel[];
  readonly fabric: number;
  /** How far it is moved on the sheet where all pieces lie side by side. */
  readonly offset: FlatPoint;
}

/** Where the name of an edge is written, so that it lies inside. */
export interface EdgeLabel {
  readonly text: string;
  readonly at: FlatPoint;
  readonly anchor: 'start' | 'middle' | 'end';
}

/** A whole pattern, laid out on one sheet from (0, 0). */
export interface DrawnPattern {
  readonly name: string;
  readonly pieces: readonly DrawnPiece[];
  readonly width: number;
  readonly height: number;
}

/** How far names stay off lines, m. */
const BESIDE = 0.008;
/** Heights of letters, m; how wide one is over its height, and how many are added for a size. */
const LETTERS = { most: 0.008, least: 0.003, width: 0.6, size: 3 };
/** Space between pieces and at the sheet's edges, m. */
const GAP = 0.02;
/** As wide as a cutting table is at least, m. Common practice. */
const ROW_WIDTH = 1;

/**
 * A pattern as it is put on paper: both halves, grain lines, notches, pieces in rows beside each other.
 *
 * @param rowWidth - Wider rows are begun anew, m; a piece that is wider by itself has a row of its own.
 */
export function drawnPattern(pattern: Pattern, rowWidth = ROW_WIDTH): DrawnPattern {
  const whole = wholePattern(pattern);
  const notches = seamNotches(whole);
  const pieces = whole.panels.map((panel): Omit<DrawnPiece, 'offset'> => {
    const loop = outlineOf(panel);
    const title = titleOf(loop);
    const wide = LETTERS.width * (panel.name.length + LETTERS.size);
    const sides = whole.seams.flatMap(({ one, other }) => [one, other]);
    return {
      name: panel.name,
      edges: panel.edges,
      sewn: new Set(sides.filter((side) => side.panel === panel.name).map(({ edge }) => edge)),
      lines: panel.lines ?? [],
      grain: grainLine(loop, panel.grain ?? 0),
      notches: notches.filter((notch) => notch.panel === panel.name),
      title,
      titleHeight: Math.min(LETTERS.most, Math.max(LETTERS.least, roomBeside(loop, title) / wide)),
      labels: panel.edges.map(labelOf),
      fabric: panel.fabric ?? 0,
    };
  });
  return { name: whole.name, ...inRows(pieces, rowWidth) };
}

function titleOf(loop: readonly FlatPoint[]): FlatPoint {
  const [x, y] = middleOf(loop);
  return [x + BESIDE, y];
}

/** Beside the middle of an edge of a panel that runs counter-clockwise. */
function labelOf({ name, points }: PatternCurve): EdgeLabel {
  const reader = pointReader(points);
  const [ax, ay] = reader(0.48);
  const [bx, by] = reader(0.52);
  const length = Math.hypot(bx - ax, by - ay);
  const [x, y] = reader(0.5);
  const [inX, inY] = [-(by - ay) / length, (bx - ax) / length];
  const anchor = inX > 0.5 ? 'start' : inX < -0.5 ? 'end' : 'middle';
  return { text: name, at: [x + BESIDE * inX, y + BESIDE * inY], anchor };
}

/** Pieces beside each other from the left, rows from the top. */
function inRows(pieces: readonly Omit<DrawnPiece, 'offset'>[], rowWidth: number): Omit<DrawnPattern, 'name'> {
  let [x, down, rowHeight, width] = [GAP, GAP, 0, 0];
  const places = pieces.map((piece) => {
    const box = boxOf(outlineOf(piece));
    if (x > GAP && x + box.right - box.left + GAP > rowWidth) {
      down += rowHeight + GAP;
      [x, rowHeight] = [GAP, 0];
    }
    const place = { x: x - box.left, top: down + box.top };
    x += box.right - box.left + GAP;
    rowHeight = Math.max(rowHeight, box.top - box.bottom);
    width = Math.max(width, x);
    return place;
  });
  const height = down + rowHeight + GAP;
  const laid = pieces.map((piece, p): DrawnPiece => {
    const { x: right, top } = places[p]!;
    return { ...piece, offset: [right, height - top] };
  });
  return { pieces: laid, width, height };
}
