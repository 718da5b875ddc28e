import { NEAR_RIGID } from '../body/body.ts';
import { clearOfBody } from '../garment/clear-of-body.ts';
import type { Check } from './check.ts';
import { onRing, proofTube } from './proof-tube.ts';
import { innerRows, linearLaw, mean, settleTube } from './settled-tube.ts';
import { cylinderBody } from './smooth-bodies.ts';

const STIFFNESS = 250;
const RELAXED = 0.48;
const GIRTH = 0.6;
const HEIGHT = 0.06;
const COLUMNS = 48;
const RADIUS = GIRTH / (2 * Math.PI);
const PRESSURE = (STIFFNESS * (GIRTH / RELAXED - 1)) / RADIUS;

type Point = readonly [number, number, number];

/** Ways to lay the tube that are not the right one. */
const ASKEW: readonly { readonly id: string; readonly what: string; readonly lay: (at: Point) => Point }[] = [
  { id: 'half-buried', what: 'laid 30 mm beside its bar', lay: ([x, y, z]) => [x + 0.03, y, z] },
  { id: 'past-the-middle', what: 'laid 120 mm beside its bar', lay: ([x, y, z]) => [x, y, z - 0.12] },
  { id: 'dented', what: 'laid with its front 80 mm in the bar', lay: dented },
  { id: 'inside-out', what: 'laid inside out', lay: ([x, y, z]) => [-x, y, z] },
];

/** A dent in front that reaches 35 degrees to either side. */
function dented([x, y, z]: Point): Point {
  const share = Math.min(1, Math.abs(Math.atan2(x, z)) / 0.6);
  return [x, y, z - 0.08 * Math.cos((Math.PI / 2) * share)];
}

/**
 * A tube of 480 mm that was laid wrong on a hard bar of 600 mm presses like one laid right, once it has been brought clear:
 * P = T / R (Laplace). Frictionless, since the way it came would be left in it otherwise.
 */
export function tubeLaidAskew(): Check[] {
  const body = cylinderBody(RADIUS);
  return ASKEW.map(({ id, what, lay }): Check => {
    const laid = proofTube({
      rowCount: 2,
      columnCount: COLUMNS / 4,
      halvings: 2,
      place: (around, along) => lay(onRing(RADIUS, HEIGHT * along, around)),
      relaxed: { girth: RELAXED, length: HEIGHT },
    });
    const { levels } = clearOfBody(laid, body);
    const laws = [linearLaw(STIFFNESS)];
    const tube = settleTube({ levels, laws, body, foundation: NEAR_RIGID, friction: 0 }, COLUMNS);
    return {
      id: `tube.askew.${id}`,
      what: `mean pressure of a tube ${what}`,
      source: 'Laplace: P = T / R, T = K (C / C0 - 1); K 250 N/m, 480 -> 600 mm; hem rows left out',
      expected: PRESSURE,
      got: mean(innerRows(tube, tube.pressure)),
      unit: 'Pa',
      tolerance: 0.005 * PRESSURE,
    };
  });
}
