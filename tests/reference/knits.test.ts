/** Source: Singal et al. 2023, "Programming mechanics in knitted materials, stitch by stitch"; see data/knit-uniaxial-2023.source.txt. */
import { readFileSync } from 'node:fs';

import { describe, expect, it } from 'vitest';

import { assembleLaw } from '../../core/fabric/assemble-law.ts';
import { secantAt } from '../../core/fabric/axis-curve.ts';
import { bandFactors, STRUCTURAL_SHARE } from '../../core/fabric/coupling-band.ts';
import { reciprocalCoupling } from '../../core/fabric/coupling.ts';
import { createTensionResponse, evaluateTension } from '../../core/fabric/evaluate-tension.ts';
import { unstableShare } from '../../core/fabric/stability.ts';
import { forceCurve } from '../../core/fabric/strip-curves.ts';
import type { TensionLaw } from '../../core/fabric/tension-law.ts';
import { pullStrips, STRIP_ANGLE } from '../../core/fabric/virtual-strip.ts';
import { widthCurve } from '../../core/fabric/width-curve.ts';

interface Reading {
  readonly sample: string;
  readonly clampWidth: number;
  readonly force: number;
  readonly stretch: number;
  readonly width: number;
}

const table = readFileSync(new URL('./data/knit-uniaxial-2023.csv', import.meta.url), 'utf8');
const readings: Reading[] = table
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split(','))
  .map((cells) => ({
    sample: cells[0]!,
    clampWidth: Number(cells[1]),
    force: Number(cells[2]),
    stretch: Number(cells[4]),
    width: Number(cells[5]),
  }))
  .filter(({ stretch }) => !Number.isNaN(stretch));

/** Samples come in pairs, along courses and along wales: ..._X and ..._Y, or ...x and ...y. */
const pairs = [...new Set(readings.map(({ sample }) => sample.slice(0, -1)))];

function stripOf(pair: string, direction: 'warp' | 'weft', withWidth = true) {
  const ending = direction === 'warp' ? 'x' : 'y';
  const rows = readings
    .filter(({ sample }) => sample.slice(0, -1) === pair && sample.at(-1)!.toLowerCase() === ending)
    .sort((a, b) => a.stretch - b.stretch);
  const strip = { direction, width: rows[0]!.clampWidth };
  const force = forceCurve({
    ...strip,
    branch: 'load',
    readings: rows.map((row) => ({ extension: row.stretch - 1, force: row.force })),
  });
  const width = widthCurve({
    ...strip,
    measuredTo: force.measuredTo,
    readings: withWidth
      ? rows.map((row) => ({ extension: row.stretch - 1, width: row.width * row.clampWidth }))
      : null,
  });
  return { rows, curve: { ...force, narrowing: width.narrowing } };
}

/** No bias strip was pulled: shear stiffness set to a quarter of the mean of both directions, an assumption. */
function lawOf(pair: string, widths = { warp: true, weft: true }, factor = 1) {
  const warp = stripOf(pair, 'warp', widths.warp);
  const weft = stripOf(pair, 'weft', widths.weft);
  const coupling = factor * reciprocalCoupling(warp.curve, weft.curve, 0.1).coupling;
  const shear = Math.sqrt(secantAt(warp.curve, 0.1).stiffness * secantAt(weft.curve, 0.1).stiffness) / 4;
  const law = assembleLaw({
    warp: warp.curve,
    weft: weft.curve,
    coupling,
    shear: (angle) => shear * angle,
  });
  return { law, warp, weft };
}

it('holds 24 samples in 12 pairs', () => {
  expect(pairs).toHaveLength(12);
  expect(new Set(readings.map(({ sample }) => sample)).size).toBe(24);
});

