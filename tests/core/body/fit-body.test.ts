/**
 * Source: what was asked (girths, at their own levels, read by slicing the mesh as a tape lies, ISO 8559-1:2017 from
 * memory) and closed forms of topology (Euler's 2 for a closed surface without handles). Sizes are invented.
 */
import { describe, expect, it } from 'vitest';
import type { Body } from '../../../core/body/body.ts';
import { FOUNDATION_MODULUS, makeFitBody } from '../../../core/body/fit-body.ts';
import type { FitMeasures } from '../../../core/body/fit-measures.ts';
import { tapeGirth } from '../../../core/body/tape-girth.ts';
import { Fault } from '../../../core/fault/fault.ts';
import { sectionAt } from '../../../core/mesh/section.ts';
import { sayFault } from '../../../core/words/say.ts';

const sizes: Record<string, FitMeasures> = {
  middle: { stature: 1.68, bust: 0.88, underbust: 0.75, waist: 0.72, hip: 0.97 },
  /** Thighs so close that one vertex per cell is not enough. */
  small: { stature: 1.6, bust: 0.84, underbust: 0.694, waist: 0.64, hip: 0.9 },
  large: { stature: 1.76, bust: 1.1, underbust: 0.962, waist: 0.92, hip: 1.16 },
  /** Chest and hip against a waist that is hardly smaller. */
  straight: { stature: 1.64, bust: 0.96, underbust: 0.878, waist: 0.92, hip: 1 },
  male: { stature: 1.78, bust: 1, underbust: 0.9, waist: 0.86, hip: 1, figure: 'male' },
};
const bodies = Object.fromEntries(Object.entries(sizes).map(([name, size]) => [name, makeFitBody(size)]));

/** Girth of the loop round the body's middle (or the left leg, where there is none there), m. */
const meshGirth = (body: Body, level: number, x: number): number => {
  const loops = sectionAt(body.skin, level);
  const nearest = loops.toSorted(
    (one, other) => Math.abs(one.centroid[0] - x) - Math.abs(other.centroid[0] - x),
  )[0]!;
  return tapeGirth(nearest);
};

const directedEdges = ({ skin: { triangles } }: Body): Map<string, number> => {
  const edges = new Map<string, number>();
  for (let t = 0; t < triangles.length; t += 3) {
    for (let k = 0; k < 3; k++) {
      const key = `${triangles[t + k]} ${triangles[t + ((k + 1) % 3)]}`;
      edges.set(key, (edges.get(key) ?? 0) + 1);
    }
  }
  return edges;
};

/** Distance from a point to the nearest vertex of the skin, m. */
const distanceToSkin = ({ skin: { positions } }: Body, point: readonly number[]): number => {
  let least = Infinity;
  for (let p = 0; p < positions.length; p += 3)
    least = Math.min(least, Math.hypot(...[0, 1, 2].map((k) => positions[p + k]! - point[k]!)));
  return least;
};

