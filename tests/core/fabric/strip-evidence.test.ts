/** Source: the sheets' own readings; power loss by hand arithmetic (trapezoid) on them. */
import { describe, expect, it } from 'vitest';

import { readBenchSheet } from '../../../core/io/read-bench-sheet.ts';
import { demoSheet, demoSheetText } from '../../help/demo-sheet.ts';

const tern = readBenchSheet(demoSheetText('tern-210'));
const siskin = readBenchSheet(demoSheetText('siskin-160'));

/** Area under a list of readings by trapezoid, N percent. */
const area = (list: number[][]): number =>
  list
    .toSorted((a, b) => a[0]! - b[0]!)
    .reduce(
      (sum, [at, f], i, all) => (i === 0 ? 0 : sum + ((at! - all[i - 1]![0]!) * (f! + all[i - 1]![1]!)) / 2),
      0,
    );

describe('what the bench said, beside what the law gives back', () => {
  it.each(['warp', 'weft', 'bias'] as const)(
    '%s: readings per metre of width, fitted to the gates',
    (direction) => {
      const { load } = tern.strips![direction];
      const sheet = demoSheet().stretch[direction].load;
      for (const [i, [percent, force]] of sheet.entries()) {
        expect(load.readings[i]!.extension).toBeCloseTo(percent! / 100, 12);
        expect(load.readings[i]!.tension).toBeCloseTo(force! / 0.05, 9);
        expect(load.readings[i]!.deviation).toBeNull();
      }
      const gate = direction === 'bias' ? 0.01 : 0.001;
      expect(load.rms).toBeLessThan(gate);
      expect(Math.abs(load.worst.miss)).toBeLessThan(gate);
      expect(load.fitted.extensions[0]).toBe(0);
      expect(load.fitted.extensions.at(-1)).toBeCloseTo(sheet.at(-1)![0]! / 100, 12);
      expect(load.fitted.tensions.at(-1)).toBeCloseTo(load.readings.at(-1)!.tension, 0);
    },
  );

  it('a strip of held width: read forces, and a fitted law that misses them by little', () => {
    const sheet = JSON.parse(demoSheetText('siskin-160')) as {
      stretch: {
        widthMm: number;
        circumferenceMm: number;
        heldWidth: { direction: string; load: number[][] | number[][][] };
      };
    };
    const { direction, load } = siskin.heldWidth!;
    const { widthMm, circumferenceMm, heldWidth } = sheet.stretch;
    expect(direction).toBe(heldWidth.direction);
    const specimens = (
      Array.isArray(heldWidth.load[0]![0]) ? heldWidth.load : [heldWidth.load]
    ) as number[][][];
    expect(load.specimens).toHaveLength(specimens.length);
    // ASTM D4964 (from memory): E = 2 L / C, T = F / (2 w).
    const [travel, force] = specimens[0]!.at(-1)!;
    const [extension, tension] = load.specimens[0]!.at(-1)!;
    expect(extension).toBeCloseTo((2 * travel!) / circumferenceMm, 9);
    expect(tension).toBeCloseTo(force! / (2 * widthMm * 1e-3), 6);
    // One number, the coupling, is fitted to all of them.
    expect(load.rms).toBeLessThan(0.03);
    const free = siskin.strips![direction].load;
    expect(load.fitted.tensions.at(-1)!).toBeGreaterThan(
      free.readings.find(({ extension: at }) => at >= extension - 1e-9)!.tension,
    );
    expect(tern.heldWidth).toBeNull();
  });

  it('knows which reading is missed most, and by how much', () => {
    const { readings, worst, rms } = tern.strips!.bias.return!;
    const most = Math.max(...readings.map(({ tension }) => tension));
    const misses = readings.map(({ fitted, tension }) => (fitted - tension) / most);
    expect(Math.abs(worst.miss)).toBeCloseTo(Math.max(...misses.map(Math.abs)), 12);
    expect(rms).toBeCloseTo(Math.sqrt(misses.reduce((sum, m) => sum + m * m, 0) / misses.length), 12);
  });

  it('reads the modulus off at 20, 40, 60 and 80 %, and says where nothing was read', () => {
    const { warp, bias } = tern.strips!;
    expect(warp.modulus.map(({ load }) => load)).toEqual(
      [3.06, 5.8, 8.69, 12.04].map((force) => expect.closeTo(force / 0.05, 1)),
    );
    expect(warp.modulus.map(({ beyondReadings }) => beyondReadings)).toEqual([false, false, false, false]);
    expect(bias.modulus.map(({ beyondReadings }) => beyondReadings)).toEqual([false, false, false, true]);
  });

  it('tells power loss by energy and by force apart', () => {
    const { loss } = tern.strips!.warp;
    const { load, return: back } = demoSheet().stretch.warp;
    expect(loss!.peak).toBeCloseTo(0.8, 12);
    expect(loss!.byEnergy).toBeCloseTo(1 - area(back!) / area(load), 9);
    expect(loss!.byForce.map(({ extension }) => extension)).toEqual([0.2, 0.4, 0.6]);
    expect(loss!.byForce[1]!.loss).toBeCloseTo(1 - 4.33 / 5.8, 9);
  });
});

describe('a loop test with repeats', () => {
  it('counts one leg of the loop: half the force over 75 mm, travel over half the circumference', () => {
    const { load } = siskin.strips!.warp;
    const sheet = JSON.parse(demoSheetText('siskin-160')) as {
      stretch: { warp: { load: number[][][] } };
    };
    const forces = sheet.stretch.warp.load.map((list) => list.find(([travel]) => travel === 25)![1]!);
    const mean = forces.reduce((sum, force) => sum + force, 0) / 3;
    // 25 mm of travel on a loop of 250 mm is 20 % (ASTM D4964, L = E C / 200).
    const reading = load.readings.find(({ extension }) => Math.abs(extension - 0.2) < 1e-9)!;
    expect(reading.tension).toBeCloseTo(mean / 2 / 0.075, 9);
    expect(reading.deviation).toBeGreaterThan(0);
    expect(load.specimens).toHaveLength(3);
  });

  it('keeps the widths of every specimen and says that they were read', () => {
    const { width } = siskin.strips!.weft;
    expect(width.assumed).toBe(false);
    expect(width.specimens).toHaveLength(3);
    expect(width.readings[0]).toMatchObject({ extension: 0, ratio: 1 });
    expect(width.rms).toBeLessThan(0.005);
  });

  it('weighs three strips together, and bends by the heart loop', () => {
    expect(siskin.arealDensity).toBeCloseTo((6.01 + 5.98 + 6.03) / 3 / (3 * 0.25 * 0.05) / 1000, 9);
    // Stretch tricot: 1 to 10 uN.m (Kawabata 1980; Saville, from memory).
    for (const rigidity of Object.values(siskin.bendingRigidity)) {
      expect(rigidity).toBeGreaterThan(1e-6);
      expect(rigidity).toBeLessThan(1e-5);
    }
  });
});

it('marks a width that was assumed', () => {
  const sheet = demoSheet();
  delete sheet.stretch.weft.width;
  const { strips } = readBenchSheet(JSON.stringify(sheet));
  expect(strips!.weft.width).toMatchObject({ assumed: true, readings: [], rms: null });
  expect(strips!.warp.width.assumed).toBe(false);
});
