import { Fault } from '../fault/fault.ts';
import type { Finding } from '../fault/finding.ts';
import { percentFromRatio } from '../units/units.ts';
import { monotoneCubic, slopeAt, valueAt } from '../units/monotone-cubic.ts';
import type { ForceReading } from './bench-readings.ts';
import type { Branch, Direction } from './fabric.ts';
import { cubicTau } from './cubic-tau.ts';
import { isotonic, tilted } from './isotonic.ts';

/** One force curve off the bench. */
export interface ForceReadings {
  readonly direction: Direction;
  readonly branch: Branch;
  /** Rising in extension. */
  readonly readings: readonly ForceReading[];
  /** Of the unstretched strip, m. */
  readonly width: number;
}

/** tau = T l against x = ln(l / l_set), and where that starts and ends. */
export interface ForceCurve {
  /** N/m; 0 at x = 0, rising, straight beyond the last reading. */
  readonly tau: (x: number) => number;
  /** x of the last reading. */
  readonly measuredTo: number;
  /** ln of the stretch ratio at which force sets in; 0 on load. */
  readonly set: number;
  readonly findings: readonly Finding[];
}

const LEAST_READINGS = 3;
/** Extensions closer than this are the same. */
const HAIR = 1e-9;
/** The secants that couple the directions are taken at x = 0.1; readings must reach beyond it. */
const LEAST_EXTENSION = 0.12;
/** No fabric is pulled further; ten times its length is a slip of unit. */
const MOST_EXTENSION = 9;
/** Shares of the peak force: a pre-tension above the first is named, a force below the second counts as none. */
const PRE_TENSION_SHARE = 0.02;
const NO_FORCE_SHARE = 0.002;
/** A strip that carries nothing up to this extension hung slack in the grips. */
const SLACK_EXTENSION = 0.005;
/** Share of the peak force within which a load cell wanders round 0. */
const NOISE_SHARE = 0.02;
/** A repair of more than this share of the force is refused. */
const REPAIR_TO_REFUSE = 0.1;
/** A cubic replaces the readings when the repair exceeds this share of the force. */
const REPAIR_TO_SMOOTH = 0.03;
const READINGS_TO_SMOOTH = 6;

/**
 * The curve of tau through a strip's force readings.
 *
 * Force at no extension is taken as pre-tension and dropped. Falling readings are pooled (isotonic). The tension is a
 * monotone cubic in the stretch ratio, from 0; on the way back it starts where the force has gone to nothing.
 *
 * @throws {Fault} `bench/too-few-readings`, `bench/reading-twice`, `bench/no-force`, `bench/stretched-too-little`,
 * `bench/force-falls`.
 */
export function forceCurve(strip: ForceReadings): ForceCurve {
  const { direction, branch, readings, width } = strip;
  checkReadings(strip);
  const peak = Math.max(...readings.map(({ force }) => force));
  const findings = preTension(strip, peak);
  const start = forceless(readings, NO_FORCE_SHARE * peak, branch);
  if (branch === 'load' && start > 0) {
    findings.push({
      code: 'bench/slack-start',
      facts: { direction, extensionPercent: percentFromRatio(start) },
    });
  }
  const kept = readings.filter(({ extension }) => extension > start + HAIR);
  const { tension, findings: repairs, repair } = risingTension(strip, kept);
  const stretch = kept.map(({ extension }) => 1 + extension);
  const set = Math.log(1 + start);
  const measuredTo = Math.log(stretch.at(-1)!) - set;
  const smooth =
    kept.length >= READINGS_TO_SMOOTH && repair > REPAIR_TO_SMOOTH
      ? cubicTau(
          stretch.map((l) => Math.log(l) - set),
          kept.map(({ force, extension }) => (force / width) * (1 + extension)),
        )
      : null;
  if (smooth !== null) {
    const facts = { direction, branch, residualPercent: percentFromRatio(smooth.residual) };
    const smoothed: Finding = { code: 'bench/force-smoothed', facts };
    const tau = straightBeyond(smooth.tau, measuredTo);
    return { tau, measuredTo, set, findings: [...findings, ...repairs, smoothed] };
  }
  const curve = monotoneCubic([1 + start, ...stretch], [0, ...tension]);
  const inside = (x: number): number => valueAt(curve, Math.exp(x + set)) * Math.exp(x + set);
  const last = stretch.at(-1)!;
  const endSlope = last * (valueAt(curve, last) + last * slopeAt(curve, last));
  const tau = straightBeyond(inside, measuredTo, endSlope);
  return { tau, measuredTo, set, findings: [...findings, ...repairs] };
}

