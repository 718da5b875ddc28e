import { Fault } from '../fault/fault.ts';
import type { Finding } from '../fault/finding.ts';
import { percentFromRatio } from '../units/units.ts';
import type { ForceReading } from './bench-readings.ts';
import type { Direction } from './fabric.ts';
import { forceAt } from './hysteresis.ts';
import type { StripMeans } from './strip-means.ts';

const DIRECTIONS: readonly Direction[] = ['warp', 'weft', 'bias'];
/** A return force may stand this share above the load force: two pulls of one cloth differ by as much. */
const RETURN_ABOVE = 0.05;
/** The same for forces near 0, as a share of the peak: a load cell's noise. */
const NOISE_SHARE = 0.005;
/** A return that begins this share below the load force has lost its peak. */
const PEAK_MISSING = 0.1;

/** Holds the way back of every strip against its way out; nothing where a direction was not let back. */
export function checkReturns(strips: Readonly<Record<Direction, StripMeans>>): Finding[] {
  return DIRECTIONS.flatMap((direction) => {
    const { load, return: back } = strips[direction];
    if (back === null) return [];
    checkReturn(direction, load, back);
    return missingPeak(direction, load, back);
  });
}

/** Names the directions that were not let back, where others were; null where all or none were. */
export function missingReturns(strips: Readonly<Record<Direction, StripMeans>>): string | null {
  const missing = DIRECTIONS.filter((direction) => strips[direction].return === null);
  return missing.length === 0 || missing.length === DIRECTIONS.length ? null : missing.join(' and ');
}

/** A strip gives back no more than it took, and not from beyond where it was pulled. */
function checkReturn(
  direction: Direction,
  load: readonly ForceReading[],
  back: readonly ForceReading[],
): void {
  const last = load.at(-1)?.extension ?? 0;
  const noise = NOISE_SHARE * Math.max(...load.map(({ force }) => force));
  for (const { extension, force } of back) {
    if (extension > last + 1e-9) {
      throw new Fault('bench/return-beyond-load', {
        direction,
        extensionPercent: percentFromRatio(extension),
        loadPercent: percentFromRatio(last),
      });
    }
    const taken = forceAt(load, extension);
    if (extension > 0 && force > (1 + RETURN_ABOVE) * taken + noise) {
      throw new Fault('bench/return-above-load', {
        direction,
        extensionPercent: percentFromRatio(extension),
        returnN: force,
        loadN: taken,
      });
    }
  }
}

function missingPeak(
  direction: Direction,
  load: readonly ForceReading[],
  back: readonly ForceReading[],
): Finding[] {
  const peak = back.at(-1);
  if (peak === undefined) return [];
  const loadN = forceAt(load, peak.extension);
  if (peak.force >= (1 - PEAK_MISSING) * loadN) return [];
  return [
    {
      code: 'bench/return-without-peak',
      facts: {
        direction,
        extensionPercent: percentFromRatio(peak.extension),
        returnN: peak.force,
        loadN,
      },
    },
  ];
}
