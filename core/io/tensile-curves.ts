import type { Branch, Direction } from '../fabric/fabric.ts';
import type { Finding } from '../fault/finding.ts';
import { isComplete, REVERSAL_SHARE, splitCycles } from './tensile-cycles.ts';
import type { StripCycle, StripRow } from './tensile-cycles.ts';
import type { StripSeries } from './tensile-strips.ts';
import type { TableCurve } from './tensile-table.ts';

/** A strip with its number and cycles. */
interface Numbered {
  readonly strip: StripSeries;
  readonly specimen: number;
  readonly cycles: readonly StripCycle[];
}

/** The curves of all strips, the cycle to take unless another is asked for, and what to know of them. */
export function curvesOf(strips: readonly StripSeries[]): {
  curves: TableCurve[];
  defaultCycle: number;
  findings: Finding[];
} {
  const findings: Finding[] = [];
  const numbers = specimenNumbers(strips);
  let countedCycles = 0;
  const numbered = strips.map((strip, i): Numbered => {
    const specimen = numbers[i]!;
    const { cycles, counted, before } = splitCycles(strip.rows);
    if (counted) countedCycles = Math.max(countedCycles, cycles.length);
    if (before.length > 0) {
      const facts = { specimen, row: before[0]!.row, count: before.length };
      findings.push({ code: 'table/falls-before-first-load', facts });
    }
    for (const { cycle, held } of cycles) {
      if (held.length === 0) continue;
      const facts = { specimen, cycle, row: held[0]!.row, count: held.length };
      findings.push({ code: 'table/hold-left-out', facts });
    }
    return { strip, specimen, cycles };
  });
  if (countedCycles > 0) {
    const facts = { cycles: countedCycles, thresholdPercent: REVERSAL_SHARE * 100 };
    findings.unshift({ code: 'table/cycles-counted', facts });
  }
  const chosen = chooseCycle(numbered);
  const sorted = inOrder(numbered);
  const curves = sorted.flatMap((strip) => strip.cycles.flatMap((cycle) => curvesOfCycle(strip, cycle)));
  return { curves, defaultCycle: chosen.cycle, findings: [...findings, ...chosen.findings] };
}

/** The file's own numbers where every strip of a direction has one and no two are alike; else by order. */
function specimenNumbers(strips: readonly StripSeries[]): number[] {
  const numbers: number[] = [];
  for (const direction of new Set(strips.map((strip) => strip.direction))) {
    const same = strips.flatMap((strip, i) => (strip.direction === direction ? [{ strip, i }] : []));
    const given = same.map(({ strip }) => Number(/^\D*(\d{1,6})\D*$/.exec(strip.name ?? '')?.[1] ?? NaN));
    const isUsable = given.every((number) => number > 0) && new Set(given).size === given.length;
    for (const [k, { i }] of same.entries()) numbers[i] = isUsable ? given[k]! : k + 1;
  }
  return numbers;
}

function inOrder(strips: readonly Numbered[]): Numbered[] {
  const directions = [...new Set(strips.map(({ strip }) => strip.direction))];
  const rank = (direction: Direction | null): number => directions.indexOf(direction);
  return [...strips].sort(
    (a, b) => rank(a.strip.direction) - rank(b.strip.direction) || a.specimen - b.specimen,
  );
}

/** The last cycle that all strips went through to the end; failing that, that any did; failing that, that all began. */
function chooseCycle(strips: readonly Numbered[]): { cycle: number; findings: Finding[] } {
  const findings: Finding[] = [];
  const all = new Set(strips.flatMap(({ cycles }) => cycles.map(({ cycle }) => cycle)));
  const hasReturns = strips.some(({ cycles }) => cycles.some((cycle) => cycle.return.length > 0));
  const isIn = (cycle: number, finished: boolean, { cycles }: Numbered): boolean =>
    cycles.some((own) => own.cycle === cycle && (!finished || isComplete(own)));
  const last = (among: (cycle: number) => boolean): number | undefined =>
    [...all].filter(among).sort((a, b) => b - a)[0];
  const complete =
    last((cycle) => strips.every((strip) => isIn(cycle, true, strip))) ??
    last((cycle) => strips.some((strip) => isIn(cycle, true, strip)));
  const cycle =
    complete ?? last((cycle) => strips.every((strip) => isIn(cycle, false, strip))) ?? Math.max(...all);
  if (complete === undefined && hasReturns)
    findings.push({ code: 'table/no-complete-cycle', facts: { cycle } });
  if (all.size > 1) findings.push({ code: 'table/cycle-chosen', facts: { cycle, cycles: all.size } });
  if (!hasReturns) return { cycle, findings };
  for (const { strip, specimen, cycles } of strips) {
    const end = cycles.at(-1)!;
    if (isComplete(end)) continue;
    const row = Math.max(...[...end.load.slice(-1), ...end.return.slice(-1)].map((reading) => reading.row));
    const direction = strip.direction ?? '';
    findings.push({ code: 'table/cycle-incomplete', facts: { direction, specimen, cycle: end.cycle, row } });
  }
  return { cycle, findings };
}

function curvesOfCycle({ strip, specimen }: Numbered, cycle: StripCycle): TableCurve[] {
  const curve = (branch: Branch, rows: readonly StripRow[]): TableCurve[] => {
    if (rows.length === 0) return [];
    const withWidth = rows.filter(({ width }) => width !== null);
    return [
      {
        direction: strip.direction,
        specimen,
        specimenName: strip.name,
        cycle: cycle.cycle,
        branch,
        points: rows.map(({ extension, force }) => [extension, force] as const),
        rows: rows.map(({ row }) => row),
        widths: withWidth.map(({ extension, width }) => [extension, width!] as const),
        widthRows: withWidth.map(({ row }) => row),
        stripWidthMm: strip.stripWidthMm,
      },
    ];
  };
  return [...curve('load', cycle.load), ...curve('return', cycle.return)];
}
