/** Lofts of the fit body: closed outlines at rising heights, joined smoothly. Lengths in mm. */
import { degreesFromRadians } from '../units/units.ts';
import type { Bumps } from './fit-tables.ts';
import { naturalSpline, sampleSpline } from '../units/natural-spline.ts';

/** One closed outline across an axis; angles run from the front (+z) towards +x. Lengths in mm. */
export interface Outline {
  /** Place along the axis. */
  readonly at: number;
  readonly centreX: number;
  readonly centreZ: number;
  /** Half-widths towards +x, -x, +z and -z. */
  readonly lateral: number;
  readonly medial: number;
  readonly front: number;
  readonly back: number;
  readonly frontExponent: number;
  readonly backExponent: number;
  readonly bumps: Bumps;
}

/** A smooth limb or trunk; x, z across its axis, y along it. Lengths in mm. */
export interface Loft {
  /** First-order distance to the surface, negative inside; x across, y along, z across. */
  readonly distance: (x: number, y: number, z: number) => number;
  /** Radius at place `y` and an angle (rad) from the front towards +x. */
  readonly radius: (y: number, angle: number) => number;
  readonly centre: (y: number) => readonly [x: number, z: number];
}

/** Angles at which an outline is read before its Fourier series is taken. */
const ANGLE_COUNT = 72;

/**
 * The loft through the outlines.
 *
 * Each outline r(theta) becomes a damped Fourier series; every coefficient and the axis follow a natural cubic
 * spline along y. The distance is f = (rho - r) / sqrt(1 + (rho_y - r_y - r_theta theta_y)^2 + (r_theta / rho)^2),
 * exact to first order at the surface.
 *
 * @param outlines - Rising along the axis, at least three.
 * @param shape - `harmonics`: highest term kept; `symmetric`: only cosines, and bumps appear on both sides.
 */
export function makeLoft(
  outlines: readonly Outline[],
  shape: { readonly harmonics: number; readonly symmetric: boolean },
): Loft {
  const { harmonics, symmetric } = shape;
  const channelCount = 2 * harmonics + 3;
  const rows = new Float64Array(outlines.length * channelCount);
  outlines.forEach((outline, i) => {
    rows.set(fourierRow(outline, harmonics, symmetric), i * channelCount);
  });
  const spline = naturalSpline(
    Float64Array.from(outlines, (outline) => outline.at),
    rows,
  );
  // Channels: centre x, centre z, a0, then a_k, b_k in turn. Neighbouring queries share y, so the last is kept.
  const value = new Float64Array(channelCount);
  const slope = new Float64Array(channelCount);
  let known = NaN;
  const moveTo = (y: number): void => {
    if (y === known) return;
    sampleSpline(spline, y, value, slope);
    known = y;
  };

  const distance = (x: number, y: number, z: number): number => {
    moveTo(y);
    const dx = x - value[0]!;
    const dz = z - value[1]!;
    const rho = Math.sqrt(dx * dx + dz * dz);
    const c = rho > 0 ? dz / rho : 1;
    const s = rho > 0 ? dx / rho : 0;
    const mean = value[2]!;
    let lobes = 0;
    let lobesY = 0;
    let turn = 0;
    let ck = 1;
    let sk = 0;
    for (let k = 1, p = 3; k <= harmonics; k++, p += 2) {
      const next = ck * c - sk * s;
      sk = sk * c + ck * s;
      ck = next;
      lobes += value[p]! * ck + value[p + 1]! * sk;
      lobesY += slope[p]! * ck + slope[p + 1]! * sk;
      turn += k * (value[p + 1]! * ck - value[p]! * sk);
    }
    // Deep inside, lobes fade and the radius levels off: otherwise the axis would be a line of cone points, and
    // blends near it (crotch, pelvis) would show them.
    const core = 0.6 * mean;
    let reach = rho;
    if (rho < core) {
      const u = rho / core;
      const fade = u * u * u * (u * (6 * u - 15) + 10);
      lobes *= fade;
      lobesY *= fade;
      turn *= fade;
      reach = core * (0.375 + u * u * (0.75 - 0.125 * u * u));
    }
    const r = mean + lobes;
    const across = Math.max(rho, 0.6 * r);
    const reachY = -(dx * slope[0]! + dz * slope[1]!) / across;
    const turnY = -(slope[0]! * c - slope[1]! * s) / across;
    const along = reachY - (slope[2]! + lobesY) - turn * turnY;
    const around = turn / across;
    return (reach - r) / Math.sqrt(1 + along * along + around * around);
  };

  const radius = (y: number, angle: number): number => {
    moveTo(y);
    let r = value[2]!;
    for (let k = 1, p = 3; k <= harmonics; k++, p += 2) {
      r += value[p]! * Math.cos(k * angle) + value[p + 1]! * Math.sin(k * angle);
    }
    return r;
  };

  const centre = (y: number): readonly [number, number] => {
    moveTo(y);
    return [value[0]!, value[1]!];
  };

  return { distance, radius, centre };
}

/**
 * Radius of an outline: a four-quarter superellipse plus bumps.
 *
 * r = (|sin / sx|^n + |cos / sz|^n)^(-1/n) + sum of height exp(-((theta - angle) / width)^2).
 */
function outlineRadius(outline: Outline, theta: number, symmetric: boolean): number {
  const sin = Math.sin(theta);
  const cos = Math.cos(theta);
  const halfWidth = sin >= 0 ? outline.lateral : outline.medial;
  const halfDepth = cos >= 0 ? outline.front : outline.back;
  const n = cos >= 0 ? outline.frontExponent : outline.backExponent;
  let r = (Math.abs(sin / halfWidth) ** n + Math.abs(cos / halfDepth) ** n) ** (-1 / n);
  const degrees = degreesFromRadians(theta);
  for (let b = 0; b < outline.bumps.length; b += 3) {
    const [angle, width, height] = [outline.bumps[b]!, outline.bumps[b + 1]!, outline.bumps[b + 2]!];
    r += height * bell(degrees - angle, width);
    if (symmetric && angle > 0 && angle < 180) r += height * bell(degrees + angle, width);
  }
  return r;
}

/** exp(-(d / width)^2), with d brought to -180..180 degrees. */
function bell(degrees: number, width: number): number {
  const d = degrees - 360 * Math.round(degrees / 360);
  return Math.exp(-((d / width) ** 2));
}

/** Axis and Fourier coefficients of one outline; high terms damped by exp(-0.9 (k/(K+1))^4), which stops ringing. */
function fourierRow(outline: Outline, harmonics: number, symmetric: boolean): Float64Array {
  const row = new Float64Array(2 * harmonics + 3);
  row[0] = outline.centreX;
  row[1] = outline.centreZ;
  for (let i = 0; i < ANGLE_COUNT; i++) {
    const theta = (2 * Math.PI * i) / ANGLE_COUNT;
    const share = outlineRadius(outline, theta, symmetric) / ANGLE_COUNT;
    row[2]! += share;
    for (let k = 1; k <= harmonics; k++) {
      const damped = 2 * share * Math.exp(-0.9 * (k / (harmonics + 1)) ** 4);
      row[2 * k + 1]! += damped * Math.cos(k * theta);
      if (!symmetric) row[2 * k + 2]! += damped * Math.sin(k * theta);
    }
  }
  return row;
}
