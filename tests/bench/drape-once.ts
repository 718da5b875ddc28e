/**
 * One cold drape of a demo fabric, or the fit of a long bench sheet, in a process of its own; prints what it took as JSON.
 *
 * Arguments: `drape` and the name of a demo sheet, or `fit`. Seconds are those that a person waits; on a busy machine
 * read the multiples of the yardstick.
 */
import { readFileSync } from 'node:fs';
import type { BenchReadings, StripReadings } from '../../core/fabric/bench-readings.ts';
import { fabricFromReadings } from '../../core/fabric/fabric-from-readings.ts';
import { parseBenchSheet } from '../../core/io/read-bench-sheet.ts';
import { drapeDisc } from '../../core/swatch/drape-disc.ts';
import { yardstick } from './yardstick.ts';

const VERTEX_COUNT = 3000;
const POINT_COUNT = 500;
/** Fits in the same process after which one counts as warm. */
const WARMING = 10;

const readingsOf = (name: string): BenchReadings =>
  parseBenchSheet(readFileSync(`assets/demo/${name}.bench.json`, 'utf8'));

function timed<T>(work: () => T): { readonly made: T; readonly seconds: number } {
  const start = performance.now();
  const made = work();
  return { made, seconds: (performance.now() - start) / 1000 };
}

function timeDrape(name: string): object {
  const { laws, bendingRigidity, arealDensity } = fabricFromReadings(readingsOf(name));
  const search = drapeDisc({ law: laws.load, bendingRigidity, arealDensity }, { vertexCount: VERTEX_COUNT });
  const steps: number[] = [];
  const { made, seconds: drapeSeconds } = timed(() => {
    let step = search.next();
    for (; !step.done; step = search.next()) steps[step.value.level] = step.value.iteration;
    return step.value;
  });
  const { flat, residual, atRest, drapeCoefficient, foldCount } = made;
  return { vertexCount: flat.length / 2, drapeSeconds, steps, residual, atRest, drapeCoefficient, foldCount };
}

/** A list of readings drawn anew with more points on the chords between the old ones. */
function resampled<T extends { readonly extension: number }>(list: readonly T[], key: keyof T & string): T[] {
  const end = list.length - 1;
  return Array.from({ length: POINT_COUNT }, (_, i) => {
    const place = (end * i) / (POINT_COUNT - 1);
    const from = Math.min(end - 1, Math.floor(place));
    const share = place - from;
    const between = (of: keyof T) =>
      (1 - share) * Number(list[from]![of]) + share * Number(list[from + 1]![of]);
    return { ...list[from]!, extension: between('extension'), [key]: between(key) };
  });
}

const three = <T>(lists: readonly T[]): T[] => [0, 1, 2].map((i) => lists[i % lists.length]!);

const longer = (strip: StripReadings): StripReadings => ({
  load: three(strip.load).map((list) => resampled(list, 'force')),
  return: strip.return && three(strip.return).map((list) => resampled(list, 'force')),
  width: strip.width,
});

/** A demo sheet as a tester writes it: three specimens of each direction, 500 points of each curve. */
function longSheet(): BenchReadings {
  const short = readingsOf('plover-185');
  const { warp, weft, bias } = short.stretched.strips;
  const strips = { warp: longer(warp), weft: longer(weft), bias: longer(bias) };
  return { ...short, stretched: { ...short.stretched, strips } };
}

function timeFit(): object {
  const sheet = longSheet();
  const { warp, weft, bias } = sheet.stretched.strips;
  let readingCount = 0;
  for (const { load, return: back } of [warp, weft, bias]) {
    for (const list of [...load, ...(back ?? [])]) readingCount += list.length;
  }
  const fit = () => fabricFromReadings(sheet);
  const cold = timed(fit);
  for (let i = 0; i < WARMING; i++) fit();
  return { readingCount, coldSeconds: cold.seconds, warmSeconds: timed(fit).seconds };
}

const [what = 'drape', name = 'plover-185'] = process.argv.slice(2);
const result = what === 'fit' ? timeFit() : timeDrape(name);
console.log(JSON.stringify({ ...result, yardstickSeconds: yardstick() }));
