import type { Branch, Direction } from '../fabric/fabric.ts';
import { Fault } from '../fault/fault.ts';
import type { Finding } from '../fault/finding.ts';
import type { Pair } from './bench-sheet.ts';
import type { TableCurve, TensileTable } from './tensile-table.ts';

/** Which curves of a table a strip of the bench sheet takes. */
export interface SheetChoice {
  /** Of the table's curves; null takes those whose direction the file does not say. */
  readonly direction: Direction | null;
  /** All specimens unless told. */
  readonly specimens?: readonly number[];
  /** The table's default cycle unless told. */
  readonly cycle?: number;
  /** Of the unstretched strip on the sheet, mm; the first specimen's own unless told. */
  readonly widthMm?: number;
}

/** One direction's readings as the bench sheet takes them, in its default units: per cent, N, mm. */
export interface TensileStrip {
  /** One list per specimen, rising in extension. */
  readonly load: Pair[][];
  /** Left out where no specimen was let back. */
  readonly return?: Pair[][];
  /** Left out where no width was read. */
  readonly width?: Pair[][];
  readonly cycle: number;
  /** Of the strips that the forces are of, mm; null where nobody said. */
  readonly widthMm: number | null;
  readonly findings: readonly Finding[];
}

/** Finest steps that a tester shows: 0.01 % of extension, 0.01 mm of width, a 100,000th of the greatest force. */
const EXTENSION_DECIMALS = 2;
const WIDTH_DECIMALS = 2;
const FORCE_DIGITS = 5;

/** Share of the range within which load and return are one peak, read apart. */
const ONE_PEAK = 0.02;

/**
 * The chosen cycle of a table's specimens as pairs of the bench sheet.
 *
 * Readings are sorted by extension; those that round to one extension become their mean; forces and extensions a
 * little below nothing become nothing. Load and return meet at the peak: where one branch was read farther than the
 * other, by up to 2 %, the other gets that reading too. Strips of other widths are brought to the sheet's width.
 *
 * @throws {Fault} `table/no-such-curve`.
 */
export function tensileIntoSheet(table: TensileTable, choice: SheetChoice): TensileStrip {
  const cycle = choice.cycle ?? table.defaultCycle;
  const isAsked = (curve: TableCurve): boolean =>
    curve.direction === choice.direction &&
    curve.cycle === cycle &&
    (choice.specimens === undefined || choice.specimens.includes(curve.specimen));
  const curves = table.curves.filter(isAsked);
  const loads = curves.filter(({ branch }) => branch === 'load');
  if (loads.length === 0 || cycle === null) {
    throw new Fault('table/no-such-curve', { direction: choice.direction ?? '', cycle });
  }
  const widthMm = choice.widthMm ?? loads[0]!.stripWidthMm;
  const findings: Finding[] = [];
  const strips = loads.map((load) => {
    const back = curves.find((curve) => curve.branch === 'return' && curve.specimen === load.specimen);
    return specimenPairs({ load, back, widthMm, findings });
  });
  const returns = strips.flatMap((strip) => (strip.return === null ? [] : [strip.return]));
  const widths = strips.flatMap((strip) => (strip.width.length === 0 ? [] : [strip.width]));
  if (returns.length > 0) {
    for (const [i, strip] of strips.entries()) {
      if (strip.return !== null) continue;
      const { specimen } = loads[i]!;
      findings.push({
        code: 'table/no-return',
        facts: { direction: choice.direction ?? '', specimen, cycle },
      });
    }
  }
  return {
    load: strips.map((strip) => strip.load),
    ...(returns.length > 0 ? { return: returns } : {}),
    ...(widths.length > 0 ? { width: widths } : {}),
    cycle,
    widthMm,
    findings,
  };
}

interface Specimen {
  readonly load: TableCurve;
  readonly back: TableCurve | undefined;
  /** Of the sheet, mm. */
  readonly widthMm: number | null;
  /** Added to. */
  readonly findings: Finding[];
}

function specimenPairs(specimen: Specimen): { load: Pair[]; return: Pair[] | null; width: Pair[] } {
  const { load, back, widthMm, findings } = specimen;
  const own = load.stripWidthMm;
  const scale = own === null || widthMm === null ? 1 : widthMm / own;
  if (scale !== 1) {
    const facts = { specimen: load.specimen, widthMm: own!, sheetMm: widthMm! };
    findings.push({ code: 'table/strip-widths-differ', facts });
  }
  const both = [...load.points, ...(back?.points ?? [])];
  const greatest = both.reduce((most, [, force]) => Math.max(most, Math.abs(force * scale)), 0);
  const forceDecimals = decimalsFor(greatest);
  const rounded = (curve: TableCurve): Pair[] => forcePairs(curve, { scale, forceDecimals, findings });
  const out = rounded(load);
  const home = back === undefined ? null : rounded(back);
  if (home !== null) meetAtPeak(out, home);
  const width = load.widths.map(([extension, mm]): Pair => [extension, mm * scale]);
  return { load: out, return: home, width: merged(width, WIDTH_DECIMALS).pairs };
}

/** Decimals that keep {@link FORCE_DIGITS} digits of the greatest force, at most 9. */
function decimalsFor(greatest: number): number {
  if (!(greatest > 0)) return FORCE_DIGITS;
  return Math.min(9, Math.max(0, FORCE_DIGITS - 1 - Math.floor(Math.log10(greatest))));
}

function forcePairs(
  curve: TableCurve,
  options: { readonly scale: number; readonly forceDecimals: number; readonly findings: Finding[] },
): Pair[] {
  const { scale, forceDecimals, findings } = options;
  const place = { direction: curve.direction ?? '', branch: curve.branch, specimen: curve.specimen };
  const below = curve.points.filter(([extension, force]) => extension < 0 || force < 0).length;
  if (below > 0) findings.push({ code: 'table/negative-set-to-zero', facts: { ...place, count: below } });
  const readings = curve.points.map(([extension, force]): Pair => [
    Math.max(0, extension),
    Math.max(0, force * scale),
  ]);
  const { pairs, count } = merged(readings, forceDecimals);
  if (count > 0) findings.push({ code: 'table/readings-merged', facts: { ...place, count } });
  return pairs;
}

/** Pairs by rising extension, one per extension that can be told apart; `count` is how many were lost in means. */
function merged(readings: readonly Pair[], decimals: number): { pairs: Pair[]; count: number } {
  const sums = new Map<number, { sum: number; count: number }>();
  for (const [extension, value] of readings) {
    const key = round(extension, EXTENSION_DECIMALS);
    const entry = sums.get(key);
    if (entry === undefined) sums.set(key, { sum: value, count: 1 });
    else {
      entry.sum += value;
      entry.count++;
    }
  }
  const pairs = [...sums].map(([extension, { sum, count }]): Pair => [
    extension,
    round(sum / count, decimals),
  ]);
  return { pairs: pairs.sort((a, b) => a[0] - b[0]), count: readings.length - pairs.length };
}

const round = (value: number, decimals: number): number => Number(value.toFixed(decimals));

/** Gives the branch that was read less far the other's peak, where the two peaks are one. */
function meetAtPeak(load: Pair[], home: Pair[]): void {
  const peaks: Record<Branch, Pair> = { load: load.at(-1)!, return: home.at(-1)! };
  const apart = peaks.load[0] - peaks.return[0];
  if (apart === 0 || Math.abs(apart) > ONE_PEAK * Math.max(peaks.load[0], peaks.return[0])) return;
  if (apart > 0) home.push([...peaks.load]);
  else load.push([...peaks.return]);
}
