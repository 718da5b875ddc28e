/**
 * Source: what was asked, read on the finished mesh (distances between pieces of a level section, depth below the convex
 * hull of one, leaning of the arm's axis); closed form of the bell that relief is made of.
 */
import { describe, expect, it } from 'vitest';
import type { Body } from '../../../core/body/body.ts';
import { makeFitBody } from '../../../core/body/fit-body.ts';
import type { FitMeasures } from '../../../core/body/fit-measures.ts';
import { FIT_PARAMETERS, fitParameter } from '../../../core/body/fit-parameters.ts';
import { reliefOf } from '../../../core/body/fit-relief.ts';
import type { FitShape } from '../../../core/body/fit-shape.ts';
import { fitFromValues, valuesFromFit } from '../../../core/body/fit-values.ts';
import { sectionAt } from '../../../core/mesh/section.ts';
import { faultOf } from '../../help/fault-of.ts';
import { girthOfSkin, skinFaults } from '../../help/skin-checks.ts';

const female: FitMeasures = { stature: 1.68, bust: 0.92, underbust: 0.79, waist: 0.76, hip: 1.01 };
const male: FitMeasures = {
  figure: 'male',
  stature: 1.78,
  bust: 1,
  underbust: 0.9,
  waist: 0.86,
  hip: 1,
};
const degrees = (angle: number): number => (angle * Math.PI) / 180;
const made = (shape: FitShape, measures = female): Body => makeFitBody(measures, shape);
const plain = made({});
const touching = made({ thighGap: 0 });

/** x, z of a level section's points, largest piece first. */
const pointsAt = ({ skin }: Body, level: number, piece = 0): (readonly [number, number])[] => {
  const { points } = sectionAt(skin, level)[piece]!;
  return Array.from({ length: points.length / 2 }, (_, i) => [points[2 * i]!, points[2 * i + 1]!]);
};

/** Narrowest distance between the two legs anywhere between two heights, m. */
const gapBetween = (body: Body, low: number, high: number): number => {
  let least = Infinity;
  for (let level = low; level <= high; level += 0.01) {
    const near = [0, 1].map((piece) => Math.min(...pointsAt(body, level, piece).map(([x]) => Math.abs(x))));
    least = Math.min(least, near[0]! + near[1]!);
  }
  return least;
};

/** How far the middle of the back lies in front of the level's rearmost points, m. */
const hollowAt = (body: Body, level: number): number => {
  const points = pointsAt(body, level);
  const middle = points.filter(([x, z]) => Math.abs(x) < 0.004 && z < 0).map(([, z]) => z);
  return Math.min(...middle) - Math.min(...points.map(([, z]) => z));
};

describe('thighs', () => {
  it.each([
    [0.01, 0.01],
    [0.04, 0.04],
    // A hair's breadth apart where they touch: each keeps a skin of its own.
    [0, 0.0015],
  ])('asked to be %f m apart are %f m apart at the narrowest', (thighGap, gap) => {
    const body = thighGap === 0 ? touching : made({ thighGap });
    // The leg's outlines are drawn 60 mm apart: what the spline does between them is good to about a millimetre.
    expect(Math.abs(gapBetween(body, 0.6, 0.72) - gap)).toBeLessThan(0.0012);
  });

  it('that touch lie flat on one another and keep a sound skin and their girths', () => {
    const { sharpest, ...faults } = skinFaults(touching.skin);
    expect(faults).toEqual({ unmatchedSides: 0, euler: 2, crossingPairs: 0, unmirrored: 0 });
    expect(sharpest).toBeLessThan(45);
    const flat = pointsAt(touching, 0.68).filter(([x]) => Math.abs(x) < 0.0012);
    const depths = flat.map(([, z]) => z);
    expect(Math.max(...depths) - Math.min(...depths)).toBeGreaterThan(0.02);
    for (const { name, level, girth } of plain.girths.filter((each) => each.name.endsWith('high'))) {
      expect(Math.abs(girthOfSkin(touching.skin, level, 0.1) - girth), name).toBeLessThan(0.001);
    }
  });

  it.each([
    ['touching', touching],
    ['apart', plain],
  ] as const)('%s lie on the zero of their contact field, right and left', (_, body) => {
    const field = body.contactField({ low: [-0.2, 0.6, -0.2], high: [0.2, 0.75, 0.2] });
    const into = new Float64Array(10);
    const { positions } = body.skin;
    let [farthest, checked, inward] = [0, 0, 0];
    for (let p = 0; p < positions.length; p += 3) {
      const [x, y, z] = [positions[p]!, positions[p + 1]!, positions[p + 2]!];
      if (y < 0.6 || y > 0.75) continue;
      field.sample(x, y, z, into);
      farthest = Math.max(farthest, Math.abs(into[0]!));
      // Inner thighs face the middle.
      if (Math.abs(x) < 0.002 && into[1]! * x > 0) inward++;
      checked++;
    }
    expect(checked).toBeGreaterThan(2000);
    // A grid of 6 mm cells; 0.3 mm is what is promised.
    expect(farthest).toBeLessThan(3e-4);
    expect(inward).toBe(0);
  });
});

describe('the back', () => {
  it.each([8, 15, 24])('has a seat cleft of %i mm at the hip', (deep) => {
    const level = plain.girths.find(({ name }) => name === 'hip')!.level;
    const body = deep === 15 ? plain : made({ seatCleft: deep / 1000 });
    expect(Math.abs(1000 * hollowAt(body, level) - deep)).toBeLessThan(1);
    expect(Math.abs(girthOfSkin(body.skin, level, 0) - female.hip)).toBeLessThan(0.001);
  });

  it.each([0, 3, 9])('has a furrow of %i mm at the waist', (deep) => {
    const level = plain.girths.find(({ name }) => name === 'waist')!.level;
    const body = deep === 3 ? plain : made({ lumbarFurrow: deep / 1000 });
    expect(Math.abs(1000 * hollowAt(body, level) - deep)).toBeLessThan(0.7);
  });
});

