import { curveLength, pointReader } from './arc-length.ts';
import { curveOf, type EdgeOf, type FlatPoint, type Pattern } from './pattern.ts';

/** A mark on an edge that meets its like on the edge sewn to it. */
export interface Notch {
  readonly panel: string;
  readonly edge: string;
  readonly seam: string;
  readonly at: FlatPoint;
  /** Unit direction into the panel. */
  readonly inwards: FlatPoint;
}

/** Seams longer than these have one notch and two; m. */
const LENGTHS = { one: 0.06, two: 0.25 };
/** Off the middle, so that no panel can be sewn in upside down. Common practice. */
const PLACES = { one: [0.4], two: [0.3, 0.6] } as const;
/** Half the piece of edge that a notch's direction is read from, as a share of its length. */
const BESIDE = 0.002;

/**
 * Notches where seams are to match: at the same fractions of both edges, as these are sewn.
 *
 * @param pattern - Every panel running counter-clockwise, so that its inside is to the left.
 */
export function seamNotches(pattern: Pattern): Notch[] {
  return pattern.seams.flatMap(({ name, one, other, turned }) => {
    const length = curveLength(curveOf(pattern, one).points);
    const places = length > LENGTHS.two ? PLACES.two : length > LENGTHS.one ? PLACES.one : [];
    return places.flatMap((place) => [
      notchAt(pattern, { seam: name, edge: one, place }),
      notchAt(pattern, { seam: name, edge: other, place: turned ? 1 - place : place }),
    ]);
  });
}

function notchAt(
  pattern: Pattern,
  { seam, edge, place }: { readonly seam: string; readonly edge: EdgeOf; readonly place: number },
): Notch {
  const reader = pointReader(curveOf(pattern, edge).points);
  const [ax, ay] = reader(place - BESIDE);
  const [bx, by] = reader(place + BESIDE);
  const length = Math.hypot(bx - ax, by - ay);
  return {
    ...edge,
    seam,
    at: reader(place),
    inwards: [-(by - ay) / length, (bx - ax) / length],
  };
}