describe.each(Object.entries(sizes))('the %s fit body', (name, size) => {
  const body = bodies[name]!;
  const { positions, triangles } = body.skin;
  const vertexCount = positions.length / 3;

  it('is watertight, without handles, every edge between two triangles that agree on the outside', () => {
    const edges = directedEdges(body);
    const unmatched = [...edges].filter(([key, count]) => {
      return count !== 1 || edges.get(key.split(' ').toReversed().join(' ')) !== 1;
    });
    expect(unmatched).toEqual([]);
    expect(vertexCount - edges.size / 2 + triangles.length / 3).toBe(2);
  });

  it('encloses a plausible volume, outside outward', () => {
    let volume = 0;
    for (let t = 0; t < triangles.length; t += 3) {
      const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
      volume +=
        (positions[a]! * (positions[b + 1]! * positions[c + 2]! - positions[b + 2]! * positions[c + 1]!) +
          positions[a + 1]! * (positions[b + 2]! * positions[c]! - positions[b]! * positions[c + 2]!) +
          positions[a + 2]! * (positions[b]! * positions[c + 1]! - positions[b + 1]! * positions[c]!)) /
        6;
    }
    // A body is about as dense as water; without head, hands and feet it holds roughly 85-90 % of its mass (common
    // knowledge), and a body-mass index between 14 and 40 covers these sizes.
    const index = (volume * 1000) / 0.87 / size.stature ** 2;
    expect(index).toBeGreaterThan(14);
    expect(index).toBeLessThan(40);
  });

  it('is its own mirror image to the bit', () => {
    const points = new Set<string>();
    for (let p = 0; p < positions.length; p += 3)
      points.add(`${positions[p]! + 0},${positions[p + 1]},${positions[p + 2]}`);
    let alone = 0;
    for (let p = 0; p < positions.length; p += 3)
      if (!points.has(`${0 - positions[p]!},${positions[p + 1]},${positions[p + 2]}`)) alone++;
    expect(alone).toBe(0);
  });

  it('measures what was asked, read on the mesh', () => {
    const asked = Object.entries({
      bust: size.bust,
      underbust: size.underbust,
      waist: size.waist,
      hip: size.hip,
    });
    for (const [girth, metres] of asked) {
      if (size.figure === 'male' && girth === 'underbust') continue;
      const shown = size.figure === 'male' && girth === 'bust' ? 'chest' : girth;
      const { level } = body.girths.find((each) => each.name === shown)!;
      // 2 mm is what the body promises.
      expect(Math.abs(meshGirth(body, level, 0) - metres), girth).toBeLessThan(0.002);
    }
  });

  it('lists the girths that its mesh has', () => {
    for (const { name: girth, level, girth: metres } of body.girths) {
      const onLeg = ['thigh', 'midThigh', 'knee', 'calf', 'ankle'].includes(girth);
      expect(Math.abs(meshGirth(body, level, onLeg ? 0.1 : 0) - metres), girth).toBeLessThan(0.001);
    }
  });

  it('has its largest trunk girth below the waist within 2 mm of the hip', () => {
    const hip = body.girths.find((each) => each.name === 'hip')!;
    for (let level = hip.level - 0.06; level < hip.level + 0.06; level += 0.01)
      expect(meshGirth(body, level, 0)).toBeLessThan(size.hip + 0.002);
  });

  it('carries tissue of 4 to 72 mm, the deepest in the tables, and the stiffness that follows', () => {
    expect(body.tissueDepth.length).toBe(vertexCount);
    expect(Math.min(...body.tissueDepth)).toBeGreaterThanOrEqual(0.004);
    expect(Math.max(...body.tissueDepth)).toBeLessThanOrEqual(0.072);
    const off = body.foundation.map((stiffness, v) =>
      Math.abs(stiffness * body.tissueDepth[v]! - FOUNDATION_MODULUS),
    );
    expect(Math.max(...off)).toBeLessThan(1e-9);
  });

  it('knows its landmarks: on the skin, in order, in pairs', () => {
    const { landmarks } = body;
    // No vertex is farther than a grid cell's half diagonal (about 7 mm) from a point of the skin.
    for (const name of [
      'crotch',
      'waistFront',
      'waistBack',
      'hipSideLeft',
      'seatPointRight',
      'kneeLeft',
    ] as const)
      expect(distanceToSkin(body, landmarks[name]!.point), name).toBeLessThan(0.007);
    expect(landmarks.ankleLeft!.point[1]).toBeLessThan(landmarks.kneeLeft!.point[1]);
    expect(landmarks.kneeLeft!.point[1]).toBeLessThan(landmarks.crotch!.point[1]);
    expect(landmarks.crotch!.point[1]).toBeLessThan(landmarks.seatPointLeft!.point[1]);
    expect(landmarks.waistFront!.point[1]).toBeLessThan(landmarks.shoulderLeft!.point[1]);
    expect(landmarks.waistFront!.point[0]).toBe(0);
    expect(landmarks.waistSideRight!.point[0]).toBe(-landmarks.waistSideLeft!.point[0]);
  });

  it('splits in two just below the crotch', () => {
    const [, y] = body.landmarks.crotch!.point;
    expect(sectionAt(body.skin, y - 0.004).filter(({ area }) => area > 0.01).length).toBe(2);
    expect(sectionAt(body.skin, y + 0.004).filter(({ area }) => area > 0.01).length).toBe(1);
  });
});

