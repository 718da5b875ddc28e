import type { Check } from './check.ts';
import { onRing, proofTube } from './proof-tube.ts';
import { innerRows, linearLaw, mean, settleTube } from './settled-tube.ts';
import { cylinderBody } from './smooth-bodies.ts';

const STIFFNESS = 250;
const RELAXED_RADIUS = 0.0764;
const RADIUS = 0.0955;
const FLESH_DEPTH = 0.03;
const HEIGHT = 0.08;
const COLUMNS = 64;

/**
 * A tube on a bar whose flesh gives way, 60 to 5 kPa: the give d from k d = K ((R - d) / r0 - 1) / (R - d) with
 * k = E / h, and the pressure k d.
 */
export function tubeOnYieldingCylinder(): Check[] {
  const levels = proofTube({
    rowCount: 2,
    columnCount: COLUMNS / 4,
    halvings: 2,
    place: (around, along) => onRing(RADIUS, HEIGHT * along, around),
    relaxed: { girth: 2 * Math.PI * RELAXED_RADIUS, length: HEIGHT },
  });
  return [60, 20, 10, 5].flatMap((modulusKPa) => {
    const foundation = (1000 * modulusKPa) / FLESH_DEPTH;
    const give = expectedGive(foundation);
    const tube = settleTube(
      { levels, laws: [linearLaw(STIFFNESS)], body: cylinderBody(RADIUS), foundation, friction: 0 },
      COLUMNS,
    );
    const source = `Tube on an elastic foundation k = E / h: k d = K ((R - d)/r0 - 1)/(R - d); E ${modulusKPa} kPa, h 30 mm`;
    return [
      {
        id: `tube.yielding-cylinder.${modulusKPa}-kPa.give`,
        source,
        expected: give * 1000,
        got: -mean(innerRows(tube, tube.equilibrium.distance)) * 1000,
        unit: 'mm',
        tolerance: 0.02 * give * 1000,
      },
      {
        id: `tube.yielding-cylinder.${modulusKPa}-kPa.pressure`,
        source,
        expected: foundation * give,
        got: mean(innerRows(tube, tube.pressure)),
        unit: 'Pa',
        tolerance: 0.02 * foundation * give,
      },
    ];
  });
}

/** The root d, by bisection between no give and a tube gone slack. */
function expectedGive(foundation: number): number {
  let low = 0;
  let high = RADIUS - RELAXED_RADIUS;
  for (let i = 0; i < 60; i++) {
    const d = (low + high) / 2;
    const pull = (STIFFNESS * ((RADIUS - d) / RELAXED_RADIUS - 1)) / (RADIUS - d);
    if (foundation * d < pull) low = d;
    else high = d;
  }
  return low;
}
