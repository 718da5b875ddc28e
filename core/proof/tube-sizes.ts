import { NEAR_RIGID } from '../body/body.ts';
import type { DistanceField } from '../body/distance-field.ts';
import { discPressure } from '../fields/skin-pressure.ts';
import { vertexAreas } from '../mesh/vertex-areas.ts';
import type { Check } from './check.ts';
import { onRing, proofTube } from './proof-tube.ts';
import { innerRows, linearLaw, mean, settleTube, spread, type SettledTube } from './settled-tube.ts';
import { cylinderBody } from './smooth-bodies.ts';

const STIFFNESS = 250;
const STRETCH = 1.25;
const ROWS = 16;

/** A limb, a thigh and a trunk: radius in mm, with meshes of about R/10 and R/20. */
const RADII_MM = [40, 70, 150] as const;
const COLUMNS = [64, 128] as const;

/** As many columns as make cells of about R / 10. */
const COARSE = COLUMNS[0];

/**
 * Tubes on round bars of several sizes with edges of R/10 and R/20: every vertex against Laplace on the bar that gives
 * way by a hair, k d = K ((R - d) / r0 - 1) / (R - d). On uneven meshes single vertices are noise of the mesh; there the
 * mean and discs of 20 mm are held.
 */
export function* tubeSizes(): Generator<void, Check[]> {
  const checks: Check[] = [];
  for (const radiusMm of RADII_MM) {
    for (const columns of COLUMNS) checks.push(evenTube(radiusMm, columns));
    checks.push(...unevenTube(radiusMm));
    yield;
  }
  return checks;
}

const SOURCE =
  'Laplace, P = T / R on a bar of 50 kPa/mm: k d = K ((R - d)/r0 - 1)/(R - d); K 250 N/m, cut to R/1.25';

const edgeText = (radiusMm: number, columns: number): string =>
  `R ${String(radiusMm)} mm, edges of ${((2 * Math.PI * radiusMm) / columns).toFixed(1)} mm`;

/** The closed form; the give is thousandths of a millimetre. */
export function pressureOnHardBar(radius: number): number {
  let low = 0;
  let high = radius;
  for (let i = 0; i < 80; i++) {
    const d = (low + high) / 2;
    const pull = (STIFFNESS * (((radius - d) / radius) * STRETCH - 1)) / (radius - d);
    if (NEAR_RIGID * d < pull) low = d;
    else high = d;
  }
  return NEAR_RIGID * low;
}

/** A tube of {@link ROWS} square cells in height on a hard bar; on the true bar and free to slide unless told otherwise. */
export function settledBar(
  radius: number,
  columns: number,
  { jitter = 0, friction = 0, bodyOf = () => cylinderBody(radius) }: BarOptions = {},
): SettledTube {
  const height = (ROWS * 2 * Math.PI * radius) / columns;
  const levels = proofTube({
    rowCount: ROWS / 8,
    columnCount: columns / 8,
    halvings: 3,
    place: (around, along) => onRing(radius, height * along, around),
    relaxed: { girth: (2 * Math.PI * radius) / STRETCH, length: height },
    jitter,
  });
  const problem = {
    levels,
    laws: [linearLaw(STIFFNESS)],
    body: bodyOf(height),
    foundation: NEAR_RIGID,
    friction,
  };
  return settleTube(problem, columns);
}

interface BarOptions {
  /** As in ProofTube. */
  readonly jitter?: number;
  readonly friction?: number;
  /** The bar by the height of the tube, m. */
  readonly bodyOf?: (height: number) => DistanceField;
}

/** Half a per cent at R/10, and a third of that at R/20. */
function evenTube(radiusMm: number, columns: number): Check {
  const radius = radiusMm / 1000;
  const expected = pressureOnHardBar(radius);
  const tube = settledBar(radius, columns);
  const fine = columns > COARSE;
  return {
    id: `tube.sizes.${String(radiusMm)}-mm.${fine ? 'fine' : 'coarse'}`,
    what: `departure of single vertices, ${edgeText(radiusMm, columns)}`,
    source: `${SOURCE}; root-mean-square over all vertices, hem rows left out`,
    expected: 0,
    got: (100 * spread(innerRows(tube, tube.pressure), expected)) / expected,
    unit: '% rms',
    tolerance: fine ? 0.15 : 0.5,
  };
}

function unevenTube(radiusMm: number): Check[] {
  const radius = radiusMm / 1000;
  const expected = pressureOnHardBar(radius);
  const tube = settledBar(radius, 2 * COARSE, { jitter: 0.2 });
  const source = `${SOURCE}; vertices up to a fifth of a cell astray`;
  const where = edgeText(radiusMm, 2 * COARSE);
  return [
    {
      id: `tube.sizes.${String(radiusMm)}-mm.uneven.mean`,
      what: `mean pressure, uneven mesh, ${where}`,
      source,
      expected,
      got: mean(innerRows(tube, tube.pressure)),
      unit: 'Pa',
      tolerance: 0.005 * expected,
    },
    {
      id: `tube.sizes.${String(radiusMm)}-mm.uneven.discs`,
      what: `departure of 20 mm discs, uneven mesh, ${where}`,
      source: `${source}; root-mean-square over the discs; at R 150 a disc holds six vertices, of which each is off by 5 %`,
      expected: 0,
      got: (100 * spread(innerRows(tube, discs(tube)), expected)) / expected,
      unit: '% rms',
      tolerance: 1.5,
    },
  ];
}

function discs({ level, equilibrium, pressure }: SettledTube): Float64Array {
  const { positions, contactForce } = equilibrium;
  const areas = vertexAreas({ positions, triangles: level.mesh.triangles });
  return discPressure(pressure, { positions, areas, force: contactForce, normals: positions });
}
