import type {
  CurveEvidence,
  MeanReading,
  Modulus,
  PowerLoss,
  StripEvidence,
  WidthEvidence,
} from '../fabric/strip-evidence.ts';
import { monotoneCubic, valueAt } from '../units/monotone-cubic.ts';
import { percentFromRatio } from '../units/units.ts';
import { STRIP_WIDTH } from './display-unit.ts';

/** What forces are printed in: on the bench's strip of 50 mm, or per metre of width. */
export type StripUnit = 'N/50 mm' | 'N/m';

/** [extension in %, force in the printed unit or width ratio]. */
export type ChartPoint = readonly [extension: number, value: number];

/** Mean of the specimens at one extension, as printed. */
export interface ChartReading {
  /** %. */
  readonly extension: number;
  readonly value: number;
  /** Standard deviation over the specimens; null for one specimen. */
  readonly deviation: number | null;
  /** Specimens that were read that far. */
  readonly count: number;
  readonly fitted: number;
}

/** How far the fitted strip misses what was read. */
export interface Misses {
  /** Root mean square and the worst (signed, fitted - read), in the printed unit. */
  readonly rms: number;
  readonly worst: number;
  /** The same as % of the largest force read, or % of the start width. */
  readonly rmsPercent: number;
  readonly worstPercent: number;
  /** Where it is missed most, %. */
  readonly worstAt: number;
}

/** One curve: readings, every specimen, and the strip of the fitted law. */
export interface CurveTrace {
  readonly readings: readonly ChartReading[];
  /** Empty where there was one specimen: it is the mean. */
  readonly specimens: readonly (readonly ChartPoint[])[];
  readonly fitted: readonly ChartPoint[];
  /** The fitted strip beyond the last reading; empty where nothing is known of it. */
  readonly beyond: readonly ChartPoint[];
  /** Null where nothing was read. */
  readonly misses: Misses | null;
}

/** A stated extension's force, as printed. */
export interface ModulusMark {
  /** %. */
  readonly extension: number;
  readonly load: number;
  readonly back: number | null;
  readonly beyondReadings: boolean;
}

/** Share of work and of force that the strip keeps, %. */
export interface LossSheet {
  /** Extension from which the strip was let back, %. */
  readonly peak: number;
  readonly byEnergy: number;
  /** At 40 %; null where the strip was not let back from beyond it. */
  readonly byForceAt40: number | null;
}

/** One fabric in one direction, as printed. */
export interface StripTrace {
  readonly load: CurveTrace;
  readonly back: CurveTrace | null;
  /** The strip whose width was held, where there was one. */
  readonly held: CurveTrace | null;
  readonly width: CurveTrace & { readonly assumed: boolean };
  /** Outline of the hysteresis loop through the readings, as its area is reckoned: out to the peak and back. */
  readonly loop: readonly ChartPoint[];
  readonly modulus: readonly ModulusMark[];
  readonly loss: LossSheet | null;
}

/** Newton per metre to the printed unit. */
export const perUnit = (unit: StripUnit): number => (unit === 'N/m' ? 1 : STRIP_WIDTH);

/** What was read of one strip and what the law answers, in printed units. */
export function stripTrace(evidence: StripEvidence, held: CurveEvidence | null, unit: StripUnit): StripTrace {
  const factor = perUnit(unit);
  const modulus = evidence.modulus.map((mark) => modulusMark(mark, factor));
  const beyondLoad = modulus.map(({ extension, load }) => [extension, load] as const);
  const load = forceTrace(evidence.load, factor, beyondLoad);
  // The way back ends where the strip was let back: nothing lies beyond it.
  const back = evidence.return === null ? null : forceTrace(evidence.return, factor, []);
  return {
    load,
    back,
    held: held === null ? null : forceTrace(held, factor, []),
    width: { ...widthTrace(evidence.width), assumed: evidence.width.assumed },
    loop: back === null ? [] : loopThrough(load.readings, back.readings),
    modulus,
    loss: evidence.loss === null ? null : lossSheet(evidence.loss),
  };
}

function forceTrace(curve: CurveEvidence, factor: number, marks: readonly ChartPoint[]): CurveTrace {
  const largest = curve.readings.reduce((most, { tension }) => Math.max(most, tension), 0) * factor;
  const fitted = pointsOf(curve.fitted.extensions, curve.fitted.tensions, factor);
  return {
    readings: curve.readings.map((reading) => ({
      ...readingAt(reading, curve.specimens),
      value: reading.tension * factor,
      deviation: reading.deviation === null ? null : reading.deviation * factor,
      fitted: reading.fitted * factor,
    })),
    specimens: specimensOf(curve.specimens, factor),
    fitted,
    beyond: beyondLast(fitted, marks),
    misses: {
      rms: curve.rms * largest,
      worst: curve.worst.miss * largest,
      rmsPercent: percentFromRatio(curve.rms),
      worstPercent: percentFromRatio(curve.worst.miss),
      worstAt: percentFromRatio(curve.worst.extension),
    },
  };
}

