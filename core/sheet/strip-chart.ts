import type { Direction } from '../fabric/fabric.ts';
import type { HeldWidthEvidence, StripEvidence } from '../fabric/strip-evidence.ts';
import { axisHolding, type ChartAxis } from './strip-chart-axes.ts';
import { stripTrace, type CurveTrace, type StripTrace, type StripUnit } from './strip-chart-trace.ts';

/** A fabric whose strips are to be charted. */
export interface ChartedFabric {
  /** `A` or `B`. */
  readonly letter: string;
  readonly name: string;
  readonly lot: string;
  readonly invented: boolean;
  readonly strips: Readonly<Record<Direction, StripEvidence>>;
  /** The strip pulled while its width was held, where there was one. */
  readonly held?: HeldWidthEvidence | null;
}

/** One direction: a trace per fabric, in the fabrics' order. */
export interface DirectionChart {
  readonly direction: Direction;
  readonly traces: readonly StripTrace[];
}

/** The curves of one or two fabrics, ready to be drawn; every chart has the same axes. */
export interface StripChartSheet {
  readonly unit: StripUnit;
  /** Decimals of a force and of what is missed of it. */
  readonly decimals: { readonly force: number; readonly miss: number };
  /** Extension, %. */
  readonly extension: ChartAxis;
  /** Force, in `unit`. */
  readonly force: ChartAxis;
  /** Width over the start width. */
  readonly width: ChartAxis;
  readonly charts: readonly DirectionChart[];
  /** What is charted. */
  readonly fabrics: readonly ChartedFabric[];
}

/** The order of the charts. */
export const CHART_DIRECTIONS: readonly Direction[] = ['warp', 'weft', 'bias'];

/** A stated extension beyond every reading is still shown if the axis need not grow by more than this. */
const ROOM_BEYOND = 1.35;

/** A slack strip of the law may push by a hair: this share of the greatest force does not lower the axis. */
const HAIR = 0.005;

/** Most parts between numbered marks. */
const PARTS = { extension: 6, force: 7, width: 3 } as const;

/**
 * Warp, weft and bias curves of one or two fabrics, in printed units, on axes shared by all of them.
 *
 * @param fabrics - In the order in which they are drawn and told apart.
 * @param unit - Of the forces.
 */
export function stripCharts(fabrics: readonly ChartedFabric[], unit: StripUnit): StripChartSheet {
  const charts = CHART_DIRECTIONS.map((direction) => ({
    direction,
    traces: fabrics.map(({ strips, held }) =>
      stripTrace(strips[direction], held?.direction === direction ? held.load : null, unit),
    ),
  }));
  const traces = charts.flatMap((chart) => chart.traces);
  const force = traces.flatMap(forceCurves);
  const width = traces.map((trace) => trace.width);
  const read = [0, ...extensions([...force, ...width])].filter(Number.isFinite);
  const room = ROOM_BEYOND * read.reduce((most, extension) => Math.max(most, extension), 0);
  const stated = traces
    .flatMap(({ modulus }) => modulus.map(({ extension }) => extension))
    .filter((at) => at <= room);
  const forces = [...values(force)];
  const most = forces.reduce((greatest, value) => Math.max(greatest, value), 0);
  const roomAbove = ROOM_BEYOND * most;
  const drawn = force.flatMap(({ fitted }) => fitted.map(([, value]) => value));
  const ahead = force.flatMap(({ beyond }) => beyond.map(([, value]) => value));
  return {
    unit,
    decimals: unit === 'N/m' ? { force: 0, miss: 2 } : { force: 2, miss: 3 },
    extension: axisHolding([...read, ...stated], PARTS.extension, [0]),
    force: axisHolding(
      [
        ...forces,
        ...drawn.filter((value) => value >= 0 || value < -HAIR * most),
        ...ahead.filter((value) => value <= roomAbove),
      ],
      PARTS.force,
      [0],
    ),
    width: axisHolding(
      [...values(width), ...width.flatMap(({ fitted }) => fitted.map(([, ratio]) => ratio))],
      PARTS.width,
      [0.9, 1],
    ),
    charts,
    fabrics,
  };
}

const forceCurves = ({ load, back, held }: StripTrace): readonly CurveTrace[] =>
  [load, back, held].filter((curve) => curve !== null);

function* extensions(curves: readonly CurveTrace[]): Generator<number> {
  for (const { readings, specimens, fitted } of curves) {
    for (const { extension } of readings) yield extension;
    for (const points of [...specimens, fitted]) for (const [extension] of points) yield extension;
  }
}

/** Every value read, whiskers included: all of it must stay on the paper. */
function* values(curves: readonly CurveTrace[]): Generator<number> {
  for (const { readings, specimens } of curves) {
    for (const { value, deviation } of readings) {
      yield value + (deviation ?? 0);
      yield value - (deviation ?? 0);
    }
    for (const points of specimens) for (const [, value] of points) yield value;
  }
}
