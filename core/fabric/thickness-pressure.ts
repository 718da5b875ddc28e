import type { Finding } from '../fault/finding.ts';
import { kPaFromPascals } from '../units/units.ts';
import type { BenchReadings, ThicknessStandard } from './bench-readings.ts';

/**
 * Pressures under the gauge's foot that the standards know, Pa: ISO 5084 1 or 0.1 kPa; ASTM D1777 4.14 kPa (0.60 psi) for
 * most wovens and knits, 0.7 kPa for pile and blankets.
 *
 * @see ISO 5084:1996 (from memory); ASTM D1777 (from a public digest).
 */
export const FOOT_PRESSURES: Readonly<Record<ThicknessStandard, readonly number[]>> = {
  'ISO 5084': [1000, 100],
  'ASTM D1777': [4140, 700],
};

/** Pressures closer than this share are the same. */
const SAME_SHARE = 0.05;

/** A finding where the stated standard does not know the stated pressure. */
export function checkFootPressure({ pressure, standard }: BenchReadings['thickness']): Finding[] {
  if (standard === null) return [];
  const known = FOOT_PRESSURES[standard];
  if (known.some((other) => Math.abs(pressure / other - 1) <= SAME_SHARE)) return [];
  return [
    {
      code: 'bench/thickness-pressure',
      facts: { standard, pressureKPa: kPaFromPascals(pressure), known: known.map(kPaFromPascals) },
    },
  ];
}
