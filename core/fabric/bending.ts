import { Fault } from '../fault/fault.ts';
import { mmFromMetres, radiansFromDegrees, STANDARD_GRAVITY } from '../units/units.ts';
import type { BenchReadings } from './bench-readings.ts';
import type { Direction } from './fabric.ts';
import { heartLoopBendingLength, loopHeights } from './heart-loop.ts';
import { elasticaAtChord } from './heavy-elastica.ts';
import { mean } from './mean-of-repeats.ts';

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
 * Bending length in the three directions, from the mean of the repeats.
 *
 * @returns m.
 * @throws {Fault} `bench/overhang-too-long` where a strip hangs over by more than its length, `bench/loop-height` where
 * a heart loop is longer or shorter than any strip of its length can hang.
 */
export function bendingLengths(readings: BenchReadings): Record<Direction, number> {
  const { bending, weighed } = readings;
  const length = (direction: Direction): number => {
    if (bending.kind === 'heartLoop') {
      return loopBendingLength(direction, bending.stripLength, bending.height[direction]);
    }
    const overhangs = bending.overhang[direction];
    const longest = Math.max(...overhangs);
    if (longest > weighed.length) {
      throw new Fault('bench/overhang-too-long', {
        direction,
        overhangMm: mmFromMetres(longest),
        lengthMm: mmFromMetres(weighed.length),
      });
    }
    return bendingLength(mean(overhangs), bending.angle);
  };
  return { warp: length('warp'), weft: length('weft'), bias: length('bias') };
}

function loopBendingLength(direction: Direction, stripLength: number, heights: readonly number[]): number {
  const { least, most } = loopHeights(stripLength);
  const odd = heights.find((height) => height <= least || height >= most);
  if (odd !== undefined) {
    throw new Fault('bench/loop-height', {
      direction,
      heightMm: mmFromMetres(odd),
      leastMm: mmFromMetres(least),
      mostMm: mmFromMetres(most),
    });
  }
  return heartLoopBendingLength(stripLength, mean(heights));
}

/** Bending rigidity in the three directions, N*m. */
export function bendStrips(readings: BenchReadings, arealDensity: number): Record<Direction, number> {
  const lengths = bendingLengths(readings);
  return {
    warp: bendingRigidity(arealDensity, lengths.warp),
    weft: bendingRigidity(arealDensity, lengths.weft),
    bias: bendingRigidity(arealDensity, lengths.bias),
  };
}
