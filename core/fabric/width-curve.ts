import { Fault } from '../fault/fault.ts';
import type { Finding } from '../fault/finding.ts';
import { monotoneCubic, valueAt } from '../units/monotone-cubic.ts';
import { mmFromMetres, percentFromRatio } from '../units/units.ts';
import type { WidthReading } from './bench-readings.ts';
import type { Direction } from './fabric.ts';
import { mean } from './mean-of-repeats.ts';

/** Widths of one strip under load. */
export interface WidthReadings {
  readonly direction: Direction;
  /** Rising in extension; null where none were taken. */
  readonly readings: readonly WidthReading[] | null;
  /** Of the unstretched strip, m. */
  readonly width: number;
  /** x of the last force reading. */
  readonly measuredTo: number;
}

/** w = -ln(width ratio) against x = ln(stretch ratio). */
export interface WidthCurve {
  /** 0 at 0, rising at least by the slope floor. */
  readonly narrowing: (x: number) => number;
  readonly measured: boolean;
  /** Largest miss of a reading, as a width ratio. */
  readonly residual: number;
  readonly findings: readonly Finding[];
}

/** The least slope of w: a strip that widened under load would make the law pull without end. */
const LEAST_SLOPE = 0.02;
/** Two terms are enough while they miss no width ratio by more than this. */
const TWO_TERMS_MISS = 0.02;
/** A reading that stands this far from its neighbours is named, this far is refused (width ratio). */
const MISS_TO_NAME = 0.02;
const MISS_TO_REFUSE = 0.06;
/** A width this far above the start is named (ratio). */
const RISE_TO_NAME = 0.01;
/** Start width and strip width may differ by this share. */
const START_DIFFERS = 0.04;
/** No strip narrows to a smaller share of its width; a unit was slipped. */
const LEAST_RATIO = 0.2;
/** Extensions closer than this are the same. */
const HAIR = 1e-9;
/** Cells in which the slope floor is enforced. */
const CELLS = 64;

/**
 * The narrowing of a strip: w = x (n0 + n1 x) by least squares in width; a monotone cubic through the readings where
 * the two terms miss and the readings fall steadily. Without readings a typical knit, w = x (0.15 + 0.5 x) (median of 24
 * knits measured by Singal et al., 2023).
 *
 * @throws {Fault} `bench/width-too-small`, `bench/width-start-differs`, `bench/width-contradicts`.
 */
export function widthCurve(strip: WidthReadings): WidthCurve {
  const { direction, readings, measuredTo } = strip;
  if (readings === null || readings.every(({ extension }) => extension <= HAIR)) {
    return {
      narrowing: withSlopeFloor((x) => x * (0.15 + 0.5 * x), measuredTo),
      measured: false,
      residual: 0,
      findings: [{ code: 'bench/width-not-measured', facts: { direction } }],
    };
  }
  const start = startWidth(strip, readings);
  const points = onePerExtension(readings).map(({ extension, width }) => ({
    x: Math.log(1 + extension),
    ratio: Math.min(width / start, 1),
  }));
  refuseTiny(direction, readings, start);
  const raised = raisedWidths(direction, readings, start);
  const twoTerms = fitTwoTerms(points);
  const miss = (curve: (x: number) => number): number =>
    Math.max(...points.map(({ x, ratio }) => Math.abs(Math.exp(-curve(x)) - ratio)));
  const steady =
    points.every(({ ratio }, i) => i === 0 || ratio < points[i - 1]!.ratio) && points[0]!.ratio < 1;
  const chosen = miss(twoTerms) > TWO_TERMS_MISS && steady ? throughReadings(points) : twoTerms;
  const narrowing = withSlopeFloor(chosen, Math.max(measuredTo, points.at(-1)!.x));
  const findings = [...raised, ...doubtWidths({ direction, points, narrowing, start })];
  return { narrowing, measured: true, residual: miss(narrowing), findings };
}

interface WidthPoint {
  readonly x: number;
  readonly ratio: number;
}

/** Readings beyond the start; those at one and the same extension as their mean. */
function onePerExtension(readings: readonly WidthReading[]): WidthReading[] {
  const groups: WidthReading[][] = [];
  for (const reading of readings) {
    if (reading.extension <= HAIR) continue;
    const last = groups.at(-1);
    if (last !== undefined && reading.extension - last[0]!.extension < HAIR) last.push(reading);
    else groups.push([reading]);
  }
  return groups.map((group) => ({
    extension: group[0]!.extension,
    width: mean(group.map(({ width }) => width)),
  }));
}

