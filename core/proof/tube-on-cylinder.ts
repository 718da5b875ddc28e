import { NEAR_RIGID } from '../body/body.ts';
import type { Check } from './check.ts';
import { onRing, proofTube } from './proof-tube.ts';
import { innerRows, linearLaw, mean, settleTube, spread } from './settled-tube.ts';
import { cylinderBody } from './smooth-bodies.ts';

const STIFFNESS = 250;
const RELAXED = 0.48;
const GIRTH = 0.6;
const HEIGHT = 0.1;
const COLUMNS = 96;

/**
 * A tube of 480 mm on a hard bar of 600 mm, frictionless, on an irregular mesh: P = T / R (Laplace), the same at every
 * vertex, and the two halves of the tube hold together with 2 T H.
 */
export function tubeOnCylinder(): Check[] {
  const radius = GIRTH / (2 * Math.PI);
  const tension = STIFFNESS * (GIRTH / RELAXED - 1);
  const pressure = tension / radius;
  const levels = proofTube({
    rowCount: 2,
    columnCount: COLUMNS / 8,
    halvings: 3,
    place: (around, along) => onRing(radius, HEIGHT * along, around),
    relaxed: { girth: RELAXED, length: HEIGHT },
    jitter: 0.2,
  });
  const tube = settleTube(
    {
      levels,
      law: linearLaw(STIFFNESS),
      body: cylinderBody(radius),
      foundation: NEAR_RIGID,
      friction: 0,
    },
    COLUMNS,
  );
  const inner = innerRows(tube, tube.pressure);
  const { positions, contactForce } = tube.equilibrium;
  let half = 0;
  for (let i = 0; i < positions.length; i += 3) if (positions[i + 2]! > 0) half += contactForce[i + 2]!;
  const source = 'Laplace: P = T / R, T = K (C / C0 - 1); K 250 N/m, 480 -> 600 mm';
  return [
    {
      id: 'tube.cylinder.mean-pressure',
      source,
      expected: pressure,
      got: mean(inner),
      unit: 'Pa',
      tolerance: 0.01 * pressure,
    },
    {
      id: 'tube.cylinder.pressure-spread',
      source: `${source}; root-mean-square departure over the vertices, hem rows left out`,
      expected: 0,
      got: spread(inner, pressure),
      unit: 'Pa',
      tolerance: 0.01 * pressure,
    },
    {
      id: 'tube.cylinder.half-balance',
      source: 'Balance of a half tube: contact force across the cut = 2 T H; H 100 mm',
      expected: 2 * tension * HEIGHT,
      got: half,
      unit: 'N',
      tolerance: 0.01 * 2 * tension * HEIGHT,
    },
  ];
}
