import { Fault } from '../fault/fault.ts';
import { mmFromMetres } from '../units/units.ts';
import type { TubeBand, TubeSheet } from './tube-sheet.ts';

/**
 * Refuses a tube sheet that contradicts itself, whatever the body.
 *
 * @param edge - Wanted edge length, m: a tube must be at least three edges long.
 * @throws {Fault} `garment/levels-swapped`, `garment/too-short`, `garment/girth-off-garment`,
 *   `garment/girths-not-rising`, `garment/band-curve-empty`, `garment/band-curve-not-rising`,
 *   `garment/lining-off-garment`.
 */
export function checkTubeSheet(sheet: TubeSheet, edge: number): void {
  const fromMm = mmFromMetres(sheet.from);
  const toMm = mmFromMetres(sheet.to);
  if (sheet.from >= sheet.to) throw new Fault('garment/levels-swapped', { fromMm, toMm });
  if (sheet.to - sheet.from < 3 * edge) {
    throw new Fault('garment/too-short', { fromMm, toMm, leastMm: mmFromMetres(3 * edge) });
  }
  sheet.girths.forEach(({ at }, index) => {
    const atMm = mmFromMetres(at);
    if (at < sheet.from || at > sheet.to)
      throw new Fault('garment/girth-off-garment', { index, atMm, fromMm, toMm });
    const previous = sheet.girths[index - 1];
    if (previous && at <= previous.at) {
      throw new Fault('garment/girths-not-rising', { index, atMm, previousMm: mmFromMetres(previous.at) });
    }
  });
  sheet.bands?.forEach(({ curve }, index) => checkCurve(curve, index));
  sheet.linings?.forEach(({ from = sheet.from, to = sheet.to }, index) => {
    if (from < to && from >= sheet.from && to <= sheet.to) return;
    throw new Fault('garment/lining-off-garment', {
      index,
      liningFromMm: mmFromMetres(from),
      liningToMm: mmFromMetres(to),
      fromMm,
      toMm,
    });
  });
}

function checkCurve(curve: TubeBand['curve'], index: number): void {
  if (curve.every(([extension]) => extension <= 0)) throw new Fault('garment/band-curve-empty', { index });
  let last: readonly [number, number] = [0, 0];
  for (const [row, [extension, force]] of curve.entries()) {
    const origin = row === 0 && extension === 0 && force === 0;
    if (!origin && !(extension > last[0] && force > last[1])) {
      throw new Fault('garment/band-curve-not-rising', {
        index,
        row,
        percent: 100 * extension,
        forceN: force,
      });
    }
    last = [extension, force];
  }
}
