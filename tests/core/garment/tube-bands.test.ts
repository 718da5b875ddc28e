import { describe, expect, it } from 'vitest';
import { NEAR_RIGID } from '../../../core/body/body.ts';
import { makeTube } from '../../../core/garment/make-tube.ts';
import { bandSpan, ringOverlaps } from '../../../core/garment/tube-bands.ts';
import type { TubeBand, TubeSheet } from '../../../core/garment/tube-sheet.ts';
import { faultOf } from '../../help/fault-of.ts';
import { cylinder } from '../../help/shapes.ts';
import { cylinderField, smoothBody } from '../../help/smooth-body.ts';

const RADIUS = 0.1;
const GIRTH = 2 * Math.PI * RADIUS;
const body = smoothBody(cylinder(RADIUS, 0.5, 0.01, { jitter: 0.3 }), cylinderField(RADIUS), NEAR_RIGID);

const sheetWith = (more: Partial<TubeSheet>): TubeSheet => ({
  region: 'whole',
  from: 0.1,
  to: 0.3,
  girths: [{ at: 0.2, relaxed: 0.5 }],
  relaxedLength: 0.19,
  warp: 'along',
  ...more,
});

const band: TubeBand = {
  at: 'lower',
  width: 0.02,
  relaxed: 0.42,
  curve: [
    [0.2, 1],
    [0.6, 2.4],
  ],
};

const lay = (bands: readonly TubeBand[]) => makeTube(sheetWith({ bands }), body, 0.008).garment;

describe('what rings stand for', () => {
  it('adds up to the stretch asked for, hems half', () => {
    const along = [0, 1, 2, 4, 5];
    expect([...ringOverlaps(along, [0, 5])]).toEqual([0.5, 1, 1.5, 1.5, 0.5]);
    expect([...ringOverlaps(along, [0, 0.8])].reduce((a, b) => a + b)).toBeCloseTo(0.8, 12);
    expect([...ringOverlaps(along, [1.2, 3.3])]).toEqual([
      0,
      expect.closeTo(0.3, 12),
      1.5,
      expect.closeTo(0.3, 12),
      0,
    ]);
  });
});

describe.each<[string, TubeBand['at'], readonly [number, number]]>([
  ['at the lower hem', 'lower', [0.1, 0.12]],
  ['at the upper hem', 'upper', [0.28, 0.3]],
  ['about a height', 0.17, [0.16, 0.18]],
])('a band %s', (_name, at, [from, to]) => {
  const { levels } = lay([{ ...band, at }]);

  it('lies on every level with its whole force', () => {
    for (const { mesh, elastics } of levels) {
      const { segments, share } = elastics![0]!;
      const first = segments[0]!;
      const columns =
        share.length / new Set([...segments].map((v) => mesh.positions[3 * v + 1]!.toFixed(6))).size;
      expect(Number.isInteger(columns)).toBe(true);
      expect(share.reduce((sum, one) => sum + one, 0) / columns).toBeCloseTo(1, 12);
      expect(first).toBeLessThan(mesh.positions.length / 3);
    }
  });

  it('lies within its width, half a row out at most', () => {
    const { mesh, elastics } = levels.at(-1)!;
    for (const v of elastics![0]!.segments) {
      expect(mesh.positions[3 * v + 1]!).toBeGreaterThan(from - 0.005);
      expect(mesh.positions[3 * v + 1]!).toBeLessThan(to + 0.005);
    }
  });

  it('is as long relaxed as the sheet says, on every ring', () => {
    const { elastics } = levels.at(-1)!;
    const { restLength, share, segments } = elastics![0]!;
    let rings = 0;
    for (let s = 0; s < share.length;) {
      let length = 0;
      const start = segments[2 * s]!;
      do length += restLength[s++]!;
      while (s < share.length && segments[2 * s - 1] !== start);
      expect(length).toBeCloseTo(0.42, 9);
      rings++;
    }
    expect(rings).toBeGreaterThanOrEqual(2);
  });
});

it('a band on the way along a slope is measured along the skin', () => {
  const rows = {
    at: Float64Array.from([0, 1, 2]),
    along: Float64Array.from([0, 2, 4]),
    laid: new Float64Array(3).fill(1),
    relaxed: new Float64Array(3).fill(1),
  };
  expect(bandSpan({ ...band, at: 1.5, width: 1 }, rows)).toEqual([2.5, 3.5]);
  expect(bandSpan({ ...band, at: 'upper', width: 1 }, rows)).toEqual([3, 4]);
});

const faultWith = (change: Partial<TubeBand>) => faultOf(() => lay([{ ...band, ...change }]));

describe('impossible bands', () => {
  it('are refused with the place', () => {
    expect(faultWith({ at: 0.299 })).toMatchObject({ code: 'garment/band-off-garment', facts: { index: 0 } });
    expect(faultWith({ width: 0.3 })).toMatchObject({ code: 'garment/band-off-garment' });
    expect(faultWith({ relaxed: 0.1 })).toMatchObject({ code: 'garment/band-too-small' });
    expect(faultWith({ curve: [] })).toMatchObject({ code: 'garment/band-curve-empty' });
    expect(faultWith({ curve: [[0, 0]] })).toMatchObject({ code: 'garment/band-curve-empty' });
    const falling = [
      [0.2, 1],
      [0.4, 0.9],
    ] as const;
    expect(faultWith({ curve: falling })).toMatchObject({
      code: 'garment/band-curve-not-rising',
      facts: { index: 0, row: 1, percent: 40, forceN: 0.9 },
    });
    expect(faultWith({ curve: [[0.2, 0]] })).toMatchObject({ code: 'garment/band-curve-not-rising' });
  });

  it('that hold nothing or go too far are told', () => {
    expect(lay([{ ...band, relaxed: 0.55 }]).findings.map(({ code }) => code)).toEqual([
      'garment/band-loose',
    ]);
    // The ring is a polygon of 80 sides, a quarter of a thousandth shorter than the circle.
    expect(lay([{ ...band, relaxed: 0.3 }]).findings).toEqual([
      {
        code: 'garment/band-beyond-readings',
        facts: { index: 0, stretchPercent: expect.closeTo(100 * (GIRTH / 0.3 - 1), 0), lastPercent: 60 },
      },
    ]);
    expect(lay([{ ...band, curve: [[0, 0], ...band.curve] }]).findings).toEqual([]);
  });
});

describe('a lining', () => {
  it('covers its part of the cloth on every level, turned as asked', () => {
    const { levels } = makeTube(
      sheetWith({ linings: [{ fabric: 1, from: 0.13, to: 0.23, grain: Math.PI / 2 }] }),
      body,
      0.008,
    ).garment;
    for (const { linings, restArea, restInverse } of levels) {
      const [one] = linings!;
      const whole = restArea.reduce((sum, area) => sum + area, 0);
      const covered = one!.restArea.reduce((sum, area) => sum + area, 0);
      // Half the length of the tube, whatever the rows.
      expect(covered / whole).toBeCloseTo(0.5, 6);
      const t = one!.triangles[0]!;
      expect(one!.restInverse[0]).toBeCloseTo(restInverse[4 * t + 1]!, 9);
      expect(one!.fabric).toBe(1);
    }
  });

  it('off the garment is refused', () => {
    const fault = faultOf(() =>
      makeTube(sheetWith({ linings: [{ fabric: 1, from: 0.25, to: 0.2 }] }), body, 0.008),
    );
    expect(fault).toMatchObject({
      code: 'garment/lining-off-garment',
      facts: { index: 0, liningFromMm: 250 },
    });
  });
});
