import { describe, expect, it } from 'vitest';
import { bandPressure } from '../../../core/equilibrium/band-pressure.ts';
import { patternOf } from '../../../core/equilibrium/block-matrix.ts';
import { elasticForce } from '../../../core/equilibrium/elastic-force.ts';
import { forceCurve, readForce } from '../../../core/garment/force-curve.ts';
import type { SewnElastic } from '../../../core/garment/garment.ts';
import { onRing, proofTube } from '../../../core/proof/proof-tube.ts';
import { cylinderBody } from '../../../core/proof/smooth-bodies.ts';
import {
  expectPositive,
  expectRigidMotionFree,
  expectSlopeOfEnergy,
  missOfStiffness,
} from '../../help/check-force.ts';
import { seededRandom } from '../../help/shapes.ts';

const CURVE = [
  [0.1, 0.5],
  [0.3, 1.2],
  [0.6, 3],
] as const;

describe('the curve of an elastic', () => {
  const curve = forceCurve(CURVE);
  const read = (extension: number) => {
    const reading = { force: 0, slope: 0, area: 0 };
    readForce(curve, extension, reading);
    return reading;
  };

  it('goes through its readings and from nothing', () => {
    expect(read(0).force).toBe(0);
    for (const [extension, force] of CURVE) expect(read(extension).force).toBeCloseTo(force, 12);
  });

  it('goes on straight beyond the last reading', () => {
    const { slope } = read(0.6);
    expect(read(0.9).force).toBeCloseTo(3 + 0.3 * slope, 12);
    expect(read(0.9).slope).toBe(slope);
  });

  it('pushes next to nothing below its relaxed length', () => {
    expect(read(-0.5).force).toBeLessThanOrEqual(0);
    expect(Math.abs(read(-0.5).force)).toBeLessThan(1e-3 * CURVE[0][1]);
  });

  it.each([-0.2, 0.05, 0.1, 0.2, 0.45, 0.6, 0.8])('has its own area and slope at %f', (extension) => {
    const step = 1e-6;
    const above = read(extension + step);
    const below = read(extension - step);
    expect((above.area - below.area) / (2 * step)).toBeCloseTo(read(extension).force, 6);
    expect((above.force - below.force) / (2 * step)).toBeCloseTo(read(extension).slope, 4);
  });

  it('of readings on a line encloses a triangle: S e^2 / 2', () => {
    const straight = forceCurve([
      [0.2, 2],
      [0.5, 5],
    ]);
    const reading = { force: 0, slope: 0, area: 0 };
    readForce(straight, 0.4, reading);
    expect(reading.area).toBeCloseTo((10 * 0.4 ** 2) / 2, 12);
  });
});

/** One ring of a ruffled tube under elastic, part of it slack. */
function ruffledRing(slack: boolean) {
  const level = proofTube({
    rowCount: 2,
    columnCount: 10,
    halvings: 0,
    place: (around, along) => onRing(0.1, 0.05 * along, around),
    relaxed: { girth: 0.5, length: 0.05 },
  })[0]!;
  const random = seededRandom(5);
  const positions = level.mesh.positions.map((x) => x + 0.01 * (random() - 0.5));
  const segments = Uint32Array.from({ length: 20 }, (_, i) => (i % 2 === 0 ? i / 2 : ((i + 1) / 2) % 10));
  const elastic: SewnElastic = {
    segments,
    restLength: new Float64Array(10).map((_, s) => (slack && s % 3 === 0 ? 0.09 : 0.045)),
    share: new Float64Array(10).fill(0.7),
    width: 0.01,
    curve: CURVE,
  };
  const pattern = patternOf(level.mesh.triangles, positions.length / 3);
  return { level: { ...level, elastics: [elastic] }, elastic, positions, pattern };
}

describe.each([false, true])('sewn elastic, some of it slack: %s', (slack) => {
  const { elastic, positions, pattern } = ruffledRing(slack);
  const force = elasticForce(elastic);

  it('pulls as its energy falls', () => {
    expectSlopeOfEnergy(force, positions);
  });

  it('has the second derivatives of its energy', () => {
    expect(missOfStiffness(force, positions, { pattern })).toBeLessThan(1e-6);
  });

  it('resists every way where nothing negative is wanted', () => {
    expectPositive(force, positions, pattern);
  });

  it('cares for no carrying and turning', () => {
    expectRigidMotionFree(force, positions);
  });
});

it('carries its share of the force and no more: a segment at a reading', () => {
  const elastic: SewnElastic = {
    segments: Uint32Array.from([0, 1]),
    restLength: Float64Array.from([0.1]),
    share: Float64Array.from([0.25]),
    width: 0.01,
    curve: CURVE,
  };
  const gradient = new Float64Array(6);
  elasticForce(elastic).addGradient(Float64Array.from([0, 0, 0, 0.13, 0, 0]), gradient);
  expect(gradient[3]).toBeCloseTo(0.25 * 1.2, 12);
  expect(gradient[0]).toBeCloseTo(-0.25 * 1.2, 12);
});

describe('the pressure under a band', () => {
  const { level } = ruffledRing(false);
  const { positions } = level.mesh;

  it('is F / (w R) on a ring, whatever share of a vertex the band covers', () => {
    const { pressure, cover, spread } = bandPressure(level, positions, cylinderBody(0.1));
    const chord = 2 * 0.1 * Math.sin(Math.PI / 10);
    const reading = { force: 0, slope: 0, area: 0 };
    readForce(forceCurve(CURVE), chord / 0.045 - 1, reading);
    // A polygon of n sides presses 2 F sin(pi/n) on each corner and has a side of 2 R sin(pi/n) to press on.
    for (let v = 0; v < 10; v++) {
      expect(pressure[v]).toBeCloseTo(reading.force / (0.01 * 0.1), 6);
      expect(spread[v]! / pressure[v]!).toBeCloseTo(cover[v]!, 9);
      expect(cover[v]).toBeGreaterThan(0);
      expect(cover[v]).toBeLessThan(1);
    }
  });

  it('is nothing where there is no band', () => {
    const { pressure, cover } = bandPressure(level, positions, cylinderBody(0.1));
    expect(pressure.subarray(10).every((value) => value === 0)).toBe(true);
    expect(cover.subarray(10).every((value) => value === 0)).toBe(true);
  });
});
