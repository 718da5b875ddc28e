/** Source: arithmetic of samples (standard deviation with n - 1); closed curves with known noise. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { brokenLine } from '../../../core/fabric/broken-line.ts';
import { meanOfRepeats } from '../../../core/fabric/mean-of-repeats.ts';
import { rootOfRising } from '../../../core/fabric/root-of-rising.ts';
import { readBenchSheet } from '../../../core/io/read-bench-sheet.ts';
import type { LooseSheet } from '../../help/demo-sheet.ts';
import { demoSheet, demoSheetText } from '../../help/demo-sheet.ts';
import { gaussian, randomFrom } from '../../help/random.ts';

const points = (pairs: readonly (readonly [number, number])[]) =>
  pairs.map(([extension, value]) => ({ extension, value }));

describe('the mean of repeats', () => {
  it('is mean and standard deviation at common extensions', () => {
    const mean = meanOfRepeats(
      [
        points([
          [0.1, 1],
          [0.2, 2],
        ]),
        points([
          [0.1, 1.2],
          [0.2, 2],
        ]),
        points([
          [0.1, 1.4],
          [0.2, 2.6],
        ]),
      ],
      0,
    );
    expect(mean.map(({ value }) => value)).toEqual([1.2, 2.2].map((value) => expect.closeTo(value, 12)));
    // 0.2 by hand: deviations -0.2, 0, 0.2 over n - 1 = 2.
    expect(mean[0]!.deviation).toBeCloseTo(0.2, 12);
    expect(mean[1]!.deviation).toBeCloseTo(Math.sqrt(0.12), 12);
  });

  it('has no deviation for one specimen, and is that specimen', () => {
    expect(
      meanOfRepeats(
        [
          points([
            [0.1, 1],
            [0.3, 2],
          ]),
        ],
        0,
      ),
    ).toEqual([
      { extension: 0.1, value: 1, deviation: null },
      { extension: 0.3, value: 2, deviation: null },
    ]);
  });

  it('reads unlike grids off by straight line, up to where all reach', () => {
    const mean = meanOfRepeats(
      [
        points([
          [0.1, 1],
          [0.2, 2],
          [0.3, 3],
          [0.4, 4],
        ]),
        points([
          [0.15, 1.5],
          [0.35, 3.5],
        ]),
      ],
      0,
    );
    expect(mean.map(({ extension }) => extension)).toEqual([0.1, 0.2, 0.3, 0.35]);
    for (const { extension, value, deviation } of mean) {
      expect(value).toBeCloseTo(10 * extension, 12);
      expect(deviation).toBeCloseTo(0, 12);
    }
  });
});

describe('a machine’s record', () => {
  const knots = Array.from({ length: 41 }, (_, i) => 0.02 * i);

  it('of a parabola comes back at every knot, both ends included', () => {
    const record = Array.from({ length: 500 }, (_, i) => {
      const extension = (0.8 * i) / 499;
      return { extension, value: 3 * extension + 7 * extension ** 2 };
    });
    // 7 h^2 / 6 is how far a broken line lies off a parabola at its knots.
    for (const { extension, value } of brokenLine(record, knots))
      expect(Math.abs(value - (3 * extension + 7 * extension ** 2))).toBeLessThan((7 * 0.02 ** 2) / 4);
  });

  it('loses three quarters of the load cell’s noise (seed 5)', () => {
    const random = randomFrom(5);
    const record = Array.from({ length: 500 }, (_, i) => {
      const extension = (0.8 * i) / 499;
      return { extension, value: 10 * extension + gaussian(random) };
    });
    const misses = brokenLine(record, knots).map(({ extension, value }) => value - 10 * extension);
    const rms = Math.sqrt(misses.reduce((sum, miss) => sum + miss ** 2, 0) / misses.length);
    expect(rms).toBeLessThan(0.25);
  });
});

it('finds where a rising function passes 0, inside the bracket given or beyond it', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -3, max: 3, noNaN: true }),
      fc.double({ min: 0.1, max: 5, noNaN: true }),
      (root, steep) => {
        const rising = (at: number): number => Math.expm1(steep * (at - root)) + 0.01 * (at - root);
        expect(rootOfRising(rising, { low: -1, high: 1 }, 1e-10)).toBeCloseTo(root, 8);
      },
    ),
    { seed: 168, numRuns: 200 },
  );
});

/** Three machine records of 500 readings for every direction, out and back, with a load cell's noise in N. */
function machineSheet(noise: number): LooseSheet {
  const random = randomFrom(7);
  const sheet = demoSheet();
  for (const direction of ['warp', 'weft', 'bias'] as const) {
    const strip = sheet.stretch[direction];
    const record = (pairs: number[][], share: number): number[][] => {
      const rising = pairs.toSorted((a, b) => a[0]! - b[0]!);
      const last = rising.at(-1)![0]!;
      return Array.from({ length: 500 }, (_, i) => {
        const at = (last * i) / 499;
        const next = Math.max(
          1,
          rising.findIndex(([extension]) => extension! >= at),
        );
        const [a, b] = [rising[next - 1]!, rising[next]!];
        const force = a[1]! + (Math.max(at - a[0]!, 0) / (b[0]! - a[0]!)) * (b[1]! - a[1]!);
        return [at, share * force + noise * gaussian(random)];
      });
    };
    const shares = [0.98, 1, 1.02];
    const lone = { load: strip.load, return: strip.return! };
    strip.load = shares.map((share) => record(lone.load, share)) as unknown as number[][];
    strip.return = shares.map((share) => record(lone.return, share)) as unknown as number[][];
  }
  return sheet;
}

describe('three records of 500 readings a direction, out and back', () => {
  it.each([0.01, 0.03, 0.1])('with %d N of noise give the fabric that the bare readings give', (noise) => {
    const bare = readBenchSheet(demoSheetText('tern-210'));
    const fabric = readBenchSheet(JSON.stringify(machineSheet(noise)));
    // No fall, no repair, no slip where there is only noise.
    expect(new Set(fabric.findings.map(({ code }) => code))).toEqual(new Set(['bench/growth']));
    for (const direction of ['warp', 'weft', 'bias'] as const) {
      for (const [i, { load, return: back }] of fabric.strips![direction].modulus.entries()) {
        const expected = bare.strips![direction].modulus[i]!;
        if (expected.beyondReadings) continue;
        expect(Math.abs(load / expected.load - 1)).toBeLessThan(0.02);
        expect(Math.abs(back! / expected.return! - 1)).toBeLessThan(0.05);
      }
    }
  });
});
