import type { MarkFrame, StageMark } from './stage-signals.ts';

/** A mark with the place of its words beside the form. */
export interface PlacedLabel extends StageMark {
  readonly labelX: number;
  readonly labelY: number;
}

/** Words stand so far apart, px, and so far from the form's edge. */
const LINE = 19;
const GAP = 10;
/** Room that words take beside the free room's edge, px: the legend's bars leave some more. */
const WORDS = 112;

/** Words of the visible marks in a column to the right of the form, level with their places where there is room. */
export function placeLabels({ marks, left, right, room }: MarkFrame): readonly PlacedLabel[] {
  const labelX = Math.max((left + right) / 2, Math.min(right + GAP, room.right - WORDS));
  let free = -Infinity;
  return marks
    .filter(({ isVisible }) => isVisible)
    .toSorted((one, other) => one.y - other.y)
    .map((mark) => {
      const labelY = Math.max(mark.y, free);
      free = labelY + LINE;
      return { ...mark, labelX, labelY };
    });
}