const front = (body: Body): number => Math.max(...pointsAt(body, 1.25).map(([, z]) => z));

describe('a held bust', () => {
  const held = made({ bustSupport: 1 });

  it('lies higher, has its girth, and is fuller above', () => {
    const [low, high] = [plain, held].map(({ landmarks }) => landmarks.bustPointLeft!.point);
    expect(high![1]).toBeGreaterThan(low![1] + 0.005);
    expect(high![0]).toBeLessThan(low![0]);
    const bust = held.girths.find(({ name }) => name === 'bust')!;
    expect(Math.abs(girthOfSkin(held.skin, bust.level, 0) - female.bust)).toBeLessThan(0.001);
    expect(front(held)).toBeGreaterThan(front(plain) + 0.003);
  });
});

describe('the smallest and the largest bust', () => {
  it.each([
    [0.035, 0],
    [0.27, 1],
  ])('%f m over the under-bust, held %i, are sound and within 1 mm', (difference, bustSupport) => {
    const bust = female.underbust + difference;
    const { skin, girths } = made({ bustSupport }, { ...female, bust });
    const { sharpest, ...faults } = skinFaults(skin);
    expect(faults).toEqual({ unmatchedSides: 0, euler: 2, crossingPairs: 0, unmirrored: 0 });
    expect(sharpest).toBeLessThan(45);
    for (const [name, asked] of [['bust', bust] as const, ['underbust', female.underbust] as const]) {
      const { level } = girths.find((each) => each.name === name)!;
      expect(Math.abs(girthOfSkin(skin, level, 0) - asked), name).toBeLessThan(0.001);
    }
  });
});

describe('stances', () => {
  it.each([
    [30, female],
    [50, male],
  ])('with arms %i degrees out and feet 8 degrees apart are sound', (arms, measures) => {
    const body = made({ armAbduction: degrees(arms), legSpread: degrees(8) }, measures);
    const { sharpest, ...faults } = skinFaults(body.skin);
    expect(faults).toEqual({ unmatchedSides: 0, euler: 2, crossingPairs: 0, unmirrored: 0 });
    expect(sharpest).toBeLessThan(45);
    const [shoulder, wrist] = [body.landmarks.shoulderLeft!.point, body.landmarks.wristLeft!.point];
    const lean = Math.atan2(wrist[0] - shoulder[0], shoulder[1] - wrist[1]);
    // The wrist lies 2 mm beside the axis of an arm of 540 mm.
    expect(Math.abs(lean - degrees(arms))).toBeLessThan(degrees(0.5));
  });
});

/** A cylinder of radius 100 about the vertical. */
const cylinder = (x: number, _: number, z: number): number => Math.hypot(x, z) - 100;

describe('relief', () => {
  it('of a stroke is its height in the middle, nothing at its ends and to its sides, and even', () => {
    const stroke = { from: [90, 450], to: [90, 550], wide: 30, high: 5 } as const;
    const relief = reliefOf([stroke], cylinder, { heightScale: 2, middleOf: () => 0 });
    expect(relief(100, 1000, 0)).toBeCloseTo(5, 3);
    // (1 - 1/4)^3 of it half way along, and half way across.
    expect(relief(100, 1050, 0)).toBeCloseTo(5 * 0.75 ** 3, 3);
    expect(relief(100, 1000, 15)).toBeCloseTo(5 * 0.75 ** 3, 3);
    expect(relief(100, 1100, 0)).toBe(0);
    expect(relief(100, 1000, 31)).toBe(0);
  });
});

describe('the record of parameters', () => {
  it('names each once, in order, with limits round its usual value', () => {
    const names = FIT_PARAMETERS.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    for (const { name, min, max, step, default: usual } of FIT_PARAMETERS) {
      expect(max - min, name).toBeGreaterThan(2 * step);
      if (usual !== null) expect(min <= usual && usual <= max, name).toBe(true);
    }
  });

  it('leads to SI and back', () => {
    const values = { stature: 1700, bust: 900, underbust: 770, waist: 740, hip: 990, thigh: 580 };
    const shape = { legSpread: 4, thighGap: 12, bustSupport: 0.5 };
    const fit = fitFromValues({ ...values, ...shape }, 'female');
    expect(fit.measures).toMatchObject({ stature: 1.7, thigh: 0.58, figure: 'female' });
    expect(fit.shape.legSpread).toBeCloseTo(degrees(4), 12);
    const back = valuesFromFit(fit.measures, fit.shape);
    for (const [name, value] of Object.entries({ ...values, ...shape })) {
      expect(Object.entries(back).find(([key]) => key === name)![1], name).toBeCloseTo(value, 9);
    }
  });

  it.each([
    ['legSpread', 8.1],
    ['armAbduction', 29],
    ['thighGap', -1],
    ['seatCleft', 25],
    ['bustSupport', 1.1],
    ['relief', NaN],
  ] as const)('is held to: %s of %f is refused with its limits', (name, value) => {
    const { shape } = fitFromValues(
      { stature: 1680, bust: 920, underbust: 790, waist: 760, hip: 1010, [name]: value },
      'female',
    );
    const fault = faultOf(() => makeFitBody(female, shape));
    const { min, max } = fitParameter(name);
    expect(fault.code).toBe('fit/shape-out-of-range');
    expect(fault.facts).toMatchObject({ parameter: name, lowest: min, highest: max });
  });
});
