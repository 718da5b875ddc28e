import type { ForceReading } from './bench-readings.ts';

/**
 * Power loss by energy: (W_load - W_return) / W_load, areas under the readings by trapezoid from no extension to the
 * peak. Not the same number as {@link lossByForce}: say which one is shown.
 *
 * @param load - Rising in extension, first reading at 0.
 * @param back - The way back, rising in extension, from 0 to the peak.
 * @returns Ratio.
 * @see ISO 20932-1 (hysteresis loop); arithmetic.
 */
export function lossByEnergy(load: readonly ForceReading[], back: readonly ForceReading[]): number {
  const peak = back.at(-1)?.extension ?? 0;
  const taken = areaTo(load, peak);
  return (taken - areaTo(back, peak)) / taken;
}

/** Power loss by force at one extension: (F_load - F_return) / F_load. Ratio. */
export function lossByForce(
  load: readonly ForceReading[],
  back: readonly ForceReading[],
  extension: number,
): number {
  const taken = forceAt(load, extension);
  return (taken - forceAt(back, extension)) / taken;
}

/** Force between readings by straight line; from 0 N at no extension, held beyond the last. */
export function forceAt(readings: readonly ForceReading[], extension: number): number {
  let before: ForceReading = { extension: 0, force: 0 };
  for (const reading of readings) {
    if (reading.extension >= extension) {
      const span = reading.extension - before.extension;
      if (span === 0) return reading.force;
      return before.force + ((extension - before.extension) / span) * (reading.force - before.force);
    }
    before = reading;
  }
  return before.force;
}

/** Area under the readings up to an extension. */
export function areaTo(readings: readonly ForceReading[], extension: number): number {
  let area = 0;
  let before: ForceReading = { extension: 0, force: 0 };
  for (const reading of readings) {
    if (reading.extension >= extension) break;
    area += ((reading.extension - before.extension) * (reading.force + before.force)) / 2;
    before = reading;
  }
  const end = forceAt(readings, extension);
  return area + ((extension - before.extension) * (end + before.force)) / 2;
}
