import type { NotchFrame } from './stage-signals.ts';

/** A notch with its number put where no other stands. px. */
export interface PlacedNotch {
  readonly zone: number;
  readonly x: number;
  readonly y: number;
  readonly labelX: number;
  readonly labelY: number;
}

/** From the cloth's edge to the numbers, and between two numbers, px. */
const AWAY = 40;
const APART = 28;
/** A number's own half width and a little air, px. */
const MARGIN = 16;

/** Puts the numbers of visible places in two columns beside the cloth, from above down, none over another. */
export function placeNotches({ points, left, right, room }: NotchFrame): readonly PlacedNotch[] {
  const middle = (left + right) / 2;
  const visible = points.filter(({ isVisible }) => isVisible);
  const leftX = Math.max(room.left + MARGIN, left - AWAY);
  const rightX = Math.min(room.right - MARGIN, right + AWAY);
  const column = (isLeft: boolean): readonly PlacedNotch[] => {
    let lowest = -Infinity;
    return visible
      .filter(({ x }) => x < middle === isLeft)
      .sort((one, other) => one.y - other.y)
      .map(({ zone, x, y }) => {
        lowest = Math.max(y, lowest + APART);
        return { zone, x, y, labelX: isLeft ? leftX : rightX, labelY: lowest };
      });
  };
  return [...column(true), ...column(false)];
}
