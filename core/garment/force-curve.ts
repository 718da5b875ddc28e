import { monotoneCubic, slopeAt, valueAt, type MonotoneCubic } from '../units/monotone-cubic.ts';

/** Force of an elastic by its extension, ready to be asked. */
export interface ForceCurve {
  /** N against the extension as a ratio (0 = relaxed). */
  readonly force: MonotoneCubic;
  /** Area under the curve up to each knot, N. */
  readonly area: Float64Array;
  /** Slope left below the relaxed length, N: so little that it pushes nothing, so much that rest can be found. */
  readonly slackSlope: number;
}

/** What an elastic answers to one extension. */
export interface ForceReading {
  /** N. */
  force: number;
  /** dF/d(extension), N. */
  slope: number;
  /** Integral of the force over the extension from 0, N. */
  area: number;
}

/** A slack elastic keeps this share of the stiffness of its first reading. */
const SLACK_SHARE = 1e-4;

/**
 * The curve through the readings of an elastic: a monotone cubic from (0, 0), straight on beyond the last reading.
 *
 * @param readings - [extension as a ratio, N], both rising, at least one with an extension above 0.
 */
export function forceCurve(readings: readonly (readonly [number, number])[]): ForceCurve {
  const stretched = readings.filter(([extension]) => extension > 0);
  const force = monotoneCubic([0, ...stretched.map(([e]) => e)], [0, ...stretched.map(([, f]) => f)]);
  const { x, y, slope } = force;
  const area = new Float64Array(x.length);
  for (let i = 1; i < x.length; i++) {
    const h = x[i]! - x[i - 1]!;
    area[i] = area[i - 1]! + (h * (y[i - 1]! + y[i]!)) / 2 + (h * h * (slope[i - 1]! - slope[i]!)) / 12;
  }
  return { force, area, slackSlope: (SLACK_SHARE * y[1]!) / x[1]! };
}

/**
 * Force, slope and area under the curve at an extension.
 *
 * @param into - Overwritten.
 */
export function readForce(curve: ForceCurve, extension: number, into: ForceReading): void {
  const { force, area, slackSlope } = curve;
  if (extension <= 0) {
    into.slope = slackSlope;
    into.force = slackSlope * extension;
    into.area = (slackSlope * extension * extension) / 2;
    return;
  }
  const { x, y, slope } = force;
  into.force = valueAt(force, extension);
  into.slope = slopeAt(force, extension);
  const last = x.length - 1;
  let i = last;
  while (i > 0 && x[i]! > extension) i--;
  const past = extension - x[i]!;
  if (i === last) {
    into.area = area[last]! + ((y[last]! + into.force) * past) / 2;
    return;
  }
  // Integral of the cubic from its knot, in t = past / h.
  const h = x[i + 1]! - x[i]!;
  const t = past / h;
  const t2 = t * t;
  const t3 = t2 * t;
  const t4 = t3 * t;
  into.area =
    area[i]! +
    h * (y[i]! * (t - t3 + t4 / 2) + y[i + 1]! * (t3 - t4 / 2)) +
    h * h * (slope[i]! * (t2 / 2 - (2 * t3) / 3 + t4 / 4) + slope[i + 1]! * (t4 / 4 - t3 / 3));
}
