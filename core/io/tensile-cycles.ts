import type { Branch } from '../fabric/fabric.ts';

/** One reading of one strip, in sheet units. */
export interface StripRow {
  /** In the file, from 1. */
  readonly row: number;
  /** Per cent. */
  readonly extension: number;
  /** N on the whole width. */
  readonly force: number;
  /** mm; null where it was not read. */
  readonly width: number | null;
  /** As the file says; null where it does not. */
  readonly cycle: number | null;
  readonly branch: Branch | null;
}

/** One cycle of a strip: the way out, the way back (from the same peak where it is one reading), in test order. */
export interface StripCycle {
  readonly cycle: number;
  readonly load: readonly StripRow[];
  readonly return: readonly StripRow[];
  /** Readings at the peak between the way out and the way back, in neither. */
  readonly held: readonly StripRow[];
}

/** The cycles of a strip. */
export interface StripCycles {
  readonly cycles: readonly StripCycle[];
  /** Whether they were told by reversals of the extension. */
  readonly counted: boolean;
  /** Readings on a way back before the first way out: of a cycle that the file does not hold. */
  readonly before: readonly StripRow[];
}

/**
 * Share of the whole range of extension that a strip must go back before that counts as a reversal: above the noise of
 * a grip's position, and far below what a cycle between two loads goes back. Common practice.
 */
export const REVERSAL_SHARE = 0.05;

/** Share of its way out that a strip must come back for the cycle to count as complete; the rest may be set. */
const COMPLETE_SHARE = 0.75;

/** Cuts the readings of one strip, in test order, into cycles of load and return. */
export function splitCycles(rows: readonly StripRow[]): StripCycles {
  const byCycle = new Map<number | null, StripRow[]>();
  for (const row of rows) {
    const same = byCycle.get(row.cycle);
    if (same === undefined) byCycle.set(row.cycle, [row]);
    else same.push(row);
  }
  const cycles: StripCycle[] = [];
  let before: readonly StripRow[] = [];
  let counted = false;
  for (const [cycle, same] of byCycle) {
    const hasBranches = same.some(({ branch }) => branch !== null);
    if (hasBranches) cycles.push(...byBranch(same, cycle));
    else if (cycle !== null) cycles.push({ cycle, ...splitAtPeak(same) });
    else {
      const found = byReversals(same);
      cycles.push(...found.cycles);
      before = found.before;
      counted = found.cycles.length > 1;
    }
  }
  return { cycles: cycles.sort((a, b) => a.cycle - b.cycle), counted, before };
}

/** Whether a strip went out and came back far enough. */
export function isComplete(cycle: StripCycle): boolean {
  if (cycle.load.length < 2 || cycle.return.length < 2) return false;
  const start = leastOf(cycle.load);
  const peak = greatestOf(cycle.load);
  return greatestOf(cycle.return) - leastOf(cycle.return) >= COMPLETE_SHARE * (peak - start);
}

const leastOf = (rows: readonly StripRow[]): number =>
  rows.reduce((least, { extension }) => Math.min(least, extension), Infinity);
const greatestOf = (rows: readonly StripRow[]): number =>
  rows.reduce((most, { extension }) => Math.max(most, extension), -Infinity);

/** Cycles of rows that name their branch: without a number, a way out after a way back starts the next. */
function byBranch(rows: readonly StripRow[], cycle: number | null): StripCycle[] {
  const cycles: { cycle: number; load: StripRow[]; return: StripRow[]; held: StripRow[] }[] = [];
  let last: Branch = 'return';
  for (const row of rows) {
    const branch: Branch = row.branch ?? last;
    if (cycles.length === 0 || (cycle === null && last === 'return' && branch === 'load'))
      cycles.push({ cycle: cycle ?? cycles.length + 1, load: [], return: [], held: [] });
    cycles.at(-1)![branch].push(row);
    last = branch;
  }
  return cycles;
}

type Halves = Pick<StripCycle, 'load' | 'return' | 'held'>;

/** Out to the first reading of the greatest extension, back from the last one. */
function splitAtPeak(rows: readonly StripRow[]): Halves {
  const peak = greatestOf(rows);
  const first = rows.findIndex(({ extension }) => extension === peak);
  const last = rows.findLastIndex(({ extension }) => extension === peak);
  const out = rows.slice(0, first + 1);
  const back = rows.slice(last);
  return {
    load: out.length > 1 || back.length < 2 ? out : [],
    return: back.length > 1 ? back : [],
    held: rows.slice(first + 1, last),
  };
}

/** Cycles of a plain time series; the lowest reading between two cycles belongs to both. */
function byReversals(rows: readonly StripRow[]): Pick<StripCycles, 'cycles' | 'before'> {
  const troughs = findTroughs(rows);
  const first = troughs[0]!;
  const cycles = troughs.slice(0, -1).map((from, i): StripCycle => {
    const halves = splitAtPeak(rows.slice(from, troughs[i + 1]! + 1));
    return { cycle: i + 1, ...halves };
  });
  return { cycles, before: rows.slice(0, first) };
}

/**
 * Where the extension turns from falling to rising, the start and the end of the series among them: an extreme counts
 * once the extension has gone back from it by {@link REVERSAL_SHARE} of the range.
 */
function findTroughs(rows: readonly StripRow[]): number[] {
  const threshold = REVERSAL_SHARE * (greatestOf(rows) - leastOf(rows));
  const at = (i: number): number => rows[i]!.extension;
  const troughs: number[] = [];
  let rising: boolean | null = null;
  let low = 0;
  let high = 0;
  for (let i = 0; i < rows.length; i++) {
    // The last of equal lowest readings: a wait between cycles belongs to the way back.
    if (at(i) <= at(low)) low = i;
    if (at(i) > at(high)) high = i;
    if (rising !== true && at(i) - at(low) > threshold) {
      troughs.push(rising === null ? 0 : low);
      rising = true;
      high = i;
    } else if (rising !== false && at(high) - at(i) > threshold) {
      rising = false;
      low = i;
    }
  }
  if (troughs.length === 0) return [0, rows.length - 1];
  return [...troughs, rows.length - 1];
}
