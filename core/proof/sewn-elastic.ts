import { NEAR_RIGID } from '../body/body.ts';
import { bandPressure } from '../equilibrium/band-pressure.ts';
import type { ClothLevel } from '../garment/garment.ts';
import { tubeElastic, type TubeRows } from '../garment/tube-bands.ts';
import type { TubeBand } from '../garment/tube-sheet.ts';
import type { Check } from './check.ts';
import { onRing, proofTube } from './proof-tube.ts';
import { linearLaw, mean, rowMean, settleTube, type SettledTube } from './settled-tube.ts';
import { cylinderBody } from './smooth-bodies.ts';

/** The hem: an elastic of 8 mm that pulls with 1.5 N round a limb of 90 mm radius. */
const HEM = { radius: 0.09, width: 0.008, force: 1.5, stretch: 1.5 };
const COLUMNS = 64;

/** Elastic sewn to a hem and a tube that is all band, against the hoop formula. */
export function sewnElasticChecks(): Check[] {
  return [...hems(), ...wholeBand()];
}

/**
 * The hem elastic on cloth that itself pulls nothing, on meshes whose rows fit into the width wholly, in part or not at
 * all: what the body presses back, in sum over the width and under the band row by row.
 */
function hems(): Check[] {
  const { radius, width, force, stretch } = HEM;
  const girth = 2 * Math.PI * radius;
  const band: TubeBand = {
    at: 'lower',
    width,
    relaxed: girth / stretch,
    curve: [[stretch - 1, force]],
  };
  const expected = force / (radius * width);
  return [2, 3, 5, 12].flatMap((rowMm): Check[] => {
    const rowCount = 8;
    const height = (rowMm / 1000) * rowCount;
    const levels = withBand(
      proofTube({
        rowCount: rowCount / 4,
        columnCount: COLUMNS / 4,
        halvings: 2,
        place: (around, along) => onRing(radius, height * along, around),
        relaxed: { girth, length: height },
      }),
      band,
      { girth, height },
    );
    const tube = settleTube(
      { levels, laws: [linearLaw(250)], body: cylinderBody(radius), foundation: NEAR_RIGID, friction: 0 },
      COLUMNS,
    );
    const { cover, spread, pressure } = bandPressure(
      levels.at(-1)!,
      tube.equilibrium.positions,
      cylinderBody(radius),
    );
    const { contactForce, positions } = tube.equilibrium;
    let total = 0;
    for (let i = 0; i < positions.length; i += 3) {
      total += contactForce[i]! * positions[i]! + contactForce[i + 2]! * positions[i + 2]!;
    }
    const under = tube.pressure.map((whole, v) => whole - spread[v]! + pressure[v]!);
    const rows = Array.from({ length: rowCount + 1 }, (_, row) => row).filter(
      (row) => cover[row * COLUMNS]! > 0,
    );
    const worst = rows
      .map((row) => rowMean(tube, under, row))
      .reduce((a, b) => (Math.abs(a - expected) > Math.abs(b - expected) ? a : b));
    const source = `Hem elastic F / (R w): 1.5 N, R 90 mm, 8 mm (checks of hand Laplace, closed form); rows of ${rowMm} mm`;
    return [
      {
        id: `elastic.hem.rows-${rowMm}-mm.mean`,
        source,
        expected,
        got: total / radius / (girth * width),
        unit: 'Pa',
        tolerance: 0.01 * expected,
      },
      {
        id: `elastic.hem.rows-${rowMm}-mm.worst-row`,
        source,
        expected,
        got: worst,
        unit: 'Pa',
        tolerance: 0.01 * expected,
      },
    ];
  });
}

const BAR = { radius: 0.0955, relaxedRadius: 0.0764, stiffness: 250, height: 0.04, foundation: 5e5 };
/** N per extension; straight, so that the closed form needs no curve of ours. */
const ELASTIC = { relaxed: 0.4, stiffness: 20 };

