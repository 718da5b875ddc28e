import { onRing, proofTube } from './proof-tube.ts';
import { restOfRevolution, type RevolvedRest } from './membrane-of-revolution.ts';
import { linearLaw, rowMean, settleTube } from './settled-tube.ts';
import { bodyOfRevolution, type Profile } from './smooth-bodies.ts';

/** A tube over a body of revolution, cut to the body times `scale`, hems held in height; m, N/m, Pa/m. */
export interface TubeOfRevolution {
  readonly profile: Profile;
  /** From y = -height / 2 to height / 2. */
  readonly height: number;
  readonly scale: number;
  readonly stiffness: number;
  readonly foundation: number;
}

/** Cells of the coarsest mesh along and around; each halving splits every cell in four. */
export interface TubeCells {
  readonly rowCount: number;
  readonly columnCount: number;
}

/** What the two solvers are compared by. */
export interface Compared {
  /** Root-mean-square difference of the pressure, over the mean pressure; hems left out. */
  readonly pressureMiss: number;
  /** Largest distance off the skin along the surface's normal, m. */
  readonly gap: number;
  readonly expectedGap: number;
  /** Height up to which the cloth stands off the waist, m; 0 where it does not. */
  readonly liftOff: number;
  readonly expectedLiftOff: number;
}

/** Pieces of the one-dimensional solver; twice as many change nothing in the fifth digit. */
const PIECES = 1536;
/** Share of the height left out at either hem, where a held edge carries a line load. */
const HEM_SHARE = 1 / 4;

/** The independent solution: see membrane-of-revolution.ts. */
export function expectedRest({
  profile,
  height,
  scale,
  stiffness,
  foundation,
}: TubeOfRevolution): RevolvedRest {
  const at = (t: number) => height * (t - 0.5);
  return restOfRevolution(
    {
      laid: (t) => [profile.radius(at(t)), at(t)],
      naturalRadius: (t) => scale * profile.radius(at(t)),
      naturalLength: (t) => scale * height * Math.hypot(1, profile.slope(at(t))),
      stiffness,
      body: bodyOfRevolution(profile),
      foundation,
    },
    PIECES,
  );
}

/** Settles the tube on a mesh halved so often and puts it beside the independent solution. */
export function compareTube(
  tube: TubeOfRevolution,
  expected: RevolvedRest,
  cells: TubeCells & { readonly halvings: number },
): Compared {
  const { profile, height, scale } = tube;
  const levels = proofTube({
    ...cells,
    place: (around, along) => {
      const y = height * (along - 0.5);
      return onRing(profile.radius(y), y, around);
    },
    relaxed: { around: scale, along: scale },
  });
  const held = levels.map(({ mesh, edgeVertex }) =>
    Uint8Array.from(mesh.positions, (_, i) => (i % 3 === 1 ? edgeVertex[(i - 1) / 3]! : 0)),
  );
  const columns = cells.columnCount * 2 ** cells.halvings;
  const rowCount = cells.rowCount * 2 ** cells.halvings;
  const settled = settleTube(
    {
      levels,
      laws: [linearLaw(tube.stiffness)],
      body: bodyOfRevolution(profile),
      foundation: tube.foundation,
      friction: 0,
      held,
      tolerance: 1e-6,
    },
    columns,
  );
  const rows = Array.from({ length: rowCount + 1 }, (_, row) => row);
  const inner = rows.filter((row) => row >= HEM_SHARE * rowCount && row <= (1 - HEM_SHARE) * rowCount);
  const theirs = (row: number) => expected.pressure[(PIECES * row) / rowCount]!;
  const average = inner.reduce((sum, row) => sum + theirs(row), 0) / inner.length;
  const missed = inner.reduce(
    (sum, row) => sum + (rowMean(settled, settled.pressure, row) - theirs(row)) ** 2,
    0,
  );
  const { distance, positions } = settled.equilibrium;
  const distances = Float64Array.from(rows, (row) => rowMean(settled, distance, row));
  const heights = Float64Array.from(rows, (row) => positions[3 * row * columns + 1]!);
  return {
    pressureMiss: Math.sqrt(missed / inner.length) / average,
    gap: Math.max(0, ...distances),
    expectedGap: expected.distance.reduce((most, one) => Math.max(most, one), 0),
    liftOff: liftOffOf(distances, heights),
    expectedLiftOff: liftOffOf(expected.distance, expected.height),
  };
}

/** Height above the waist where the distance changes from off to on. */
function liftOffOf(distance: Float64Array, height: Float64Array): number {
  const last = distance.findLastIndex((one) => one > 0);
  if (last < 0 || last === distance.length - 1) return 0;
  const share = distance[last]! / (distance[last]! - distance[last + 1]!);
  return height[last]! + share * (height[last + 1]! - height[last]!);
}