/** Below this a curve would be made up. */
function requireEnough(count: number, direction: Direction, branch: Branch): void {
  if (count >= LEAST_READINGS) return;
  throw new Fault('bench/too-few-readings', { direction, branch, count, least: LEAST_READINGS });
}

/** Enough readings, each extension once, some force, far enough. */
function checkReadings(strip: ForceReadings): void {
  const { direction, branch, readings } = strip;
  const beyond = readings.filter(({ extension }) => extension > HAIR);
  requireEnough(beyond.length, direction, branch);
  const twice = readings.find(({ extension }, i) => i > 0 && extension - readings[i - 1]!.extension < HAIR);
  if (twice !== undefined) {
    throw new Fault('bench/reading-twice', {
      direction,
      branch,
      extensionPercent: percentFromRatio(twice.extension),
    });
  }
  const last = percentFromRatio(beyond.at(-1)!.extension);
  if (last > percentFromRatio(MOST_EXTENSION)) {
    const mostPercent = percentFromRatio(MOST_EXTENSION);
    throw new Fault('bench/extension-too-large', { direction, branch, extensionPercent: last, mostPercent });
  }
  checkSign(strip);
  if (!(beyond.at(-1)!.force > 0)) {
    throw new Fault('bench/no-force', { direction, branch, extensionPercent: last });
  }
  if (beyond.at(-1)!.extension < LEAST_EXTENSION) {
    throw new Fault('bench/stretched-too-little', {
      direction,
      branch,
      extensionPercent: last,
      leastPercent: percentFromRatio(LEAST_EXTENSION),
    });
  }
}

/** A load cell's noise may lie below 0, a fabric's force may not. */
function checkSign({ direction, branch, readings }: ForceReadings): void {
  const peakN = Math.max(...readings.map(({ force }) => Math.abs(force)));
  const negative = readings.find(({ force }) => force < -NOISE_SHARE * peakN);
  if (negative === undefined) return;
  throw new Fault('bench/force-negative', {
    direction,
    branch,
    extensionPercent: percentFromRatio(negative.extension),
    forceN: negative.force,
    peakN,
  });
}

function preTension({ direction, branch, readings }: ForceReadings, peakN: number): Finding[] {
  const forceN = readings.find(({ extension }) => extension === 0)?.force ?? 0;
  if (forceN <= PRE_TENSION_SHARE * peakN) return [];
  return [{ code: 'bench/pre-tension', facts: { direction, branch, forceN, peakN } }];
}

/** Largest extension at which a strip carries nothing: on load before any force, on the way back after all. */
function forceless(readings: readonly ForceReading[], none: number, branch: Branch): number {
  if (branch === 'return') return readings.findLast(({ force }) => force <= none)?.extension ?? 0;
  const first = readings.findIndex(({ force, extension }) => extension > 0 && force > none);
  const slack = readings[first - 1]?.extension ?? 0;
  return slack >= SLACK_EXTENSION ? slack : 0;
}

interface Rising {
  /** N/m, per reading. */
  readonly tension: readonly number[];
  /** Largest repair as a share of the force. */
  readonly repair: number;
  readonly findings: readonly Finding[];
}

/** Tension per original width, made to rise. */
function risingTension(strip: ForceReadings, kept: readonly ForceReading[]): Rising {
  const { direction, branch, width } = strip;
  requireEnough(kept.length, direction, branch);
  const forces = kept.map(({ force }) => Math.max(force, 0));
  const noise = NOISE_SHARE * Math.max(...forces);
  const rising = tilted(
    isotonic(forces),
    kept.map(({ extension }) => extension),
  );
  const fall = forces.findIndex((force, i) => i > 0 && force < forces[i - 1]!);
  const tension = rising.map((force) => force / width);
  if (fall < 0) return { tension, repair: 0, findings: [] };
  const repair = Math.max(
    ...rising.map((force, i) => Math.abs(force - forces[i]!) / Math.max(forces[i]!, noise)),
  );
  const facts = {
    direction,
    branch,
    extensionPercent: percentFromRatio(kept[fall]!.extension),
    forceN: kept[fall]!.force,
    previousN: kept[fall - 1]!.force,
    previousPercent: percentFromRatio(kept[fall - 1]!.extension),
    repairPercent: percentFromRatio(repair),
  };
  if (repair > REPAIR_TO_REFUSE) throw new Fault('bench/force-falls', facts);
  return { tension, repair, findings: [{ code: 'bench/force-repaired', facts }] };
}

/** A curve continued by a straight line; the slope at the end by a difference where it is not given. */
function straightBeyond(
  curve: (x: number) => number,
  end: number,
  slope = (curve(end) - curve(end - 1e-6)) / 1e-6,
): (x: number) => number {
  const atEnd = curve(end);
  return (x) => (x <= end ? curve(x) : atEnd + slope * (x - end));
}
