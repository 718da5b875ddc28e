import { NEAR_RIGID } from '../body/body.ts';
import type { DistanceField } from '../body/distance-field.ts';
import type { Check } from './check.ts';
import { onRing, proofTube } from './proof-tube.ts';
import { linearLaw, settleTube } from './settled-tube.ts';

const STIFFNESS = 400;
/** Little, so that the cloth does not sink into the sensor's edges. */
const TENSION = 10;
const HEIGHT = 0.02;
const ROWS = 4;
const COLUMNS = 512;

/** A sensor of width w and thickness t, bent to a limb of radius R; mm. */
const PLATES = [
  [30, 50, 2],
  [50, 50, 2],
  [80, 50, 2],
  [50, 50, 3],
] as const;

/**
 * A sensor under a garment reads more than the bare limb would feel: the cloth runs from its edges down to the limb and
 * bears on it with more than its share.
 *
 * The sensor covers the angle 2 f = w / R. The cloth leaves the limb where its tangent through the sensor's edge, at
 * radius R + t, touches: g = acos(R / (R + t)) further round. Sum of forces across the sensor: it carries 2 T sin(f + g),
 * the bare limb 2 T sin f on the same place; so it reads sin(f + g) / sin f times the true pressure. With edges rounded
 * to a radius e, centred at the angle f' = f - asin(e / (R + t - e)), the tangent runs along two circles:
 * sin(f' + acos((R - e) / (R + t - e))) / sin f.
 */
export function* sensorPlate(): Generator<void, Check[]> {
  const checks: Check[] = [];
  for (const [radiusMm, widthMm, thicknessMm] of PLATES) {
    const expected = readingExpected(radiusMm, widthMm / radiusMm / 2, thicknessMm, 1000 * EDGE);
    const sharp = readingExpected(radiusMm, widthMm / radiusMm / 2, thicknessMm, 0);
    checks.push({
      id: `sensor.${String(radiusMm)}-${String(widthMm)}-${String(thicknessMm)}`,
      what: `reading over true pressure, sensor ${String(widthMm)} x ${String(thicknessMm)} mm on R ${String(radiusMm)} mm`,
      source: `Balance of the cloth over a bent plate: sin(f + acos(R / (R + t))) / sin f, f = w / 2 R, is ${sharp.toFixed(3)} with sharp edges; here they are rounded to 1 mm`,
      expected,
      got: reading(radiusMm / 1000, widthMm / 1000, thicknessMm / 1000),
      unit: 'ratio',
      tolerance: 0.01 * expected,
    });
    yield;
  }
  return checks;
}

function readingExpected(radius: number, half: number, thickness: number, edge: number): number {
  const arc = radius + thickness - edge;
  return Math.sin(half - Math.asin(edge / arc) + Math.acos((radius - edge) / arc)) / Math.sin(half);
}

function reading(radius: number, width: number, thickness: number): number {
  const half = width / (2 * radius);
  const body = barWithSensor(radius, half, thickness);
  const girth = 2 * Math.PI * radius;
  const levels = proofTube({
    rowCount: ROWS / 4,
    columnCount: COLUMNS / 4,
    halvings: 2,
    place: (around, along) => onRing(radius + thickness, HEIGHT * along, around),
    relaxed: { girth: girth / (1 + TENSION / STIFFNESS), length: HEIGHT },
  });
  const laws = [linearLaw(STIFFNESS)];
  const tube = settleTube({ levels, laws, body, foundation: NEAR_RIGID, friction: 0 }, COLUMNS);
  const { positions, contactForce } = tube.equilibrium;
  const middle = (ROWS / 2) * COLUMNS;
  let force = 0;
  for (let v = middle; v < middle + COLUMNS; v++) {
    const angle = Math.atan2(positions[3 * v]!, positions[3 * v + 2]!);
    if (Math.abs(angle) < 1.2 * half) force += contactForce[3 * v + 2]!;
  }
  return force / (2 * ringPull(positions, girth) * Math.sin(half));
}

/** Pull of one ring of cells along the cloth, far from the sensor, N. */
function ringPull(positions: Float64Array, girth: number): number {
  const a = 3 * (((ROWS + 1) / 2) * COLUMNS - 1);
  const b = a + 6;
  const length = Math.hypot(positions[b]! - positions[a]!, positions[b + 2]! - positions[a + 2]!);
  const relaxed = (2 * girth) / (1 + TENSION / STIFFNESS) / COLUMNS;
  return (STIFFNESS * (length / relaxed - 1) * HEIGHT) / ROWS;
}

/** Radius of the sensor's edges, m: sharp ones would have no distance field. */
const EDGE = 0.001;

/**
 * A round bar with a raised arc on its front (+z): the nearer of the bar and of a strip of the thickness of two edge
 * radii, bent to the bar's top. Below the strip all is inside.
 */
function barWithSensor(radius: number, half: number, thickness: number): DistanceField {
  const arc = radius + thickness - EDGE;
  const end = half - Math.asin(EDGE / arc);
  const endX = arc * Math.sin(end);
  const endZ = arc * Math.cos(end);
  return {
    sample: (x, _y, z, into) => {
      into.fill(0, 0, 10);
      const angle = Math.atan2(x, z);
      const rho = Math.hypot(x, z);
      const over = Math.abs(angle) <= end;
      const side = Math.sign(x) || 1;
      const toEnd = Math.hypot(x - side * endX, z - endZ);
      const strip = (over ? rho - arc : toEnd) - EDGE;
      const onStrip = strip < rho - radius;
      const centreX = onStrip && !over ? side * endX : 0;
      const centreZ = onStrip && !over ? endZ : 0;
      const away = onStrip && !over ? toEnd : rho;
      const nx = (x - centreX) / away;
      const nz = (z - centreZ) / away;
      into[0] = onStrip ? strip : rho - radius;
      into[1] = nx;
      into[3] = nz;
      into[4] = (nz * nz) / away;
      into[6] = (-nx * nz) / away;
      into[9] = (nx * nx) / away;
    },
  };
}
