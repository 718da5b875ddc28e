import type { DistanceField } from '../body/distance-field.ts';

/** Newton steps to the nearest point of a curve; from a near start four are plenty. */
const MOST_PROJECTIONS = 30;

/** Radius of a body of revolution about the y axis as a function of height, with its derivatives. m. */
export interface Profile {
  readonly radius: (y: number) => number;
  readonly slope: (y: number) => number;
  readonly bend: (y: number) => number;
}

/** A round bar about the y axis. */
export const cylinderBody = (radius: number): DistanceField =>
  bodyOfRevolution({ radius: () => radius, slope: () => 0, bend: () => 0 });

/** A cone about the y axis: radius at y = 0, half angle (rad; positive widens upwards). */
export function coneBody(radius: number, halfAngle: number): DistanceField {
  const slope = Math.tan(halfAngle);
  return bodyOfRevolution({ radius: (y) => radius + slope * y, slope: () => slope, bend: () => 0 });
}

/** A waist: r(y) = wide - depth exp(-(y/reach)^2). */
export function waistProfile(wide: number, depth: number, reach: number): Profile {
  const dip = (y: number) => depth * Math.exp(-((y / reach) ** 2));
  return {
    radius: (y) => wide - dip(y),
    slope: (y) => ((2 * y) / reach ** 2) * dip(y),
    bend: (y) => (2 / reach ** 2 - (4 * y * y) / reach ** 4) * dip(y),
  };
}

/**
 * Exact signed distance to a body of revolution about the y axis, with gradient and Hessian.
 *
 * The foot (r(t), t) of a point (rho, y) satisfies (rho - r) r' + (y - t) = 0, found by Newton from t = y. With the
 * normal n = (1, -r') / sqrt(1 + r'^2) and the meridian's curvature kappa = -r'' / (1 + r'^2)^1.5:
 * Hessian = kappa / (1 + kappa d) t t' along the meridian + (n_rho / rho) h h' along the hoop.
 *
 * @see do Carmo, Differential Geometry of Curves and Surfaces (1976), section 3.3 (surfaces of revolution, parallels).
 */
export function bodyOfRevolution({ radius, slope, bend }: Profile): DistanceField {
  const footOf = (rho: number, y: number): number => {
    let t = y;
    for (let i = 0; i < MOST_PROJECTIONS; i++) {
      const away = rho - radius(t);
      const rise = slope(t);
      const miss = away * rise + y - t;
      // Far inside a hollow the exact derivative may turn; the flat one always leads on.
      const derivative = Math.min(-rise * rise + away * bend(t) - 1, -0.2);
      const change = miss / derivative;
      t -= change;
      if (Math.abs(change) < 1e-15) break;
    }
    return t;
  };
  const sample = (x: number, y: number, z: number, into: Float64Array): void => {
    const rho = Math.max(Math.sqrt(x * x + z * z), 1e-9);
    const t = footOf(rho, y);
    const rise = slope(t);
    const length = Math.sqrt(1 + rise * rise);
    const outward = 1 / length;
    const upward = -rise / length;
    const distance = (rho - radius(t)) * outward + (y - t) * upward;
    const curvature = -bend(t) / length ** 3;
    const meridian = curvature / (1 + curvature * distance);
    const hoop = outward / rho;
    const cos = x / rho;
    const sin = z / rho;
    // Tangent along the meridian: (-upward) along rho, outward along y.
    const tx = -upward * cos;
    const tz = -upward * sin;
    into[0] = distance;
    into[1] = outward * cos;
    into[2] = upward;
    into[3] = outward * sin;
    into[4] = meridian * tx * tx + hoop * sin * sin;
    into[5] = meridian * tx * outward;
    into[6] = meridian * tx * tz - hoop * sin * cos;
    into[7] = meridian * outward * outward;
    into[8] = meridian * outward * tz;
    into[9] = meridian * tz * tz + hoop * cos * cos;
  };
  return { sample };
}

/**
 * Exact signed distance to a bar of elliptic section about the y axis, half axes a along x and b along z.
 *
 * The foot (a cos t, b sin t) satisfies (p - foot) . tangent = 0, found by Newton; curvature
 * kappa = a b / (a^2 sin^2 t + b^2 cos^2 t)^1.5; Hessian = kappa / (1 + kappa d) along the tangent.
 */
export function ellipseBody(a: number, b: number): DistanceField {
  const footOf = (x: number, z: number): number => {
    let t = Math.atan2(a * z, b * x);
    for (let i = 0; i < MOST_PROJECTIONS; i++) {
      const cos = Math.cos(t);
      const sin = Math.sin(t);
      const awayX = x - a * cos;
      const awayZ = z - b * sin;
      const miss = -awayX * a * sin + awayZ * b * cos;
      const speed = a * a * sin * sin + b * b * cos * cos;
      const derivative = Math.min(-speed - awayX * a * cos - awayZ * b * sin, -0.2 * speed);
      const change = miss / derivative;
      t -= change;
      if (Math.abs(change) < 1e-15) break;
    }
    return t;
  };
  const sample = (x: number, _y: number, z: number, into: Float64Array): void => {
    const t = footOf(x, z);
    const cos = Math.cos(t);
    const sin = Math.sin(t);
    const speed = Math.sqrt(a * a * sin * sin + b * b * cos * cos);
    const nx = (b * cos) / speed;
    const nz = (a * sin) / speed;
    const distance = (x - a * cos) * nx + (z - b * sin) * nz;
    const curvature = (a * b) / speed ** 3;
    const along = curvature / (1 + curvature * distance);
    into.fill(0, 0, 10);
    into[0] = distance;
    into[1] = nx;
    into[3] = nz;
    into[4] = along * nz * nz;
    into[6] = -along * nx * nz;
    into[9] = along * nx * nx;
  };
  return { sample };
}
