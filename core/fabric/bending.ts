import { Fault } from '../fault/fault.ts';
import { mmFromMetres, radiansFromDegrees, STANDARD_GRAVITY } from '../units/units.ts';
import type { BenchReadings } from './bench-readings.ts';
import type { Direction } from './fabric.ts';
import { elasticaAtChord } from './heavy-elastica.ts';

/** The slope of the standard cantilever tester, at which the bending length is half the overhang. */
const STANDARD_SLOPE = radiansFromDegrees(41.5);

/**
 * Bending length c of a strip that touches a slope: half the overhang at 41.5 degrees (the standards), else from the
 * exact heavy elastica, c / L = (w L^3 / B)^(-1/3). At 41.5 degrees the exact value is 0.4999 L.
 *
 * @param overhang - m.
 * @param slope - Below the horizontal, rad.
 * @returns m.
 * @see ASTM D1388 option A; ISO 9073-7:1995; BS 3356:1990.
 */
export function bendingLength(overhang: number, slope: number): number {
  if (Math.abs(slope - STANDARD_SLOPE) < 1e-6) return overhang / 2;
  return overhang / Math.cbrt(elasticaAtChord(slope).load);
}

/**
 * Peirce's closed form for c / l; above the exact elastica by 1 % of G at 20 degrees, 14 % at 60. Kept for comparison.
 *
 * c / l = (cos(t/2) / (8 tan t))^(1/3).
 *
 * @param slope - t, rad.
 * @see Peirce, J. Text. Inst. 21 (1930) T377.
 */
export function peirceFactor(slope: number): number {
  return Math.cbrt(Math.cos(slope / 2) / (8 * Math.tan(slope)));
}

/**
 * Bending rigidity per unit width, G = M g c^3.
 *
 * @param arealDensity - M, kg/m^2.
 * @param length - c, m.
 * @returns N*m.
 * @see Peirce, J. Text. Inst. 21 (1930) T377; ISO 9073-7:1995.
 */
export function bendingRigidity(arealDensity: number, length: number): number {
  return arealDensity * STANDARD_GRAVITY * length ** 3;
}

/**
 * Bending rigidity in the three directions.
 *
 * @throws {Fault} `bench/overhang-too-long` where a strip hangs over by more than its length.
 */
export function bendStrips(readings: BenchReadings, arealDensity: number): Record<Direction, number> {
  const { angle, overhang } = readings.bending;
  const rigidity = (direction: Direction): number => {
    if (overhang[direction] > readings.weighed.length) {
      throw new Fault('bench/overhang-too-long', {
        direction,
        overhangMm: mmFromMetres(overhang[direction]),
        lengthMm: mmFromMetres(readings.weighed.length),
      });
    }
    return bendingRigidity(arealDensity, bendingLength(overhang[direction], angle));
  };
  return { warp: rigidity('warp'), weft: rigidity('weft'), bias: rigidity('bias') };
}
