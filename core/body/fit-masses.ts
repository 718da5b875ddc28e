/** Soft masses and soft joins of the fit body. Lengths in mm. */
import { radiansFromDegrees } from '../units/units.ts';

/**
 * Smooth step: 0 before `from`, 1 after `to`, twice differentiable between.
 *
 * t^3 (6 t^2 - 15 t + 10).
 */
export function smoothStep(from: number, to: number, at: number): number {
  const t = (at - from) / (to - from);
  if (t <= 0) return 0;
  if (t >= 1) return 1;
  return t * t * t * (t * (6 * t - 15) + 10);
}

/**
 * The smaller of two distances, rounded where they differ by less than k: joins two solids with a fillet, C2.
 *
 * min(a, b) - h^3 k / 6, h = max(k - |a - b|, 0) / k.
 */
export function smoothMin(a: number, b: number, k: number): number {
  const least = a < b ? a : b;
  const h = (k - Math.abs(a - b)) / k;
  return h > 0 ? least - (h * h * h * k) / 6 : least;
}

/** The larger of two distances, rounded alike: cuts a solid with a rounded rim. */
export function smoothMax(a: number, b: number, k: number): number {
  return -smoothMin(-a, -b, k);
}

/** An egg: an ellipsoid whose upper and lower half-heights differ, turned outward and tilted. mm and degrees. */
export interface EggMass {
  readonly centre: readonly [number, number, number];
  /** Half-width across, half-heights up and down, half-depth. */
  readonly across: number;
  readonly up: number;
  readonly down: number;
  readonly deep: number;
  /** Outward turn of the front about the vertical. */
  readonly yaw: number;
  /** Backward tilt of the top. */
  readonly pitch: number;
}

/**
 * First-order distance to an egg, negative inside.
 *
 * f = |q| (|q| - 1) / |(qx/rx, qy/ry, qz/rz)| with q = (dx/rx, dy/ry, dz/rz); ry passes from `down` to `up` by a tanh.
 */
export function eggDistance(egg: EggMass): (x: number, y: number, z: number) => number {
  const [centreX, centreY, centreZ] = egg.centre;
  const cosYaw = Math.cos(radiansFromDegrees(egg.yaw));
  const sinYaw = Math.sin(radiansFromDegrees(egg.yaw));
  const cosPitch = Math.cos(radiansFromDegrees(egg.pitch));
  const sinPitch = Math.sin(radiansFromDegrees(egg.pitch));
  const { across, up, down, deep } = egg;
  const soft = 0.45 * Math.min(up, down);
  return (x, y, z) => {
    const dx = x - centreX;
    const dy = y - centreY;
    const dz = z - centreZ;
    const turned = dx * sinYaw + dz * cosYaw;
    const localX = dx * cosYaw - dz * sinYaw;
    const localY = dy * cosPitch - turned * sinPitch;
    const localZ = dy * sinPitch + turned * cosPitch;
    const high = down + (up - down) * (0.5 + 0.5 * Math.tanh(localY / soft));
    const qx = localX / across;
    const qy = localY / high;
    const qz = localZ / deep;
    const size = Math.sqrt(qx * qx + qy * qy + qz * qz);
    const gx = qx / across;
    const gy = qy / high;
    const gz = qz / deep;
    const steep = Math.sqrt(gx * gx + gy * gy + gz * gz);
    return steep > 0 ? (size * (size - 1)) / steep : -Math.min(across, down, deep);
  };
}
