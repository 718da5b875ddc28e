import { outlineOf } from './flat-outline.ts';
import { awayFrom, mirroredPoint, type FoldLine } from './mirrored-curve.ts';
import type { EdgeOf, FlatPoint, Panel, Pattern, PatternCurve, Seam } from './pattern.ts';
import { facedPattern, turnedOver, woundPattern } from './wound-pattern.ts';

/** An edge on the centre this straight can be laid on a fold, m. */
const STRAIGHT = 1e-4;
/** Cloth folds on its warp or its weft; so far off, the halves would not match, rad. */
const ALONG_GRAIN = (0.5 * Math.PI) / 180;

const SIDES = ['left', 'right'] as const;
type Side = (typeof SIDES)[number];

/**
 * A pattern as it is cut: both halves, every panel seen from its outer side and running counter-clockwise.
 *
 * Of a pattern drawn as the wearer's left half, a panel whose centre edge is straight and lies along or across its grain
 * becomes one whole piece, as cut on the fold; any other becomes a left and a right piece, sewn together where both lie on
 * the centre (a rise). Names of what is doubled end in `left` and `right`. A pattern that has both halves keeps its names.
 */
export function wholePattern(pattern: Pattern): Pattern {
  const faced = facedPattern(pattern);
  if (faced.centre.length === 0) return faced;
  const folds = new Map(faced.panels.map((panel) => [panel.name, foldAlongGrain(panel, faced.centre)]));
  const isFolded = (panel: string) => (folds.get(panel) ?? null) !== null;
  const panels = faced.panels.flatMap((panel): Panel[] => {
    const fold = folds.get(panel.name) ?? null;
    if (fold) return [unfolded(panel, fold)];
    return [
      { ...panel, name: `${panel.name} left` },
      { ...turnedOver(panel), name: `${panel.name} right` },
    ];
  });
  const edgeOn = (side: Side, { panel, edge }: EdgeOf): EdgeOf =>
    isFolded(panel) ? { panel, edge: `${edge} ${side}` } : { panel: `${panel} ${side}`, edge };
  const seams = faced.seams.flatMap(({ name, one, other, turned }) =>
    SIDES.map((side): Seam => {
      // The right half of a whole piece runs back along its edges.
      const isBack = side === 'right' && isFolded(one.panel) !== isFolded(other.panel);
      // Loops of the right half run the other way; with both edges exchanged its notches are the mirror image of the left's.
      const [first, second] = side === 'left' ? [one, other] : [other, one];
      return {
        name: `${name} ${side}`,
        one: edgeOn(side, first),
        other: edgeOn(side, second),
        turned: isBack ? !turned : turned,
      };
    }),
  );
  const joins = faced.centre
    .filter(({ panel }) => !isFolded(panel))
    .map((edge): Seam => ({
      name: `${edge.panel} ${edge.edge}`,
      one: edgeOn('left', edge),
      other: edgeOn('right', edge),
      turned: false,
    }));
  return woundPattern({ name: faced.name, panels, seams: [...seams, ...joins], centre: [] });
}

interface Fold {
  readonly line: FoldLine;
  /** Edges off the fold, beginning where the fold ends. */
  readonly others: readonly PatternCurve[];
}

/**
 * One piece of a half drawn on its fold: what lies on the fold goes, all else is doubled and named `left` and `right`.
 *
 * @param panel - Runs counter-clockwise.
 * @param centre - Its edges on the fold.
 * @returns null where these do not lie in a row on one straight line, or the panel lies on both sides of it.
 */
export function unfoldedPanel(panel: Panel, centre: readonly EdgeOf[]): Panel | null {
  const fold = foldOf(panel, centre);
  return fold && unfolded(panel, fold);
}

/** Where a panel is folded; null where it has to be cut as two. */
function foldAlongGrain(panel: Panel, centre: readonly EdgeOf[]): Fold | null {
  const fold = foldOf(panel, centre);
  if (!fold) return null;
  const { from, to } = fold.line;
  // Twice the angle between fold and warp is 0 for both along and across.
  const angle = Math.atan2(to[0] - from[0], to[1] - from[1]) - (panel.grain ?? 0);
  return Math.abs(Math.sin(2 * angle)) / 2 > ALONG_GRAIN ? null : fold;
}

function foldOf({ name, edges }: Panel, centre: readonly EdgeOf[]): Fold | null {
  const onCentre = edges.map((edge) => centre.some((one) => one.panel === name && one.edge === edge.name));
  const starts = edges.flatMap((_, e) => (onCentre[e] && !onCentre.at(e - 1) ? [e] : []));
  if (starts.length !== 1) return null;
  const turned = [...edges.slice(starts[0]), ...edges.slice(0, starts[0])];
  const count = onCentre.filter(Boolean).length;
  const fold = turned.slice(0, count).flatMap(({ points }) => points);
  const line = { from: fold[0]!, to: fold.at(-1)! };
  if (fold.some((point) => awayFrom(line, point) > STRAIGHT)) return null;
  const [dx, dy] = [line.to[0] - line.from[0], line.to[1] - line.from[1]];
  // Run counter-clockwise, a panel lies to the left of its fold.
  const strays = ([x, y]: FlatPoint) => (x - line.from[0]) * dy - (y - line.from[1]) * dx;
  if (outlineOf({ edges }).some((point) => strays(point) > STRAIGHT * Math.hypot(dx, dy))) return null;
  return { line, others: turned.slice(count) };
}

function unfolded(panel: Panel, { line, others }: Fold): Panel {
  const left = others.map(({ name, points }) => ({ name: `${name} left`, points }));
  const right = others
    .map(({ name, points }) => ({
      name: `${name} right`,
      points: points.map((point) => mirroredPoint(line, point)).toReversed(),
    }))
    .toReversed();
  // Both halves meet in the very same points.
  right[0] = { ...right[0]!, points: [left.at(-1)!.points.at(-1)!, ...right[0]!.points.slice(1)] };
  const last = right.length - 1;
  right[last] = { ...right[last]!, points: [...right[last]!.points.slice(0, -1), left[0]!.points[0]!] };
  const { lines, ...rest } = panel;
  const mirroredLines = lines?.flatMap(({ name, points }) => [
    { name: `${name} left`, points },
    { name: `${name} right`, points: points.map((point) => mirroredPoint(line, point)) },
  ]);
  return { ...rest, edges: [...left, ...right], ...(mirroredLines && { lines: mirroredLines }) };
}
