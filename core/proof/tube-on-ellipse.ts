import { NEAR_RIGID } from '../body/body.ts';
import type { Check } from './check.ts';
import { proofTube } from './proof-tube.ts';
import { columnMean, innerRows, linearLaw, mean, settleTube } from './settled-tube.ts';
import { ellipseBody } from './smooth-bodies.ts';

/** Half axes of a waist: across and front to back, m. */
const A = 0.15;
const B = 0.1065;
const TENSION = 60;
const STIFFNESS = 300;
const HEIGHT = 0.08;
const COLUMNS = 128;
const ARC_STEPS = 4096;

/**
 * A tube on a hard elliptic bar, frictionless: tension is the same all around, pressure follows the curvature,
 * P = T a b / (a^2 sin^2 + b^2 cos^2)^1.5: T a / b^2 at the sides, T b / a^2 in front, 2 pi T / C in the mean.
 */
export function tubeOnEllipse(): Check[] {
  const arc = arcTable();
  const girth = arc[ARC_STEPS]!;
  const levels = proofTube({
    rowCount: 2,
    columnCount: COLUMNS / 8,
    halvings: 3,
    place: (around, along) => {
      const t = parameterAt(arc, around * girth);
      return [A * Math.sin(t), HEIGHT * along, B * Math.cos(t)];
    },
    relaxed: { girth: girth / (1 + TENSION / STIFFNESS), length: HEIGHT },
  });
  const tube = settleTube(
    { levels, laws: [linearLaw(STIFFNESS)], body: ellipseBody(A, B), foundation: NEAR_RIGID, friction: 0 },
    COLUMNS,
  );
  const source =
    'Laplace on an ellipse: P = T a b / (a^2 sin^2 + b^2 cos^2)^1.5; a 150, b 106.5 mm, T 60 N/m';
  const point = (id: string, expected: number, column: number): Check => ({
    id,
    source,
    expected,
    got: columnMean(tube, tube.pressure, column),
    unit: 'Pa',
    tolerance: 0.03 * expected,
  });
  const average = (2 * Math.PI * TENSION) / girth;
  return [
    point('tube.ellipse.side-pressure', (TENSION * A) / (B * B), COLUMNS / 4),
    point('tube.ellipse.front-pressure', (TENSION * B) / (A * A), 0),
    {
      id: 'tube.ellipse.mean-pressure',
      source:
        'Any convex section: girth mean of P = 2 pi T / C (the curvature of a closed curve sums to 2 pi)',
      expected: average,
      got: mean(innerRows(tube, tube.pressure)),
      unit: 'Pa',
      tolerance: 0.01 * average,
    },
  ];
}

/** Length of the ellipse from the front up to each parameter, m; midpoint rule. */
function arcTable(): Float64Array {
  const arc = new Float64Array(ARC_STEPS + 1);
  for (let i = 0; i < ARC_STEPS; i++) {
    const t = (2 * Math.PI * (i + 0.5)) / ARC_STEPS;
    arc[i + 1] = arc[i]! + (2 * Math.PI * Math.hypot(A * Math.cos(t), B * Math.sin(t))) / ARC_STEPS;
  }
  return arc;
}

/** The parameter at a length from the front. */
function parameterAt(arc: Float64Array, length: number): number {
  let i = 0;
  while (i < ARC_STEPS - 1 && arc[i + 1]! < length) i++;
  return (2 * Math.PI * (i + (length - arc[i]!) / (arc[i + 1]! - arc[i]!))) / ARC_STEPS;
}
