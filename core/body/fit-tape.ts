/** Measuring a fit body on its field, before there is a mesh. Lengths in mm. */
import type { Field } from './fit-field.ts';
import { tapeGirth } from './tape-girth.ts';

/** A level outline read along rays from one point. */
export interface Ring {
  readonly level: number;
  readonly centreX: number;
  readonly centreZ: number;
}

/**
 * Distance from a point inside the body to the skin along a level ray; `angle` (rad) from the front towards +x.
 *
 * Marches r -= f until |f| < 0.02: f is about a distance, so no step oversteps the skin by much.
 */
export function skinAlongRay(field: Field, ring: Ring, angle: number): number {
  const { level, centreX, centreZ } = ring;
  const sin = Math.sin(angle);
  const cos = Math.cos(angle);
  let r = 0;
  for (let i = 0; i < 60; i++) {
    const f = field(centreX + r * sin, level, centreZ + r * cos);
    if (Math.abs(f) < 0.02) break;
    r -= f;
  }
  return r;
}

/**
 * Girth of a ring as a tape lies, read along evenly spread rays.
 *
 * The hull of n points on a smooth outline is short by about (sin(pi/n) / (pi/n)); the factor undoes that.
 */
export function girthOfField(field: Field, ring: Ring, rayCount: number): number {
  const points = new Float64Array(2 * rayCount);
  for (let i = 0; i < rayCount; i++) {
    const angle = (2 * Math.PI * i) / rayCount;
    const r = skinAlongRay(field, ring, angle);
    points[2 * i] = ring.centreX + r * Math.sin(angle);
    points[2 * i + 1] = ring.centreZ + r * Math.cos(angle);
  }
  return tapeGirth({ points }) * (Math.PI / rayCount / Math.sin(Math.PI / rayCount));
}

/**
 * The point of the skin that stands farthest out (forward, or backward with `side` = -1), found from a start near it.
 *
 * On a dome of radius R the top lies R * slope away; R = 45 mm is below every dome met, so that steps fall short and
 * the search creeps up without overshooting.
 */
export function outermostPoint(
  field: Field,
  start: readonly [x: number, y: number],
  side: 1 | -1,
): readonly [number, number, number] {
  let [x, y] = start;
  let z = skinAhead(field, x, y, side);
  for (let i = 0; i < 40; i++) {
    const step = 0.5;
    const fx = field(x + step, y, z) - field(x - step, y, z);
    const fy = field(x, y + step, z) - field(x, y - step, z);
    const fz = field(x, y, z + step) - field(x, y, z - step);
    const moveX = (-45 * side * fx) / fz;
    const moveY = (-45 * side * fy) / fz;
    x += moveX;
    y += moveY;
    z = skinAhead(field, x, y, side);
    if (Math.abs(moveX) + Math.abs(moveY) < 0.05) break;
  }
  return [x, y, z];
}

/** z of the skin seen from far in front (or behind). */
function skinAhead(field: Field, x: number, y: number, side: 1 | -1): number {
  let z = 400 * side;
  for (let i = 0; i < 80; i++) {
    const f = field(x, y, z);
    if (Math.abs(f) < 0.005) break;
    z -= side * f;
  }
  return z;
}
