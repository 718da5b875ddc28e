import { NEAR_RIGID } from '../body/body.ts';
import type { Check } from './check.ts';
import { onRing, proofTube } from './proof-tube.ts';
import { linearLaw, rowMean, settleTube } from './settled-tube.ts';
import { bodyOfRevolution, type Profile } from './smooth-bodies.ts';

const WAIST = 0.12;
const HOLLOW = 0.25;
const HOOP = 60;
const STIFFNESS = 400;
const HEIGHT = 0.1;
const ROWS = 16;
const COLUMNS = 128;
/** Grips so well that the cloth stays as laid, so that both tensions are known. */
const FRICTION = 3;

const chord = (y: number): number => Math.sqrt(HOLLOW * HOLLOW - y * y);

/** Radius 120 mm at the waist; the other curvature 1 / 250 mm, hollow or bulging. */
function profile(hollow: boolean): Profile {
  const sign = hollow ? 1 : -1;
  return {
    radius: (y) => WAIST + sign * (HOLLOW - chord(y)),
    slope: (y) => (sign * y) / chord(y),
    bend: (y) => (sign * HOLLOW * HOLLOW) / chord(y) ** 3,
  };
}

/**
 * Stretch that gives tensions `own` and `other` per width as worn, where T = K (l - 1) per natural width:
 * l = 1 + own l' / K and l' = 1 + other l / K.
 */
const stretchFor = (own: number, other: number): number =>
  (1 + own / STIFFNESS) / (1 - (own * other) / STIFFNESS ** 2);

/** Pressure at the waist of a tube with the given tension along the body (per width as worn, N/m), Pa. */
function waistPressure(along: number, hollow: boolean): number {
  const shape = profile(hollow);
  const levels = proofTube({
    rowCount: ROWS / 8,
    columnCount: COLUMNS / 8,
    halvings: 3,
    place: (around, at) => {
      const y = HEIGHT * (at - 0.5);
      return onRing(shape.radius(y), y, around);
    },
    relaxed: { around: 1 / stretchFor(HOOP, along), along: 1 / stretchFor(along, HOOP) },
  });
  const held = levels.map(({ mesh, edgeVertex }) =>
    Uint8Array.from(mesh.positions, (_, i) => edgeVertex[Math.floor(i / 3)]!),
  );
  const body = bodyOfRevolution(shape);
  const laws = [linearLaw(STIFFNESS)];
  const problem = { levels, laws, body, foundation: NEAR_RIGID, friction: FRICTION, held };
  const tube = settleTube(problem, COLUMNS);
  return rowMean(tube, tube.pressure, ROWS / 2);
}

/** Cloth pulled both ways over a waist and over a dome, and the pull at which it leaves the waist. */
export function waistSaddle(): Check[] {
  const source =
    'Laplace with two curvatures, P = Th / r -+ Ta / R; Th 60, Ta 20 N/m, r 120, R 250 mm, cloth that grips';
  const pascals = (id: string, what: string, expected: number, got: number): Check => ({
    id: `saddle.${id}`,
    what,
    source,
    expected,
    got,
    unit: 'Pa',
    tolerance: 0.01 * expected,
  });
  const some = waistPressure(60, true);
  const more = waistPressure(100, true);
  // Pressure falls in a straight line with the pull along; where would it end?
  const gone = 60 + (some * 40) / (some - more);
  return [
    pascals('waist', 'pressure in a hollow waist, pulled along', 420, waistPressure(20, true)),
    pascals('dome', 'pressure on a bulge, pulled along', 580, waistPressure(20, false)),
    {
      id: 'saddle.lift-off',
      what: 'pull along over pull around at which the cloth leaves the waist',
      source: 'P = Th / r - Ta / R = 0: Ta / Th = R / r; from the pressures at Ta = 60 and 100 N/m',
      expected: HOLLOW / WAIST,
      got: gone / HOOP,
      unit: 'ratio',
      tolerance: (0.01 * HOLLOW) / WAIST,
    },
    {
      id: 'saddle.off',
      what: 'pressure at the waist beyond that pull',
      source: 'The same; Ta / Th = 2.25: nothing presses',
      expected: 0,
      got: waistPressure(2.25 * HOOP, true),
      unit: 'Pa',
      tolerance: 1,
    },
  ];
}
