import { describe, expect, it } from 'vitest';
import { lossByEnergy } from '../../../core/fabric/hysteresis.ts';
import type { StripEvidence } from '../../../core/fabric/strip-evidence.ts';
import { axisHolding, scaleAlong } from '../../../core/sheet/strip-chart-axes.ts';
import { loopThrough, type ChartPoint, type CurveTrace } from '../../../core/sheet/strip-chart-trace.ts';
import { stripCharts, type ChartedFabric, type StripChartSheet } from '../../../core/sheet/strip-chart.ts';
import { meansOf, pretendCharted } from '../../help/pretend-evidence.ts';

/** Area of a closed outline. Source: the shoelace formula, (1/2) |sum x_i y_i+1 - x_i+1 y_i|. */
const areaOf = (outline: readonly ChartPoint[]): number =>
  Math.abs(
    outline.reduce((sum, [x, y], i) => {
      const [nextX, nextY] = outline[(i + 1) % outline.length]!;
      return sum + x * nextY - nextX * y;
    }, 0),
  ) / 2;

const curvesOf = ({ charts }: StripChartSheet): readonly CurveTrace[] =>
  charts.flatMap(({ traces }) =>
    traces.flatMap(({ load, back, held }) => [load, back, held].filter((curve) => curve !== null)),
  );

/** One reading, all equal, nothing read: whatever a bench may hand over. */
function withLoad(change: Partial<StripEvidence['load']>, rest: Partial<StripEvidence> = {}): ChartedFabric {
  const fabric = pretendCharted({ withReturn: false });
  const bare = (strip: StripEvidence): StripEvidence => ({
    ...strip,
    modulus: [],
    ...rest,
    load: { ...strip.load, ...change },
  });
  return {
    ...fabric,
    strips: {
      warp: bare(fabric.strips.warp),
      weft: bare(fabric.strips.weft),
      bias: bare(fabric.strips.bias),
    },
  };
}

const reading = (extension: number, value: number) => ({
  extension,
  value,
  deviation: null,
  count: 1,
  fitted: value,
});

const force = ({ extension, value }: { extension: number; value: number }) => ({
  extension,
  force: value,
});

describe('axes', () => {
  it('have round ends that hold every value', () => {
    expect(axisHolding([0.3, 12.04], 7, [0])).toMatchObject({ low: 0, high: 14 });
    expect(axisHolding([0.812], 3, [0.9, 1])).toMatchObject({ low: 0.8, high: 1 });
    expect(axisHolding([80], 6, [0]).numbered.map(({ label }) => label)).toEqual([
      '0',
      '20',
      '40',
      '60',
      '80',
    ]);
  });

  it('go below zero by no more than a fine mark asks', () => {
    const axis = axisHolding([-0.01, 12], 7, [0]);
    // Twos are halved twice (see ticks.ts).
    expect(axis.low).toBe(-0.5);
    expect(axisHolding([-0.7, 12], 7, [0]).low).toBe(-1);
    expect(axisHolding([-2.1, 10], 7, [0]).low).toBe(-2.5);
    expect(axis.numbered[0]).toEqual({ at: 0, label: '0' });
  });

  it('stand where there is one value, none, or none that is finite', () => {
    for (const values of [[0], [], [Number.NaN, Infinity, -Infinity], [0, 0, 0]]) {
      const { low, high, numbered } = axisHolding(values, 6, [0]);
      expect(high).toBeGreaterThan(low);
      expect(numbered.length).toBeGreaterThanOrEqual(2);
    }
    const tiny = axisHolding([1e-9], 6, [0]);
    expect(tiny.high).toBeGreaterThanOrEqual(1e-9);
    expect(tiny.high).toBeLessThan(2e-9);
  });

  it('have scales that lead back', () => {
    const axis = axisHolding([-0.01, 12.04], 6, [0]);
    const scale = scaleAlong(axis, 320, 20);
    expect([scale.place(axis.low), scale.place(axis.high)]).toEqual([320, 20]);
    for (const value of [axis.low, 0, 1 / 3, 7.77, axis.high]) {
      expect(scale.value(scale.place(value))).toBeCloseTo(value, 12);
    }
  });
});

