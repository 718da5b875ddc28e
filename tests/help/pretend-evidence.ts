import type { ForceReading } from '../../core/fabric/bench-readings.ts';
import type { Direction } from '../../core/fabric/fabric.ts';
import { lossByEnergy, lossByForce } from '../../core/fabric/hysteresis.ts';
import { lawFromStrips } from '../../core/fabric/law-from-strips.ts';
import type { CurveEvidence, StripEvidence, WidthEvidence } from '../../core/fabric/strip-evidence.ts';
import type { TensionLaw } from '../../core/fabric/tension-law.ts';
import { pullStrips, STRIP_ANGLE } from '../../core/fabric/virtual-strip.ts';
import type { ChartedFabric } from '../../core/sheet/strip-chart.ts';

/** What the made-up bench did. */
export interface PretendBench {
  readonly letter?: string;
  readonly name?: string;
  /** Specimens per curve. */
  readonly specimens?: number;
  /** Readings per curve, evenly spaced up to the last extension. */
  readonly count?: number;
  /** Last extension of each direction. */
  readonly last?: Readonly<Record<Direction, number>>;
  /** Forces in multiples of the first made-up fabric's. */
  readonly strength?: number;
  readonly withReturn?: boolean;
  readonly withWidth?: boolean;
}

const DIRECTIONS: readonly Direction[] = ['warp', 'weft', 'bias'];
const STATED = [0.2, 0.4, 0.6, 0.8];

/** A fabric with evidence as a bench would leave it: strips of a made-up law, read with a small wobble that repeats. */
export function pretendCharted(bench: PretendBench = {}): ChartedFabric {
  const { letter = 'A', name = 'Pretend', strength = 1, withReturn = true } = bench;
  const load = pretendLaw(1000 * strength, 1);
  const back = withReturn ? pretendLaw(1000 * strength, 0.72) : null;
  const strips = Object.fromEntries(
    DIRECTIONS.map((direction) => [direction, stripOf(load, back, direction, bench)]),
  ) as Record<Direction, StripEvidence>;
  return { letter, name, lot: `${letter}-1`, invented: true, strips };
}

/** Warp twice as strong as weft; a return that sags in the middle. */
function pretendLaw(force: number, share: number): TensionLaw {
  const tension = (x: number): number => force * (0.35 * x + 0.18 * x ** 3) * (x < 0.8 ? share : 1);
  const grid = [0, 0.1, 0.2, 0.4, 0.6, 0.8];
  const pull = (strong: number): [number, number][] => grid.map((x) => [1 + x, strong * tension(x)]);
  const width = grid.map((x): [number, number] => [1 + x, (1 + x) ** -0.35]);
  return lawFromStrips({
    warp: { load: pull(1), width },
    weft: { load: pull(0.6), width },
    shear: { modulus: 0.12 * force },
  });
}

function stripOf(
  load: TensionLaw,
  back: TensionLaw | null,
  direction: Direction,
  bench: PretendBench,
): StripEvidence {
  const last = bench.last?.[direction] ?? (direction === 'bias' ? 0.6 : 0.8);
  const out = curveOf(load, direction, last, bench);
  const home = back === null ? null : curveOf(back, direction, last, bench);
  const stated = pullStrips(
    load,
    STRIP_ANGLE[direction],
    STATED.map((x) => 1 + x),
  );
  const statedBack =
    back &&
    pullStrips(
      back,
      STRIP_ANGLE[direction],
      STATED.map((x) => 1 + x),
    );
  return {
    load: out,
    return: home,
    width: widthOf(load, direction, last, bench),
    loss: home && {
      peak: last,
      byEnergy: lossByEnergy(meansOf(out), meansOf(home)),
      byForce: STATED.filter((x) => x < last).map((extension) => ({
        extension,
        loss: lossByForce(meansOf(out), meansOf(home), extension),
      })),
    },
    modulus: STATED.map((extension, i) => ({
      extension,
      load: stated[i]!.tension,
      return: statedBack?.[i]?.tension ?? null,
      beyondReadings: extension > last + 1e-9,
    })),
  };
}

export const meansOf = (curve: CurveEvidence): readonly ForceReading[] =>
  curve.readings.map(({ extension, tension }) => ({ extension, force: tension }));

/** Between -1 and 1, the same on every run. */
const wobble = (specimen: number, i: number): number => Math.sin(12.9898 * (i + 1) + 78.233 * (specimen + 1));

const rising = (last: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => (last * (i + 1)) / count);

function curveOf(
  law: TensionLaw,
  direction: Direction,
  last: number,
  { specimens = 1, count = 8 }: PretendBench,
): CurveEvidence {
  const at = rising(last, count);
  const exact = pullStrips(
    law,
    STRIP_ANGLE[direction],
    at.map((x) => 1 + x),
  ).map(({ tension }) => tension);
  const peak = exact.at(-1)!;
  const read = Array.from({ length: specimens }, (_, s) =>
    at.map((x, i): [number, number] => [
      x,
      exact[i]! * (1 + 0.02 * wobble(s, 0)) + 0.004 * peak * wobble(s, i),
    ]),
  );
  const readings = at.map((extension, i) => {
    const { mean, deviation } = spreadOf(read.map((points) => points[i]![1]));
    return { extension, tension: mean, deviation, fitted: exact[i]! };
  });
  const misses = readings.map(({ tension, fitted }) => (fitted - tension) / peak);
  const worst = misses.reduce((most, miss, i) => (Math.abs(miss) > Math.abs(misses[most]!) ? i : most), 0);
  const grid = [0, ...rising(last, 40)];
  return {
    readings,
    specimens: read,
    fitted: {
      extensions: Float64Array.from(grid),
      tensions: Float64Array.from(
        pullStrips(
          law,
          STRIP_ANGLE[direction],
          grid.map((x) => 1 + x),
        ),
        ({ tension }) => tension,
      ),
    },
    rms: Math.sqrt(misses.reduce((sum, miss) => sum + miss * miss, 0) / misses.length),
    worst: { extension: at[worst]!, miss: misses[worst]! },
  };
}

function widthOf(
  law: TensionLaw,
  direction: Direction,
  last: number,
  { specimens = 1, withWidth = true }: PretendBench,
): WidthEvidence {
  const ratios = (at: readonly number[]): number[] =>
    pullStrips(
      law,
      STRIP_ANGLE[direction],
      at.map((x) => 1 + x),
    ).map(({ width }) => width);
  const grid = [0, ...rising(last, 40)];
  const fitted = { extensions: Float64Array.from(grid), ratios: Float64Array.from(ratios(grid)) };
  if (!withWidth) return { readings: [], specimens: [], fitted, rms: null, assumed: true };
  const at = rising(last, 6);
  const exact = ratios(at);
  const read = Array.from({ length: specimens }, (_, s) =>
    at.map((x, i): [number, number] => [x, exact[i]! + 0.006 * wobble(s, i)]),
  );
  const readings = at.map((extension, i) => {
    const { mean, deviation } = spreadOf(read.map((points) => points[i]![1]));
    return { extension, ratio: mean, deviation, fitted: exact[i]! };
  });
  const square = readings.reduce((sum, { ratio, fitted }) => sum + (fitted - ratio) ** 2, 0);
  return { readings, specimens: read, fitted, rms: Math.sqrt(square / readings.length), assumed: false };
}

function spreadOf(values: readonly number[]): { mean: number; deviation: number | null } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  if (values.length === 1) return { mean, deviation: null };
  const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, deviation: Math.sqrt(square / (values.length - 1)) };
}