/** A tube that lies under one wide elastic from hem to hem, on flesh: cloth and elastic pull side by side. */
function wholeBand(): Check[] {
  const { radius, relaxedRadius, stiffness, height, foundation } = BAR;
  const girth = 2 * Math.PI * radius;
  const band: TubeBand = {
    at: height / 2,
    width: height,
    relaxed: ELASTIC.relaxed,
    curve: [0.2, 0.4, 0.8].map((e) => [e, ELASTIC.stiffness * e]),
  };
  const levels = withBand(
    proofTube({
      rowCount: 2,
      columnCount: COLUMNS / 4,
      halvings: 2,
      place: (around, along) => onRing(radius, height * along, around),
      relaxed: { girth: 2 * Math.PI * relaxedRadius, length: height },
    }),
    band,
    { girth, height },
  );
  const tube = settleTube(
    { levels, laws: [linearLaw(stiffness)], body: cylinderBody(radius), foundation, friction: 0 },
    COLUMNS,
  );
  const give = expectedGive();
  const source =
    'Two laws side by side on a yielding ring: k d = [K ((R-d)/r0 - 1) + S (2 pi (R-d)/L0 - 1)/w] / (R-d); K 250 N/m, r0 76.4 mm, S 20 N, L0 400 mm, w 40 mm, k 0.5 kPa/mm';
  const ring = middleRing(tube);
  return [
    {
      id: 'elastic.whole-band.girth',
      source,
      expected: 2000 * Math.PI * (radius - give),
      got: 2000 * Math.PI * ring,
      unit: 'mm',
      tolerance: 0.02 * 2000 * Math.PI * give,
    },
    {
      id: 'elastic.whole-band.pressure',
      source,
      expected: foundation * give,
      got: mean(tube.pressure),
      unit: 'Pa',
      tolerance: 0.01 * foundation * give,
    },
  ];
}

/** Mean radius of the middle ring, m. */
function middleRing({ equilibrium: { positions }, columnCount }: SettledTube): number {
  const ringCount = positions.length / 3 / columnCount;
  const first = Math.floor(ringCount / 2) * columnCount;
  let sum = 0;
  for (let v = first; v < first + columnCount; v++)
    sum += Math.hypot(positions[3 * v]!, positions[3 * v + 2]!);
  return sum / columnCount;
}

/** The root d by bisection: pull falls as flesh gives. */
function expectedGive(): number {
  const { radius, relaxedRadius, stiffness, height, foundation } = BAR;
  let low = 0;
  let high = radius - relaxedRadius;
  for (let i = 0; i < 60; i++) {
    const d = (low + high) / 2;
    const r = radius - d;
    const cloth = stiffness * (r / relaxedRadius - 1);
    const elastic = (ELASTIC.stiffness * ((2 * Math.PI * r) / ELASTIC.relaxed - 1)) / height;
    if (foundation * d < (cloth + elastic) / r) low = d;
    else high = d;
  }
  return low;
}

/** Lays a band on every level of a straight tube. */
function withBand(
  levels: readonly ClothLevel[],
  band: TubeBand,
  { girth, height }: { girth: number; height: number },
): ClothLevel[] {
  const coarsest = levels[0]!;
  const columns0 = coarsest.edgeVertex.reduce((sum, edge) => sum + edge, 0) / 2;
  const gridOf = (level: ClothLevel, index: number) => {
    const columnCount = columns0 * 2 ** index;
    return { columnCount, rowCount: level.edgeVertex.length / columnCount - 1 };
  };
  const finest = gridOf(levels.at(-1)!, levels.length - 1);
  const ringCount = finest.rowCount + 1;
  const along = Float64Array.from({ length: ringCount }, (_, row) => (height * row) / finest.rowCount);
  // The laid ring is a polygon; its own length is divided, so that the whole elastic is as long as it says.
  const polygon = (girth * Math.sin(Math.PI / finest.columnCount)) / (Math.PI / finest.columnCount);
  const rows: TubeRows = {
    at: along,
    along,
    laid: new Float64Array(ringCount).fill(polygon),
    relaxed: new Float64Array(ringCount).fill(girth),
  };
  return levels.map((level, index) => ({
    ...level,
    elastics: [tubeElastic(band, rows, { ...gridOf(level, index), positions: level.mesh.positions })],
  }));
}
