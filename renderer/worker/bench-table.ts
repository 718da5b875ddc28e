import { extensionFrom, newtonsFrom, widthFrom } from '../../core/io/bench-sheet-units.ts';
import type { Pair } from '../../core/io/bench-sheet.ts';
import { tensileIntoSheet } from '../../core/io/tensile-into-sheet.ts';
import type { TensileTable } from '../../core/io/tensile-table.ts';
import type { StripWish, TakenStrip, TakenUnits } from './bench-messages.ts';

/** How many digits a reading that was brought into another unit keeps. */
const DIGITS = 7;

/**
 * Strips of a tester's table as they are typed on the bench, in the units that the bench is set to.
 *
 * @throws {Fault} `table/no-such-curve`.
 */
export function takeStrips(
  table: TensileTable,
  wishes: readonly StripWish[],
  units: TakenUnits,
): readonly TakenStrip[] {
  return wishes.map(({ from, into, cycle, specimens }) => {
    const strip = tensileIntoSheet(table, {
      direction: from,
      specimens,
      cycle,
      ...(units.widthMm === null ? {} : { widthMm: units.widthMm }),
    });
    const forces = converter(units, strip.widthMm, 'force');
    const widths = converter(units, strip.widthMm, 'width');
    return {
      into,
      load: strip.load.map(forces),
      return: (strip.return ?? []).map(forces),
      width: (strip.width ?? []).map(widths),
      widthMm: strip.widthMm,
      findings: strip.findings,
    };
  });
}

const rounded = (value: number): number => Number(value.toPrecision(DIGITS));

/** From per cent and N or mm into the bench's units; a table in its own units passes as it is. */
function converter(
  { extension, force, width, gaugeMm, widthMm, test, circumferenceMm }: TakenUnits,
  ownWidthMm: number | null,
  of: 'force' | 'width',
): (pairs: readonly Pair[]) => readonly Pair[] {
  const wide = widthMm ?? ownWidthMm ?? Number.NaN;
  const piece = {
    test,
    gauge: (gaugeMm ?? Number.NaN) / 1000,
    width: wide / 1000,
    circumference: circumferenceMm === null ? null : circumferenceMm / 1000,
  };
  // Forces of a loop are of both legs on either side: only the unit changes.
  const perForce = newtonsFrom(1, force, { ...piece, test: 'strip' });
  const perWidth = 1000 * widthFrom(1, width, piece);
  const perExtension = 100 * extensionFrom(1, extension, piece);
  const perReading = of === 'force' ? perForce : perWidth;
  return (pairs) =>
    pairs.map(([percent, reading]): Pair => [
      extension === '%' ? percent : rounded(percent / perExtension),
      perReading === 1 ? reading : rounded(reading / perReading),
    ]);
}