/** The width at no extension, or the strip's. */
function startWidth({ direction, width }: WidthReadings, readings: readonly WidthReading[]): number {
  const read = readings.find(({ extension }) => extension === 0)?.width;
  if (read === undefined) return width;
  if (Math.abs(read / width - 1) > START_DIFFERS) {
    throw new Fault('bench/width-start-differs', {
      direction,
      stripMm: mmFromMetres(width),
      widthMm: mmFromMetres(read),
    });
  }
  return read;
}

function refuseTiny(direction: Direction, readings: readonly WidthReading[], start: number): void {
  const tiny = readings.find(({ width }) => width < LEAST_RATIO * start);
  if (tiny === undefined) return;
  throw new Fault('bench/width-too-small', {
    direction,
    extensionPercent: percentFromRatio(tiny.extension),
    widthMm: mmFromMetres(tiny.width),
    startMm: mmFromMetres(start),
  });
}

function raisedWidths(direction: Direction, readings: readonly WidthReading[], start: number): Finding[] {
  const raised = readings.find(({ width }) => width / start > 1 + RISE_TO_NAME);
  if (raised === undefined) return [];
  return [
    {
      code: 'bench/width-above-start',
      facts: {
        direction,
        extensionPercent: percentFromRatio(raised.extension),
        widthMm: mmFromMetres(raised.width),
        startMm: mmFromMetres(start),
      },
    },
  ];
}

/** n0 and n1 by least squares in width: rows weighted by the width ratio, since d(ratio) = -ratio dw. */
function fitTwoTerms(points: readonly WidthPoint[]): (x: number) => number {
  let a11 = 0;
  let a12 = 0;
  let a22 = 0;
  let b1 = 0;
  let b2 = 0;
  for (const { x, ratio } of points) {
    const w = -Math.log(ratio);
    const weight = ratio * ratio;
    a11 += weight * x ** 2;
    a12 += weight * x ** 3;
    a22 += weight * x ** 4;
    b1 += weight * x * w;
    b2 += weight * x ** 2 * w;
  }
  const determinant = a11 * a22 - a12 * a12;
  if (determinant <= 1e-9 * a11 * a22) return (x) => (b1 / a11) * x;
  const n0 = (b1 * a22 - b2 * a12) / determinant;
  const n1 = (b2 * a11 - b1 * a12) / determinant;
  return (x) => x * (n0 + n1 * x);
}

function throughReadings(points: readonly WidthPoint[]): (x: number) => number {
  const curve = monotoneCubic(
    [0, ...points.map(({ x }) => x)],
    [0, ...points.map(({ ratio }) => -Math.log(ratio))],
  );
  return (x) => valueAt(curve, x);
}

/** The curve where it rises fast enough, the floor's slope where not; straight beyond the end. */
function withSlopeFloor(curve: (x: number) => number, end: number): (x: number) => number {
  const step = end / CELLS;
  let rising = true;
  for (let i = 1; i <= CELLS; i++) rising &&= curve(i * step) - curve((i - 1) * step) >= LEAST_SLOPE * step;
  const endSlope = Math.max((curve(end) - curve(end - step / 8)) / (step / 8), LEAST_SLOPE);
  if (rising) {
    const atEnd = curve(end);
    return (x) => (x <= end ? curve(x) : atEnd + endSlope * (x - end));
  }
  const knots = [0];
  const values = [0];
  for (let i = 1; i <= CELLS; i++) {
    knots.push(i * step);
    values.push(Math.max(curve(i * step), values.at(-1)! + LEAST_SLOPE * step));
  }
  const floored = monotoneCubic(knots, values);
  return (x) => (x <= end ? valueAt(floored, x) : values.at(-1)! + LEAST_SLOPE * (x - end));
}

interface FittedWidths {
  readonly direction: Direction;
  readonly points: readonly WidthPoint[];
  readonly narrowing: (x: number) => number;
  readonly start: number;
}

/** The reading that the curve misses most: named, or refused. */
function doubtWidths({ direction, points, narrowing, start }: FittedWidths): Finding[] {
  const misses = points.map((point) => ({
    ...point,
    used: Math.exp(-narrowing(point.x)),
    miss: Math.abs(Math.exp(-narrowing(point.x)) - point.ratio),
  }));
  const worst = misses.reduce((most, point) => (point.miss > most.miss ? point : most));
  if (worst.miss <= MISS_TO_NAME) return [];
  const at = {
    direction,
    extensionPercent: percentFromRatio(Math.exp(worst.x) - 1),
    widthMm: mmFromMetres(worst.ratio * start),
  };
  const usedMm = mmFromMetres(worst.used * start);
  if (worst.miss > MISS_TO_REFUSE) {
    throw new Fault('bench/width-contradicts', { ...at, neighboursMm: usedMm });
  }
  return [{ code: 'bench/width-smoothed', facts: { ...at, usedMm } }];
}
