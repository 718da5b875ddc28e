import { Fault } from '../fault/fault.ts';
import type { Finding } from '../fault/finding.ts';
import { percentFromRatio } from '../units/units.ts';
import type { ForceReading } from './bench-readings.ts';
import type { Direction } from './fabric.ts';
import { isDense, mean } from './mean-of-repeats.ts';

/** One direction's specimens on the way out. */
export interface PulledSpecimens {
  readonly direction: Direction;
  readonly branch: 'load';
  readonly specimens: readonly (readonly ForceReading[])[];
}

/** A machine's record is looked at in this many groups, each long enough to even out the load cell's noise. */
const GROUPS = 25;
/** Changes below this share of the peak force are no slip. */
const LEAST_SHARE = 0.03;
/** A peak below this is no force at all, N. */
const LEAST_PEAK = 1e-6;
/** A drop of more than this share of the force is refused. */
const DROP_TO_REFUSE = 0.1;
/** A plateau rises by less than this share of its surroundings, the step after it by more than that. */
const PLATEAU = 0.2;
const STEP = 1.8;
/** A lone step rises by this factor more than both its neighbours. */
const LONE_STEP = 3;

/**
 * Looks for strips that slipped in the grips: a sudden drop, a plateau and then a step, a lone step. Specimen by
 * specimen, since the mean of several hides what happened to one. A drop in a lone strip that was read by hand is left to
 * the repair of falling forces.
 *
 * @throws {Fault} `bench/grip-slip` where the force drops by more than a tenth.
 */
export function checkGrips({ direction, branch, specimens }: PulledSpecimens): Finding[] {
  return specimens.flatMap((specimen, i): Finding[] => {
    const readings = isDense(specimen) ? grouped(specimen) : specimen;
    const peak = Math.max(...readings.map(({ force }) => force));
    if (!(peak > LEAST_PEAK)) return [];
    const place = { direction, branch, specimen: i + 1 };
    const drop = isDense(specimen) || specimens.length > 1 ? dropIn(readings, peak) : null;
    if (drop !== null && drop.dropPercent > percentFromRatio(DROP_TO_REFUSE)) {
      throw new Fault('bench/grip-slip', { ...place, ...drop });
    }
    const at = drop?.extensionPercent ?? stepIn(readings, peak);
    return at === null ? [] : [{ code: 'bench/force-jumps', facts: { ...place, extensionPercent: at } }];
  });
}

function grouped(record: readonly ForceReading[]): ForceReading[] {
  return Array.from({ length: GROUPS }, (_, i) => {
    const group = record.slice(
      Math.round((i / GROUPS) * record.length),
      Math.round(((i + 1) / GROUPS) * record.length),
    );
    return {
      extension: mean(group.map(({ extension }) => extension)),
      force: mean(group.map(({ force }) => force)),
    };
  });
}

/** The deepest drop from the force two readings before, since a group may hold half of it. */
function dropIn(readings: readonly ForceReading[], peak: number) {
  let deepest: { extensionPercent: number; forceN: number; previousN: number; dropPercent: number } | null =
    null;
  for (const [i, { extension, force }] of readings.entries()) {
    if (i === 0) continue;
    const previousN = Math.max(readings[i - 1]!.force, readings[i - 2]?.force ?? 0);
    const dropPercent = percentFromRatio((previousN - force) / previousN);
    if (previousN <= LEAST_SHARE * peak) continue;
    if (previousN - force < LEAST_SHARE * peak || dropPercent <= (deepest?.dropPercent ?? 0)) continue;
    deepest = { extensionPercent: percentFromRatio(extension), forceN: force, previousN, dropPercent };
  }
  return deepest;
}

/** Extension in percent after a plateau and before its step, or before a lone step; null where there is none. */
function stepIn(readings: readonly ForceReading[], peak: number): number | null {
  const slopes = readings.slice(1).map(({ extension, force }, i) => {
    const before = readings[i]!;
    return (force - before.force) / Math.max(extension - before.extension, 1e-9);
  });
  for (let i = 1; i + 1 < slopes.length; i++) {
    const [before, here, after, beyond] = [slopes[i - 1]!, slopes[i]!, slopes[i + 1]!, slopes[i + 2]];
    const span = readings[i + 1]!.extension - readings[i]!.extension;
    if (before > 0 && after > 0 && here > LONE_STEP * Math.max(before, after)) {
      if ((here - Math.max(before, after)) * span > LEAST_SHARE * peak)
        return percentFromRatio(readings[i]!.extension);
    }
    if (beyond === undefined) continue;
    const around = (before + beyond) / 2;
    const isPlateau = here < PLATEAU * around && after > STEP * around;
    if (isPlateau && (around - here) * span > LEAST_SHARE * peak) {
      return percentFromRatio(readings[i + 1]!.extension);
    }
  }
  return null;
}
