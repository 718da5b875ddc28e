import { NEAR_RIGID } from '../body/body.ts';
import { gripUsed } from '../fields/grip-used.ts';
import { mmFromMetres, radiansFromDegrees } from '../units/units.ts';
import type { Check } from './check.ts';
import { onRing, proofTube } from './proof-tube.ts';
import { innerRows, linearLaw, mean, settleTube, type SettledTube } from './settled-tube.ts';
import { coneBody } from './smooth-bodies.ts';

const STIFFNESS = 250;
/** Radius at the lower hem and length along the cone, m. */
const FROM = 0.08;
const LENGTH = 0.06;
const STRETCH = 1.2;
const ROWS = 16;
const COLUMNS = 96;
/** More than any of these cones asks for. */
const AMPLE = 0.8;

/**
 * Tubes cut to the cone, every ring with the same stretch, so that nothing pulls along but the slope: each ring needs
 * friction of tan(half angle), whatever its tension.
 */
export function* coneGrip(): Generator<void, Check[]> {
  const checks: Check[] = [];
  for (const degrees of [3, 5, 8, 10, 15, 20, 25]) checks.push(needed(degrees));
  yield;
  checks.push(stays(1.05), creeps(0.95));
  return checks;
}

const SOURCE =
  'Balance of a hoop on a cone, P = T cos a / r across, T sin a / r along: it stays where mu >= tan a';

function worn(degrees: number, friction: number): SettledTube {
  const angle = radiansFromDegrees(degrees);
  const place = (around: number, along: number) =>
    onRing(FROM + LENGTH * along * Math.sin(angle), LENGTH * along * Math.cos(angle), around);
  const levels = proofTube({
    rowCount: ROWS / 8,
    columnCount: COLUMNS / 8,
    halvings: 3,
    place,
    relaxed: { around: 1 / STRETCH, along: 1 },
  });
  const laws = [linearLaw(STIFFNESS)];
  const body = coneBody(FROM, angle);
  return settleTube({ levels, laws, body, foundation: NEAR_RIGID, friction }, COLUMNS);
}

function needed(degrees: number): Check {
  const tube = worn(degrees, AMPLE);
  const { positions, contactForce } = tube.equilibrium;
  const angle = radiansFromDegrees(degrees);
  const normals = Float64Array.from(positions);
  for (let i = 0; i < positions.length; i += 3) {
    const radius = Math.hypot(positions[i]!, positions[i + 2]!);
    normals[i] = (Math.cos(angle) * positions[i]!) / radius;
    normals[i + 1] = -Math.sin(angle);
    normals[i + 2] = (Math.cos(angle) * positions[i + 2]!) / radius;
  }
  const areas = new Float64Array(positions.length / 3);
  const used = gripUsed({ positions, areas, force: contactForce, normals }, AMPLE);
  const expected = Math.tan(angle);
  return {
    id: `cone-grip.${String(degrees)}-deg`,
    what: `friction needed on a cone of ${String(degrees)} degrees`,
    source: SOURCE,
    expected,
    got: AMPLE * mean(innerRows(tube, used)),
    unit: 'coefficient',
    tolerance: 0.02 * expected,
  };
}

/** How far the cloth has moved on the average, m. */
function slip({ level, equilibrium: { positions } }: SettledTube): number {
  const laid = level.mesh.positions;
  let sum = 0;
  for (let i = 0; i < laid.length; i += 3)
    sum += Math.hypot(
      positions[i]! - laid[i]!,
      positions[i + 1]! - laid[i + 1]!,
      positions[i + 2]! - laid[i + 2]!,
    );
  return (3 * sum) / laid.length;
}

function stays(share: number): Check {
  return {
    id: 'cone-grip.stays',
    what: 'slip on a cone of 10 degrees, friction 5 % above the limit',
    source: `${SOURCE}; friction builds up over 0.1 mm`,
    expected: 0,
    got: mmFromMetres(slip(worn(10, share * Math.tan(radiansFromDegrees(10))))),
    unit: 'mm',
    tolerance: 0.1,
  };
}

/** Below the limit nothing holds it until it hangs slack: 13 mm of radius, 77 mm of slope at the least. */
function creeps(share: number): Check {
  const tube = worn(10, share * Math.tan(radiansFromDegrees(10)));
  return {
    id: 'cone-grip.creeps',
    what: 'slides (1) on a cone of 10 degrees, friction 5 % below the limit',
    source: SOURCE,
    expected: 1,
    got: slip(tube) > 0.002 ? 1 : 0,
    unit: '1 = yes',
    tolerance: 0,
  };
}
