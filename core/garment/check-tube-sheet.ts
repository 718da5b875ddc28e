import { Fault } from '../fault/fault.ts';
import { mmFromMetres } from '../units/units.ts';
import type { TubeSheet } from './tube-sheet.ts';

/**
 * Refuses a tube sheet that contradicts itself, whatever the body.
 *
 * @param edge - Wanted edge length, m: a tube must be at least three edges long.
 * @throws {Fault} `garment/levels-swapped`, `garment/too-short`, `garment/girth-off-garment`,
 *   `garment/girths-not-rising`.
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
}
