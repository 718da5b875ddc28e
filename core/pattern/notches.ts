import { curveLength, pointReader } from './arc-length.ts';
import { curveOf, type EdgeOf, type FlatPoint, type Pattern, type Seam } from './pattern.ts';

/** A mark on an edge that meets its like on the edge sewn to it. */
export interface Notch {
  readonly panel: string;
  readonly edge: string;
  readonly seam: string;
  readonly at: FlatPoint;
  /** Unit direction into the panel. */
  readonly inwards: FlatPoint;
}

/** Seams shorter than the first have none; m. */
const LENGTHS = { some: 0.015, long: 0.25 };
/**
 * Where notches lie on an edge, as fractions of its length: off the middle, so that no panel can be sewn in upside down, and
 * another number of them for each seam of like length, so that no two are mistaken for each other. Common practice.
 */
const PLACES = {
  short: [[0.4], [0.3, 0.5], [0.25, 0.45, 0.65]],
  long: [[0.3, 0.6], [0.4], [0.2, 0.4, 0.65]],
} as const;
/** Seams this near in length could be mistaken for each other. */
const ALIKE = 0.06;
/** Half the piece of edge that a notch's direction is read from, as a share of its length. */
const BESIDE = 0.002;

/**
 * Notches where seams are to match: at the same fractions of both edges, as these are sewn.
 *
 * @param pattern - Every panel running counter-clockwise, so that its inside is to the left.
 */
export function seamNotches(pattern: Pattern): Notch[] {
  const placed: PlacedSeam[] = [];
  for (const seam of pattern.seams) {
    const length = curveLength(curveOf(pattern, seam.one).points);
    placed.push({ seam, length, places: placesFor(seam, length, placed) });
  }
  return placed.flatMap(({ seam: { name, one, other, turned }, places }) =>
    places.flatMap((place) => [
      notchAt(pattern, { seam: name, edge: one, place }),
      notchAt(pattern, { seam: name, edge: other, place: turned ? 1 - place : place }),
    ]),
  );
}

interface PlacedSeam {
  readonly seam: Seam;
  readonly length: number;
  readonly places: readonly number[];
}

/** Places that no seam of like length has yet; left and right have the same. */
function placesFor({ name }: Seam, length: number, before: readonly PlacedSeam[]): readonly number[] {
  if (length < LENGTHS.some) return [];
  const ownName = withoutSide(name);
  const twin = before.find(({ seam }) => withoutSide(seam.name) === ownName);
  if (twin) return twin.places;
  const choices = length < LENGTHS.long ? PLACES.short : PLACES.long;
  const taken = before
    .filter((other) => Math.abs(other.length / length - 1) < ALIKE)
    .map(({ places }) => places.length);
  return choices.find((places) => !taken.includes(places.length)) ?? choices[0];
}

const withoutSide = (name: string): string => name.replace(/ (left|right)$/, '');

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
