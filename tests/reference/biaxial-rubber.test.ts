/** Source: Kawabata, Matsuda, Tei & Kawai, Macromolecules 14 (1981) 154; rows in core/proof/data/kawabata-1981.ts. */
import { describe, expect, it } from 'vitest';

import type {
  BenchReadings,
  ForceReading,
  StripReadings,
  WidthReading,
} from '../../core/fabric/bench-readings.ts';
import { createTensionResponse, evaluateTension } from '../../core/fabric/evaluate-tension.ts';
import { fabricFromReadings } from '../../core/fabric/fabric-from-readings.ts';
import type { TensionLaw } from '../../core/fabric/tension-law.ts';
import { missOfBiaxialRubber } from '../../core/proof/biaxial-rubber.ts';
import { kawabata1981 } from '../../core/proof/data/kawabata-1981.ts';
import { gaussian, randomFrom } from '../help/random.ts';

it('misses the 52 biaxial rows to 1.3 by no more than the first study of the law did, plus a fifth', () => {
  const miss = missOfBiaxialRubber(1.3);
  expect(miss.count).toBe(52);
  expect(miss.along).toBeLessThan(1.2 * 0.016);
  expect(miss.across).toBeLessThan(1.2 * 0.055);
});

/** 1 MPa on a sheet of 1 mm is 1000 N/m; strips 50 mm wide. */
const TENSION_PER_MPA = 1000;
const WIDTH = 0.05;
const simple = kawabata1981
  .filter(({ stressAcross }) => stressAcross === 0)
  .map(({ along, across, stressAlong }) => ({
    extension: along - 1,
    force: stressAlong * TENSION_PER_MPA * WIDTH,
    width: across * WIDTH,
  }));

/** The rubber as a bench would hand it in: the same strip every way, since it is the same every way. */
function rubberReadings(strip: () => StripReadings): BenchReadings {
  return {
    name: 'rubber',
    lot: '',
    date: '1981-01-01',
    invented: false,
    note: null,
    greatestStretch: null,
    weighed: { length: 0.2, width: 0.05, masses: { together: [0.009] } },
    thickness: { values: [1e-3], pressure: 1000, standard: null },
    stretched: {
      test: 'strip',
      cycle: null,
      gauge: 0.1,
      width: WIDTH,
      circumference: null,
      strips: { warp: strip(), weft: strip(), bias: strip() },
      heldWidth: null,
    },
    bending: { kind: 'cantilever', angle: 0.7243, overhang: { warp: [0.02], weft: [0.02], bias: [0.02] } },
  };
}

/** Root mean square of the relative miss of the biaxial rows to 1.3. */
function missOf(law: TensionLaw): { along: number; across: number } {
  const response = createTensionResponse();
  const misses = kawabata1981
    .filter(({ along, stressAcross }) => along <= 1.3 && stressAcross > 0)
    .map((row) => {
      evaluateTension(law, Float64Array.of(row.along, 0, 0, 0, row.across, 0), false, response);
      return {
        along: response.stress[0]! / (TENSION_PER_MPA * row.stressAlong) - 1,
        across: response.stress[4]! / (TENSION_PER_MPA * row.stressAcross) - 1,
      };
    });
  const rms = (part: 'along' | 'across'): number =>
    Math.sqrt(misses.reduce((sum, miss) => sum + miss[part] ** 2, 0) / misses.length);
  return { along: rms('along'), across: rms('across') };
}

const exact = (): StripReadings => ({
  load: [simple.map(({ extension, force }) => ({ extension, force }))],
  return: null,
  width: [simple.map(({ extension, width }) => ({ extension, width }))],
});

it('goes the bench’s whole way within the gates too: 5 % along, 8 % across', () => {
  const miss = missOf(fabricFromReadings(rubberReadings(exact)).laws.load);
  expect(miss.along).toBeLessThan(0.05);
  expect(miss.across).toBeLessThan(0.08);
});

it('with one held-width reading: 2.0 % along, 3.2 % across, plus a fifth', () => {
  const readings = rubberReadings(exact);
  const row = kawabata1981.find(({ along, across }) => along === 1.2 && across === 1)!;
  const force = row.stressAlong * TENSION_PER_MPA * WIDTH;
  const fabric = fabricFromReadings({
    ...readings,
    stretched: {
      ...readings.stretched,
      heldWidth: { direction: 'warp', load: [[{ extension: 0.2, force }]] },
    },
  });
  expect(fabric.band?.from).toBe('held width');
  const miss = missOf(fabric.laws.load);
  expect(miss.along).toBeLessThan(1.2 * 0.02);
  expect(miss.across).toBeLessThan(1.2 * 0.032);
});

describe('with readings as a bench gives them', () => {
  /** Seven extensions, force good to 2 %, width to 1 %, three strips a direction. */
  const AT = [0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4];
  const curve = [{ extension: 0, force: 0, width: WIDTH }, ...simple];
  const between = (at: number, key: 'force' | 'width'): number => {
    const next = curve.findIndex(({ extension }) => extension >= at - 1e-9);
    const [a, b] = [curve[next - 1]!, curve[next]!];
    return a[key] + ((at - a.extension) / (b.extension - a.extension)) * (b[key] - a[key]);
  };

  it('the 95th percentile of 60 benches stays within 6 % along (seed 1981)', () => {
    const random = randomFrom(1981);
    const noisy = (share: number): number => 1 + share * gaussian(random);
    const strip = (): StripReadings => ({
      load: [0, 1, 2].map(() =>
        AT.map((extension): ForceReading => ({
          extension,
          force: between(extension, 'force') * noisy(0.02),
        })),
      ),
      return: null,
      width: [0, 1, 2].map(() =>
        AT.map((extension): WidthReading => ({
          extension,
          width: between(extension, 'width') * noisy(0.01),
        })),
      ),
    });
    const misses = Array.from(
      { length: 60 },
      () => missOf(fabricFromReadings(rubberReadings(strip)).laws.load).along,
    ).sort((a, b) => a - b);
    expect(misses[Math.floor(0.95 * 60)]).toBeLessThan(0.06);
  });
});