describe('the fit body', () => {
  it('comes out the same, bit for bit, when it is made again', () => {
    const again = makeFitBody(sizes['middle']!);
    const first = bodies['middle']!;
    expect(again.skin.positions).toEqual(first.skin.positions);
    expect(again.skin.triangles).toEqual(first.skin.triangles);
    expect(again.tissueDepth).toEqual(first.tissueDepth);
  });

  it('has a contact field that is zero on the skin with slope 1, the arms left out', () => {
    const body = bodies['middle']!;
    const field = body.contactField({ low: [-0.2, 0.84, -0.2], high: [0.2, 1.05, 0.2] });
    const into = new Float64Array(10);
    const { positions } = body.skin;
    let checked = 0;
    let farthest = 0;
    let steepest = 0;
    for (let p = 0; p < positions.length; p += 3) {
      const [x, y, z] = [positions[p]!, positions[p + 1]!, positions[p + 2]!];
      if (Math.abs(x) > 0.2 || y < 0.84 || y > 1.05) continue;
      field.sample(x, y, z, into);
      farthest = Math.max(farthest, Math.abs(into[0]!));
      steepest = Math.max(steepest, Math.abs(Math.hypot(into[1]!, into[2]!, into[3]!) - 1));
      checked++;
    }
    // A spline of 6 mm cells keeps a radius R to h^4/36R^3 (5 um at 20 mm); F/|grad F| by differences costs more.
    expect(farthest).toBeLessThan(2e-4);
    expect(steepest).toBeLessThan(0.05);
    expect(checked).toBeGreaterThan(3000);
    field.sample(0.2, 0.9, 0.2, into);
    expect(into[0]).toBeGreaterThan(0.03);
  });

  it('takes girths it is given beyond the five, and says which it estimated', () => {
    const body = makeFitBody({ ...sizes['middle']!, thigh: 0.6, calf: 0.39 }, { spacing: 0.012 });
    const girthOf = (name: string): number => body.girths.find((girth) => girth.name === name)!.girth;
    expect(girthOf('thigh')).toBeCloseTo(0.6, 3);
    expect(girthOf('calf')).toBeCloseTo(0.39, 3);
    const finding = body.findings.find(({ code }) => code === 'fit/girths-estimated')!;
    expect(finding.facts).toEqual({
      girths: 'neck, topHip, midThigh, knee, ankle, upperArm, elbow, wrist',
    });
  });

  it('spreads its legs by the asked angle', () => {
    const spread = makeFitBody(sizes['middle']!, { legSpread: (8 * Math.PI) / 180, spacing: 0.012 });
    const straight = bodies['middle']!;
    const outward = (from: 'knee' | 'calf'): number =>
      spread.landmarks[`${from}Left`]!.point[0] - straight.landmarks[`${from}Left`]!.point[0];
    // From knee to calf, 128 mm of height, the axis leans by tan 8 degrees.
    expect(outward('calf') - outward('knee')).toBeCloseTo(0.128 * Math.tan((8 * Math.PI) / 180), 3);
  });

  it.each([
    ['a height in cm', { stature: 168 }, 'fit/measure-out-of-range'],
    ['a half waist', { waist: 0.36 }, 'fit/measure-out-of-range'],
    ['no number', { hip: NaN }, 'fit/measure-out-of-range'],
    ['a bust below its under-bust', { bust: 0.74 }, 'fit/bust-against-underbust'],
  ])('refuses %s and says why', (_, change, code) => {
    let fault: unknown = null;
    try {
      makeFitBody({ ...sizes['middle']!, ...change });
    } catch (error) {
      fault = error;
    }
    expect(fault).toBeInstanceOf(Fault);
    if (!(fault instanceof Fault)) return;
    expect(fault.code).toBe(code);
    expect(sayFault(fault).what.length).toBeGreaterThan(20);
  });
});

describe('a figure whose arms lie in the way of the tape', () => {
  it('says so, with what the tape reads', () => {
    const short: FitMeasures = {
      figure: 'male',
      stature: 1.5,
      bust: 1.2,
      underbust: 1.1,
      waist: 1.1,
      hip: 1.15,
    };
    const differs = makeFitBody(short).findings.filter(({ code }) => code === 'fit/tape-differs');
    expect(differs.map(({ facts }) => facts)).toEqual([expect.objectContaining({ measure: 'chest' })]);
  });

  it('is not what an ordinary figure is', () => {
    const ordinary = { stature: 1.68, bust: 0.92, underbust: 0.79, waist: 0.76, hip: 1.01 };
    expect(makeFitBody(ordinary).findings.some(({ code }) => code === 'fit/tape-differs')).toBe(false);
  });
});
