import { NEAR_RIGID } from '../body/body.ts';
import type { Check } from './check.ts';
import { onRing, proofTube } from './proof-tube.ts';
import { linearLaw, rowMean, settleTube } from './settled-tube.ts';
import { coneBody } from './smooth-bodies.ts';

const STIFFNESS = 250;
const RELAXED_RADIUS = 0.0764;
const HALF_ANGLE = (8 * Math.PI) / 180;
/** Radii of the two hems, m. */
const FROM = 0.078;
const TO = 0.102;
const ROWS = 48;
const COLUMNS = 96;

/**
 * A straight tube on a hard cone that friction keeps where it was laid: T = K (r / r0 - 1), P = T cos a / r across the
 * skin and T sin a / r along it.
 */
export function tubeOnCone(): Check[] {
  const height = (TO - FROM) / Math.tan(HALF_ANGLE);
  const radiusAt = (along: number) => FROM + (TO - FROM) * along;
  const levels = proofTube({
    rowCount: ROWS / 8,
    columnCount: COLUMNS / 8,
    halvings: 3,
    place: (around, along) => onRing(radiusAt(along), height * along, around),
    relaxed: { girth: 2 * Math.PI * RELAXED_RADIUS, length: height / Math.cos(HALF_ANGLE) },
  });
  const tube = settleTube(
    {
      levels,
      laws: [linearLaw(STIFFNESS)],
      body: coneBody(FROM, HALF_ANGLE),
      foundation: NEAR_RIGID,
      friction: 0.5,
    },
    COLUMNS,
  );
  const source =
    'Hoop on a cone: P = T cos a / r, shear T sin a / r, T = K (r / r0 - 1); K 250 N/m, r0 76.4 mm, a 8 deg';
  return [80, 90, 100].flatMap((radiusMm): Check[] => {
    const row = Math.round((ROWS * (radiusMm / 1000 - FROM)) / (TO - FROM));
    const radius = radiusAt(row / ROWS);
    const tension = STIFFNESS * (radius / RELAXED_RADIUS - 1);
    const pressure = (tension * Math.cos(HALF_ANGLE)) / radius;
    const shear = (tension * Math.sin(HALF_ANGLE)) / radius;
    const got = { pressure: rowMean(tube, tube.pressure, row), shear: rowMean(tube, tube.shear, row) };
    const id = `tube.cone.${radiusMm}-mm`;
    return [
      {
        id: `${id}.pressure`,
        source,
        expected: pressure,
        got: got.pressure,
        unit: 'Pa',
        tolerance: 0.02 * pressure,
      },
      { id: `${id}.shear`, source, expected: shear, got: got.shear, unit: 'Pa', tolerance: 0.02 * shear },
    ];
  });
}