describe.each(pairs)('%s', (pair) => {
  const { law, warp, weft } = lawOf(pair);

  it.each(['warp', 'weft'] as const)(
    '%s: each force comes back within 0.02 in stretch ratio',
    (direction) => {
      const { rows } = direction === 'warp' ? warp : weft;
      const below = pullStrips(
        law,
        STRIP_ANGLE[direction],
        rows.map(({ stretch }) => Math.max(1, stretch - 0.02)),
      );
      const above = pullStrips(
        law,
        STRIP_ANGLE[direction],
        rows.map(({ stretch }) => stretch + 0.02),
      );
      for (const [i, { force, clampWidth }] of rows.entries()) {
        expect(below[i]!.tension).toBeLessThan(force / clampWidth);
        expect(above[i]!.tension).toBeGreaterThan(force / clampWidth);
      }
    },
  );

  it.each(['warp', 'weft'] as const)(
    '%s: each width comes back within 0.03 of the start width',
    (direction) => {
      const { rows } = direction === 'warp' ? warp : weft;
      const pulled = pullStrips(
        law,
        STRIP_ANGLE[direction],
        rows.map(({ stretch }) => stretch),
      );
      // Two cotton strips read wider again when pulled further, by up to 0.08: no falling curve passes such readings
      // closer than half the rise. They are held to the limit at which a bench sheet would be refused.
      const widens = rows.some(({ width }, i) => i > 0 && width > rows[i - 1]!.width + 0.01);
      for (const [i, { width }] of rows.entries()) {
        expect(Math.abs(pulled[i]!.width - Math.min(width, 1))).toBeLessThan(widens ? 0.06 : 0.03);
      }
    },
  );

  it('is stable under tension in 99 % of the measured range', () => {
    expect(unstableShare(law)).toBeLessThan(0.01);
  });
});

/** Tensions of a panel of held width, along and across, N/m. */
function heldPanel(law: TensionLaw, along: 'warp' | 'weft', stretch: number) {
  const response = createTensionResponse();
  const f = along === 'warp' ? [stretch, 0, 0, 0, 1, 0] : [1, 0, 0, 0, stretch, 0];
  evaluateTension(law, Float64Array.from(f), false, response);
  const [warp, weft] = [response.stress[0]!, response.stress[4]!];
  return along === 'warp' ? { along: warp, across: weft } : { along: weft, across: warp };
}

/** The value that a share of all lie below. */
const at = (values: number[], share: number): number =>
  values.toSorted((a, b) => a - b)[Math.floor(share * values.length)]!;

describe('where a width is assumed instead of read', () => {
  const factors = bandFactors({ from: 'assumed width', disagreement: 1, lateStart: false });
  const states = (widths: { warp: boolean; weft: boolean }) =>
    pairs.flatMap((pair) => {
      const read = lawOf(pair).law;
      const [low, shown, high] = [factors.low, 1, factors.high].map(
        (factor) => lawOf(pair, widths, factor).law,
      );
      return (['warp', 'weft'] as const).flatMap((along) =>
        [1.1, 1.2, 1.3]
          .filter((stretch) => stretch <= read.measuredTo[along])
          .map((stretch) => ({
            read: heldPanel(read, along, stretch),
            low: heldPanel(low!, along, stretch),
            shown: heldPanel(shown!, along, stretch),
            high: heldPanel(high!, along, stretch),
          })),
      );
    });

  it.each([
    ['both', { warp: false, weft: false }, 64],
    ['warp', { warp: false, weft: true }, 68],
    ['weft', { warp: true, weft: false }, 59],
  ] as const)('%s: the crosswise tension lies in the band', (_name, widths, least) => {
    const all = states(widths);
    expect(all).toHaveLength(68);
    const inside = all.filter(({ read, low, shown, high }) => {
      const form = STRUCTURAL_SHARE * Math.max(shown.along, shown.across);
      return read.across >= low.across - form && read.across <= high.across + form;
    });
    expect(inside.length).toBeGreaterThanOrEqual(least);
  });

  it('misses by what the finding says: along -23 to +4 %, across -47 to +13 % of along (5 to 95 %)', () => {
    const all = states({ warp: false, weft: false });
    const along = all.map(({ read, shown }) => shown.along / read.along - 1);
    const across = all.map(({ read, shown }) => (shown.across - read.across) / read.along);
    expect(at(along, 0.05)).toBeCloseTo(-0.23, 2);
    expect(at(along, 0.95)).toBeCloseTo(0.04, 2);
    expect(at(across, 0.05)).toBeCloseTo(-0.47, 2);
    expect(at(across, 0.95)).toBeCloseTo(0.13, 2);
  });
});