describe('strip charts', () => {
  const two = [
    pretendCharted({ specimens: 3 }),
    pretendCharted({ letter: 'B', strength: 0.7, specimens: 5, last: { warp: 1.1, weft: 0.5, bias: 0.3 } }),
  ];

  it('have one scale for all directions and both fabrics, with every reading and whisker on it', () => {
    for (const unit of ['N/50 mm', 'N/m'] as const) {
      const sheet = stripCharts(two, unit);
      const points = curvesOf(sheet).flatMap(({ readings, specimens }) => [
        ...readings.flatMap(({ extension, value, deviation }) => [
          [extension, value - (deviation ?? 0)] as const,
          [extension, value + (deviation ?? 0)] as const,
        ]),
        ...specimens.flat(),
      ]);
      expect(points.length).toBeGreaterThan(500);
      for (const [extension, value] of points) {
        expect(extension).toBeGreaterThanOrEqual(sheet.extension.low);
        expect(extension).toBeLessThanOrEqual(sheet.extension.high);
        expect(value).toBeGreaterThanOrEqual(sheet.force.low);
        expect(value).toBeLessThanOrEqual(sheet.force.high);
      }
      const widths = sheet.charts.flatMap(({ traces }) => traces.flatMap(({ width }) => width.readings));
      for (const { value } of widths) {
        expect(value).toBeGreaterThanOrEqual(sheet.width.low);
        expect(value).toBeLessThanOrEqual(sheet.width.high);
      }
    }
  });

  it('print forces of 50 mm as a twentieth of those of a metre', () => {
    const narrow = stripCharts(two, 'N/50 mm').charts[0]!.traces[0]!;
    const wide = stripCharts(two, 'N/m').charts[0]!.traces[0]!;
    expect(wide.load.readings[3]!.value / narrow.load.readings[3]!.value).toBeCloseTo(20, 12);
    expect(wide.modulus[1]!.load / narrow.modulus[1]!.load).toBeCloseTo(20, 12);
    expect(wide.load.misses!.rms / narrow.load.misses!.rms).toBeCloseTo(20, 12);
    expect(wide.load.misses!.rmsPercent).toBe(narrow.load.misses!.rmsPercent);
  });

  it('miss what a reader of the points would find missed', () => {
    // Root mean square and worst, reckoned again from the drawn numbers.
    const { readings, misses } = stripCharts(two, 'N/50 mm').charts[1]!.traces[0]!.load;
    const gaps = readings.map(({ value, fitted }) => fitted - value);
    const rms = Math.sqrt(gaps.reduce((sum, gap) => sum + gap * gap, 0) / gaps.length);
    expect(misses!.rms).toBeCloseTo(rms, 3);
    expect(Math.abs(misses!.worst)).toBeCloseTo(Math.max(...gaps.map(Math.abs)), 3);
  });

  it('go on beyond the last reading from the fitted end through the stated extensions, and only there', () => {
    const sheet = stripCharts([pretendCharted({ last: { warp: 0.6, weft: 0.8, bias: 0.4 } })], 'N/50 mm');
    const [warp, weft] = sheet.charts.map(({ traces }) => traces[0]!);
    expect(warp!.load.beyond[0]).toEqual(warp!.load.fitted.at(-1));
    const end = warp!.load.beyond.at(-1)!;
    expect(end[0]).toBeCloseTo(80, 9);
    expect(end[1]).toBeCloseTo(warp!.modulus.at(-1)!.load, 9);
    expect(weft!.load.beyond).toEqual([]);
    expect(warp!.back!.beyond).toEqual([]);
  });

  it('count the specimens that were read that far', () => {
    const fabric = pretendCharted({ specimens: 3 });
    const { load } = fabric.strips.warp;
    const short = { ...load, specimens: [load.specimens[0]!.slice(0, 4), ...load.specimens.slice(1)] };
    const strips = { ...fabric.strips, warp: { ...fabric.strips.warp, load: short } };
    const { readings } = stripCharts([{ ...fabric, strips }], 'N/m').charts[0]!.traces[0]!.load;
    expect(readings.map(({ count }) => count)).toEqual([3, 3, 3, 3, 2, 2, 2, 2]);
  });
});

describe('the hysteresis loop', () => {
  it('has the area of the power loss by energy', () => {
    // Source: power loss by energy is (W_load - W_return) / W_load, trapezoids under the readings (see hysteresis.ts).
    for (const options of [{}, { specimens: 4 }, { count: 3 }, { count: 77 }]) {
      const fabric = pretendCharted(options);
      const sheet = stripCharts([fabric], 'N/m');
      for (const { direction, traces } of sheet.charts) {
        const { load, loss } = fabric.strips[direction];
        const out = meansOf(load);
        const taken = areaOf([
          [0, 0],
          ...out.map(({ extension, force }) => [100 * extension, force] as const),
          [100 * loss!.peak, 0],
        ]);
        expect(areaOf(traces[0]!.loop) / taken).toBeCloseTo(loss!.byEnergy, 10);
        expect(traces[0]!.loss!.byEnergy).toBeCloseTo(100 * loss!.byEnergy, 12);
      }
    }
  });

  it('is cut where the strip was let back before the last reading out', () => {
    const out = [reading(20, 2), reading(60, 6)];
    const back = [reading(10, 0), reading(40, 3)];
    // By hand: under the way out to 40 % 80, under the way back 45.
    expect(areaOf(loopThrough(out, back))).toBeCloseTo(80 - 45, 12);
    expect(lossByEnergy(out.map(force), back.map(force))).toBeCloseTo(35 / 80, 12);
  });
});

describe('poor evidence', () => {
  const cases: readonly (readonly [string, ChartedFabric])[] = [
    ['no return and no width', pretendCharted({ withReturn: false, withWidth: false })],
    ['one reading', withLoad({ readings: [{ extension: 0.5, tension: 90, deviation: null, fitted: 91 }] })],
    ['no reading', withLoad({ readings: [], specimens: [] })],
    [
      'no force at all',
      withLoad({
        readings: [0.2, 0.4].map((extension) => ({ extension, tension: 0, deviation: 0, fitted: 0 })),
        fitted: { extensions: Float64Array.from([0, 0.4]), tensions: Float64Array.from([0, 0]) },
      }),
    ],
    [
      'readings that are no numbers',
      withLoad({
        readings: [0.2, 0.4].map((extension) => ({
          extension,
          tension: Number.NaN,
          deviation: Number.NaN,
          fitted: Infinity,
        })),
      }),
    ],
  ];

  it.each(cases)('is charted all the same: %s', (_, fabric) => {
    const sheet = stripCharts([fabric], 'N/50 mm');
    expect(sheet.charts).toHaveLength(3);
    for (const axis of [sheet.extension, sheet.force, sheet.width]) {
      expect(axis.high).toBeGreaterThan(axis.low);
      expect(Number.isFinite(axis.high - axis.low)).toBe(true);
    }
    expect(sheet.charts.every(({ traces }) => traces[0]!.loop.length === 0)).toBe(true);
  });
});
