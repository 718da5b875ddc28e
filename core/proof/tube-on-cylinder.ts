import { NEAR_RIGID } from '../body/body.ts';
import { discPressure } from '../fields/skin-pressure.ts';
import { vertexAreas } from '../mesh/vertex-areas.ts';
import type { Check } from './check.ts';
import { onRing, proofTube } from './proof-tube.ts';
import { innerRows, linearLaw, mean, settleTube, spread, type SettledTube } from './settled-tube.ts';
import { cylinderBody } from './smooth-bodies.ts';

const STIFFNESS = 250;
const RELAXED = 0.48;
const GIRTH = 0.6;
const HEIGHT = 0.1;
const COLUMNS = 96;
const RADIUS = GIRTH / (2 * Math.PI);
const TENSION = STIFFNESS * (GIRTH / RELAXED - 1);
const PRESSURE = TENSION / RADIUS;

/**
 * A tube of 480 mm on a hard bar of 600 mm, frictionless: P = T / R (Laplace), the same at every vertex, and the two
 * halves of the tube hold together with 2 T H. Once on an even mesh and once on one whose vertices lie up to a fifth of
 * a cell astray; on that the pressure of single vertices is noise of the mesh, the mean and the 20 mm disc are not.
 */
export function tubeOnCylinder(): Check[] {
  const even = settled(0);
  const uneven = settled(0.2);
  const source = 'Laplace: P = T / R, T = K (C / C0 - 1); K 250 N/m, 480 -> 600 mm; hem rows left out';
  const pressureCheck = (id: string, what: string, got: number): Check => ({
    id: `tube.cylinder.${id}`,
    source: `${source}; ${what}`,
    expected: PRESSURE,
    got,
    unit: 'Pa',
    tolerance: 0.01 * PRESSURE,
  });
  const spreadCheck = (id: string, what: string, got: number): Check => ({
    ...pressureCheck(id, `root-mean-square departure, ${what}`, got),
    expected: 0,
  });
  return [
    pressureCheck('mean-pressure', 'mean, even mesh', mean(innerRows(even, even.pressure))),
    spreadCheck(
      'pressure-spread',
      'single vertices, even mesh',
      spread(innerRows(even, even.pressure), PRESSURE),
    ),
    pressureCheck('uneven.mean-pressure', 'mean, uneven mesh', mean(innerRows(uneven, uneven.pressure))),
    spreadCheck(
      'uneven.disc-pressure-spread',
      '20 mm discs, uneven mesh',
      spread(innerRows(uneven, discs(uneven)), PRESSURE),
    ),
    {
      id: 'tube.cylinder.half-balance',
      source: 'Balance of a half tube: contact force across the cut = 2 T H; H 100 mm; uneven mesh',
      expected: 2 * TENSION * HEIGHT,
      got: frontForce(uneven),
      unit: 'N',
      tolerance: 0.01 * 2 * TENSION * HEIGHT,
    },
  ];
}

function settled(jitter: number): SettledTube {
  const levels = proofTube({
    rowCount: 2,
    columnCount: COLUMNS / 8,
    halvings: 3,
    place: (around, along) => onRing(RADIUS, HEIGHT * along, around),
    relaxed: { girth: RELAXED, length: HEIGHT },
    jitter,
  });
  return settleTube(
    {
      levels,
      laws: [linearLaw(STIFFNESS)],
      body: cylinderBody(RADIUS),
      foundation: NEAR_RIGID,
      friction: 0,
    },
    COLUMNS,
  );
}

function discs({ level, equilibrium, pressure }: SettledTube): Float64Array {
  const { positions, contactForce } = equilibrium;
  const areas = vertexAreas({ positions, triangles: level.mesh.triangles });
  return discPressure(pressure, { positions, areas, force: contactForce, normals: positions });
}

/** Force of the body on the front half of the tube, N. */
function frontForce({ equilibrium: { positions, contactForce } }: SettledTube): number {
  let sum = 0;
  for (let i = 2; i < positions.length; i += 3) if (positions[i]! > 0) sum += contactForce[i]!;
  return sum;
}
