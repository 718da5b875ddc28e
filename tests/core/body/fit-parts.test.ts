/** Source: closed forms (circle, ellipse, sphere, ellipsoid); topology of a single cell counted by hand. */
import { describe, expect, it } from 'vitest';
import { cellSheets } from '../../../core/body/fit-cells.ts';
import { makeLoft, type Outline } from '../../../core/body/fit-loft.ts';
import { eggDistance, smoothMax, smoothMin, smoothStep } from '../../../core/body/fit-masses.ts';
import { girthOfField } from '../../../core/body/fit-tape.ts';

const ellipse = (at: number, halfWidth: number, halfDepth: number): Outline => ({
  at,
  centreX: 0,
  centreZ: 0,
  lateral: halfWidth,
  medial: halfWidth,
  front: halfDepth,
  back: halfDepth,
  frontExponent: 2,
  backExponent: 2,
  bumps: [],
});

describe('a loft', () => {
  it('of equal circles is the exact distance to a cylinder outside its core', () => {
    const loft = makeLoft(
      [0, 10, 30].map((at) => ellipse(at, 50, 50)),
      { harmonics: 6, symmetric: false },
    );
    expect(loft.distance(80, 12, 0)).toBeCloseTo(30, 9);
    expect(loft.distance(30, 25, 30)).toBeCloseTo(Math.hypot(30, 30) - 50, 9);
  });

  it('of a cone is the distance along its slanted normal', () => {
    const loft = makeLoft(
      [0, 50, 100].map((at) => ellipse(at, 100 - 0.5 * at, 100 - 0.5 * at)),
      {
        harmonics: 4,
        symmetric: true,
      },
    );
    // r = 100 - y/2: the distance of (90, 40, 0) is (90 - 80) / sqrt(1 + 1/4).
    expect(loft.distance(90, 40, 0)).toBeCloseTo(10 / Math.sqrt(1.25), 9);
  });

  it('of ellipses has their perimeter as girth', () => {
    const loft = makeLoft(
      [0, 10, 30].map((at) => ellipse(at, 60, 45)),
      { harmonics: 10, symmetric: true },
    );
    const girth = girthOfField(loft.distance, { level: 15, centreX: 0, centreZ: 0 }, 144);
    // Ramanujan's second approximation, Modular equations and approximations to pi (1914), good to 1e-9 here.
    const h = ((60 - 45) / (60 + 45)) ** 2;
    const perimeter = Math.PI * (60 + 45) * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)));
    // The Fourier terms are damped on purpose: 0.1 mm is what that costs at this aspect.
    expect(Math.abs(girth - perimeter)).toBeLessThan(0.1);
  });

  it('has no kink on its axis', () => {
    const loft = makeLoft(
      [0, 10, 30].map((at) => ellipse(at, 80, 40)),
      { harmonics: 6, symmetric: true },
    );
    const slope = (loft.distance(0.01, 15, 0) - loft.distance(-0.01, 15, 0)) / 0.02;
    const kink = loft.distance(0.5, 15, 0) + loft.distance(-0.5, 15, 0) - 2 * loft.distance(0, 15, 0);
    expect(slope).toBeCloseTo(0, 6);
    // A cone point of slope 1 would give 1 here.
    expect(Math.abs(kink)).toBeLessThan(0.02);
  });
});

describe('soft joins', () => {
  it('touch only where the two distances are within k, and remove k/6 where they are equal', () => {
    expect(smoothMin(3, 9, 6)).toBe(3);
    expect(smoothMin(4, 4, 6)).toBeCloseTo(3, 14);
    expect(smoothMax(4, 4, 6)).toBeCloseTo(5, 14);
    expect(smoothMin(2, 5, 12)).toBe(smoothMin(5, 2, 12));
  });

  it('step smoothly', () => {
    expect(smoothStep(2, 4, 1)).toBe(0);
    expect(smoothStep(2, 4, 3)).toBeCloseTo(0.5, 14);
    expect(smoothStep(2, 4, 5)).toBe(1);
  });
});

describe('an egg', () => {
  const sphere = { centre: [1, 2, 3], across: 50, up: 50, down: 50, deep: 50, yaw: 20, pitch: 30 } as const;

  it('with equal radii is a sphere, however it is turned', () => {
    const distance = eggDistance(sphere);
    expect(distance(1 + 36, 2 + 48, 3)).toBeCloseTo(10, 9);
    expect(distance(1, 2, 3)).toBe(-50);
  });

  it('turns its front outward by yaw and up by pitch', () => {
    const distance = eggDistance({ ...sphere, centre: [0, 0, 0], deep: 80, yaw: 90, pitch: 0 });
    expect(distance(80, 0, 0)).toBeCloseTo(0, 9);
    const tilted = eggDistance({ ...sphere, centre: [0, 0, 0], deep: 80, yaw: 0, pitch: 30 });
    expect(tilted(0, 80 * Math.sin(Math.PI / 6), 80 * Math.cos(Math.PI / 6))).toBeCloseTo(0, 9);
  });
});

/** Pattern with just these corners inside. */
const pattern = (...corners: number[]): number => corners.reduce((bits, corner) => bits | (1 << corner), 0);

describe('sheets of a cell', () => {
  const { count, sheet } = cellSheets();

  it('are one for a corner, an edge, a face; two for corners across a face or the cell', () => {
    expect([0, 255].map((p) => count[p])).toEqual([0, 0]);
    expect(count[pattern(0)]).toBe(1);
    expect(count[pattern(0, 1)]).toBe(1);
    expect(count[pattern(0, 1, 2, 3)]).toBe(1);
    expect(count[pattern(0, 3)]).toBe(2);
    expect(count[pattern(0, 7)]).toBe(2);
    expect(count[pattern(0, 3, 5, 6)]).toBe(4);
  });

  it('cross at least three edges each, and only edges with one end inside', () => {
    for (let p = 0; p < 256; p++) {
      const edges = Array.from(sheet.subarray(12 * p, 12 * p + 12));
      for (let s = 0; s < count[p]!; s++) expect(edges.filter((of) => of === s).length).toBeGreaterThan(2);
      const crossed = edges.filter((of) => of >= 0).length;
      const mirroredCrossed = Array.from(sheet.subarray(12 * (255 - p), 12 * (255 - p) + 12)).filter(
        (of) => of >= 0,
      );
      expect(mirroredCrossed.length).toBe(crossed);
    }
  });
});