function widthTrace(width: WidthEvidence): CurveTrace {
  const worst = width.readings.reduce<{ miss: number; at: number }>(
    (most, { extension, ratio, fitted }) =>
      Math.abs(fitted - ratio) > Math.abs(most.miss) ? { miss: fitted - ratio, at: extension } : most,
    { miss: 0, at: width.readings[0]?.extension ?? 0 },
  );
  return {
    readings: width.readings.map((reading) => ({
      ...readingAt(reading, width.specimens),
      value: reading.ratio,
      deviation: reading.deviation,
      fitted: reading.fitted,
    })),
    specimens: specimensOf(width.specimens, 1),
    fitted: pointsOf(width.fitted.extensions, width.fitted.ratios, 1),
    beyond: [],
    misses:
      width.rms === null
        ? null
        : {
            rms: width.rms,
            worst: worst.miss,
            rmsPercent: percentFromRatio(width.rms),
            worstPercent: percentFromRatio(worst.miss),
            worstAt: percentFromRatio(worst.at),
          },
  };
}

const modulusMark = (mark: Modulus, factor: number): ModulusMark => ({
  extension: percentFromRatio(mark.extension),
  load: mark.load * factor,
  back: mark.return === null ? null : mark.return * factor,
  beyondReadings: mark.beyondReadings,
});

const AT_40 = 0.4;

function lossSheet({ peak, byEnergy, byForce }: PowerLoss): LossSheet {
  const at40 = byForce.find(({ extension }) => Math.abs(extension - AT_40) < 1e-6);
  return {
    peak: percentFromRatio(peak),
    byEnergy: percentFromRatio(byEnergy),
    byForceAt40: at40 === undefined ? null : percentFromRatio(at40.loss),
  };
}

type Specimens = readonly (readonly (readonly [number, number])[])[];

/** A specimen's last reading may miss the mean's extension by rounding. */
const REACH_SLACK = 1e-9;

function readingAt(
  { extension, deviation }: Pick<MeanReading, 'extension' | 'deviation'>,
  specimens: Specimens,
): Pick<ChartReading, 'extension' | 'count'> {
  const reaching = specimens.filter((points) => (points.at(-1)?.[0] ?? -1) >= extension - REACH_SLACK).length;
  return {
    extension: percentFromRatio(extension),
    count: deviation === null ? 1 : Math.max(2, reaching),
  };
}

const specimensOf = (specimens: Specimens, factor: number): readonly (readonly ChartPoint[])[] =>
  specimens.length < 2
    ? []
    : specimens.map((points) =>
        points.map(([extension, value]) => [percentFromRatio(extension), value * factor] as const),
      );

const pointsOf = (extensions: Float64Array, values: Float64Array, factor: number): readonly ChartPoint[] =>
  Array.from(extensions, (extension, i) => [percentFromRatio(extension), values[i]! * factor] as const);

/** Points between two known places of the fitted strip, so that it bends as a curve does. */
const BEYOND_PARTS = 8;

/** The fitted strip from its last point on, through the marks that lie beyond it. */
function beyondLast(fitted: readonly ChartPoint[], marks: readonly ChartPoint[]): readonly ChartPoint[] {
  const last = fitted.at(-1);
  if (last === undefined) return [];
  const ahead = marks.filter(([extension]) => extension > last[0] + 1e-6);
  const end = ahead.at(-1);
  if (end === undefined) return [];
  const knots = [...fitted.slice(-3), ...ahead];
  const curve = monotoneCubic(
    knots.map(([extension]) => extension),
    knots.map(([, value]) => value),
  );
  const parts = BEYOND_PARTS * ahead.length;
  return Array.from({ length: parts + 1 }, (_, i) => {
    const extension = last[0] + ((end[0] - last[0]) * i) / parts;
    return [extension, valueAt(curve, extension)] as const;
  });
}

/**
 * The loop between readings out and back, closed at no extension: straight between readings, out only as far as the
 * strip was let back from. Its area is W_load - W_return of the power loss by energy.
 */
export function loopThrough(
  out: readonly ChartReading[],
  back: readonly ChartReading[],
): readonly ChartPoint[] {
  const peak = back.at(-1)?.extension;
  if (peak === undefined) return [];
  const point = ({ extension, value }: ChartReading): ChartPoint => [extension, value];
  const before = out.filter(({ extension }) => extension < peak);
  const after = out.find(({ extension }) => extension >= peak);
  return [[0, 0], ...before.map(point), valueOn(before.at(-1), after, peak), ...back.map(point).toReversed()];
}

/** By straight line between two readings; from no force at no extension, held beyond the last. */
function valueOn(
  before: ChartReading | undefined,
  after: ChartReading | undefined,
  extension: number,
): ChartPoint {
  const start = before ?? { extension: 0, value: 0 };
  if (after === undefined) return [extension, start.value];
  const span = after.extension - start.extension;
  const share = span === 0 ? 1 : (extension - start.extension) / span;
  return [extension, start.value + share * (after.value - start.value)];
}
