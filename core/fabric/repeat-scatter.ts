import type { Finding } from '../fault/finding.ts';
import { gramsFromKilograms, mmFromMetres, percentFromRatio } from '../units/units.ts';
import type { BenchReadings } from './bench-readings.ts';
import type { Branch, Direction } from './fabric.ts';
import { deviationOf, mean } from './mean-of-repeats.ts';
import type { MeanForce, MeanWidthReading, StripMeans } from './strip-means.ts';

const DIRECTIONS: readonly Direction[] = ['warp', 'weft', 'bias'];
/** Strips of one cloth stay within this share of each other (common practice). */
const USUAL_SCATTER = 0.1;
/** Widths scatter less: share of the width. */
const USUAL_WIDTH_SCATTER = 0.03;
/** Forces below this share of the peak say little about scatter. */
const COUNTED_SHARE = 0.1;
/** A strip that reaches less far than this share of the longest is named. */
const SHORT = 0.8;

/** Repeats that lie further apart than strips of one cloth do. */
export function repeatScatter(
  readings: BenchReadings,
  means: Readonly<Record<Direction, StripMeans>>,
): Finding[] {
  return [
    ...massScatter(readings.weighed.masses),
    ...thicknessScatter(readings.thickness.values),
    ...DIRECTIONS.flatMap((direction) => bendingScatter(direction, readings.bending)),
    ...DIRECTIONS.flatMap((direction) => {
      const strips = readings.stretched.strips[direction];
      const mean = means[direction];
      return [
        ...forceScatter(direction, 'load', mean.load, strips.load.length),
        ...forceScatter(direction, 'return', mean.return ?? [], strips.return?.length ?? 0),
        ...shortStrips(direction, 'load', strips.load),
        ...shortStrips(direction, 'return', strips.return ?? []),
        ...widthScatter(direction, mean.width ?? []),
      ];
    }),
  ];
}

/** Standard deviation over the mean; 0 for one value. */
const relativeScatter = (values: readonly number[]): number => (deviationOf(values) ?? 0) / mean(values);

function massScatter(masses: BenchReadings['weighed']['masses']): Finding[] {
  if ('together' in masses) {
    return scatterOfMass('together', masses.together);
  }
  return DIRECTIONS.flatMap((direction) => scatterOfMass(direction, masses.apart[direction]));
}

function scatterOfMass(direction: string, values: readonly number[]): Finding[] {
  const scatter = relativeScatter(values);
  if (!(scatter > USUAL_SCATTER)) return [];
  const facts = {
    direction,
    massG: gramsFromKilograms(mean(values)),
    scatterPercent: percentFromRatio(scatter),
    count: values.length,
  };
  return [{ code: 'bench/mass-scatter', facts }];
}

function thicknessScatter(values: readonly number[]): Finding[] {
  const scatter = relativeScatter(values);
  if (!(scatter > USUAL_SCATTER)) return [];
  const facts = {
    thicknessMm: mmFromMetres(mean(values)),
    scatterPercent: percentFromRatio(scatter),
    count: values.length,
  };
  return [{ code: 'bench/thickness-scatter', facts }];
}

function bendingScatter(direction: Direction, bending: BenchReadings['bending']): Finding[] {
  const values = bending.kind === 'heartLoop' ? bending.height[direction] : bending.overhang[direction];
  const scatter = relativeScatter(values);
  if (!(scatter > USUAL_SCATTER)) return [];
  const facts = { direction, scatterPercent: percentFromRatio(scatter), count: values.length };
  return [{ code: 'bench/bending-scatter', facts }];
}

function forceScatter(
  direction: Direction,
  branch: Branch,
  readings: readonly MeanForce[],
  count: number,
): Finding[] {
  const peak = Math.max(0, ...readings.map(({ force }) => force));
  const worst = readings
    .filter(({ force }) => force > COUNTED_SHARE * peak)
    .map(({ extension, force, deviation }) => ({ extension, scatter: (deviation ?? 0) / force }))
    .toSorted((a, b) => b.scatter - a.scatter)[0];
  if (worst === undefined || !(worst.scatter > USUAL_SCATTER)) return [];
  return [
    {
      code: 'bench/force-scatter',
      facts: {
        direction,
        branch,
        extensionPercent: percentFromRatio(worst.extension),
        scatterPercent: percentFromRatio(worst.scatter),
        count,
      },
    },
  ];
}

function shortStrips(
  direction: Direction,
  branch: Branch,
  specimens: readonly (readonly { readonly extension: number }[])[],
): Finding[] {
  const ends = specimens.flatMap((list) => list.at(-1)?.extension ?? []);
  const shortest = Math.min(...ends);
  const longest = Math.max(...ends);
  if (ends.length < 2 || shortest >= SHORT * longest) return [];
  return [
    {
      code: 'bench/repeats-end-early',
      facts: {
        direction,
        branch,
        shortestPercent: percentFromRatio(shortest),
        longestPercent: percentFromRatio(longest),
      },
    },
  ];
}

function widthScatter(direction: Direction, readings: readonly MeanWidthReading[]): Finding[] {
  const worst = readings.toSorted((a, b) => (b.deviation ?? 0) / b.width - (a.deviation ?? 0) / a.width)[0];
  if (worst?.deviation == null || worst.deviation <= USUAL_WIDTH_SCATTER * worst.width) return [];
  return [
    {
      code: 'bench/width-scatter',
      facts: {
        direction,
        extensionPercent: percentFromRatio(worst.extension),
        widthMm: mmFromMetres(worst.width),
        scatterMm: mmFromMetres(worst.deviation),
      },
    },
  ];
}
