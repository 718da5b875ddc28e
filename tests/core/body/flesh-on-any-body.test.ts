import { describe, expect, it } from 'vitest';
import { BODY_PARTS, BODY_REGIONS, type BodyRegion } from '../../../core/body/body-regions.ts';
import { makeFitBody } from '../../../core/body/fit-body.ts';
import type { LandmarkName } from '../../../core/body/landmarks.ts';
import { makeMeshBody } from '../../../core/body/mesh-body.ts';
import { bonyPoints } from '../../../core/body/tissue-bony.ts';
import { correctedFlesh, strokeWeight } from '../../../core/body/tissue-correct.ts';
import { sourceFilled, TISSUE_SOURCES, tissueMapOf } from '../../../core/body/tissue-map.ts';
import { REGION_MODULI } from '../../../core/body/tissue-moduli.ts';
import type { Triple } from '../../../core/mesh/triple.ts';
import { sphere } from '../../help/shapes.ts';

const own = makeFitBody(
  { stature: 1.68, bust: 0.88, underbust: 0.75, waist: 0.72, hip: 0.97 },
  { spacing: 0.01 },
);
const full = makeFitBody(
  { stature: 1.76, bust: 1.1, underbust: 0.95, waist: 0.92, hip: 1.16 },
  { spacing: 0.01 },
);
const imported = makeMeshBody({ skin: own.skin, sourceUp: 'y', tissue: 'transferred' });

const nearest = (body: typeof own, point: Readonly<Triple>): number => {
  const { positions } = body.skin;
  const distance = (v: number): number =>
    Math.hypot(...point.map((value, k) => positions[3 * v + k]! - value));
  let best = 0;
  for (let v = 1; v < positions.length / 3; v++) if (distance(v) < distance(best)) best = v;
  return best;
};

/** Root mean square of the difference over that of the depth itself, in a region or everywhere. */
function miss(got: Float64Array, wanted: Float64Array, isIn: (v: number) => boolean = () => true): number {
  let [squares, whole] = [0, 0];
  for (let v = 0; v < got.length; v++) {
    if (!isIn(v)) continue;
    squares += (got[v]! - wanted[v]!) ** 2;
    whole += wanted[v]! ** 2;
  }
  return Math.sqrt(squares / whole);
}

describe('regions', () => {
  const at: readonly (readonly [LandmarkName, BodyRegion, (typeof BODY_PARTS)[number]])[] = [
    ['bustPointLeft', 'bust', 'trunk'],
    ['underbustBack', 'lumbar', 'trunk'],
    ['waistFront', 'belly', 'trunk'],
    ['waistBack', 'lumbar', 'trunk'],
    ['waistSideRight', 'side', 'trunk'],
    ['hipSideLeft', 'side', 'trunk'],
    ['seatPointRight', 'seat', 'trunk'],
    ['kneeLeft', 'knee', 'leftLeg'],
    ['calfRight', 'calf', 'rightLeg'],
    ['midThighRight', 'thigh', 'rightLeg'],
    ['ankleLeft', 'ankle', 'leftLeg'],
    ['neckFront', 'neck', 'trunk'],
  ];

  it.each([
    ['the fit body', own],
    ['a mesh', imported],
  ])('name the place of every landmark on %s', (_, body) => {
    const { part, region } = body.regions!;
    for (const [name, wantedRegion, wantedPart] of at) {
      const v = nearest(body, body.landmarks[name]!.point);
      // The tape below the bust lies on the border between upper and lower back.
      if (name !== 'underbustBack') expect(BODY_REGIONS[region[v]!], name).toBe(wantedRegion);
      expect(BODY_PARTS[part[v]!], name).toBe(wantedPart);
    }
    for (const name of ['upperArmLeft', 'elbowLeft'] as const) {
      const v = nearest(body, body.landmarks[name]!.point);
      expect(BODY_PARTS[part[v]!]).toBe('leftArm');
      expect(BODY_REGIONS[region[v]!]).toBe(name.replace('Left', ''));
    }
  });

  it('are the same on a mesh of the fit body as on the fit body, but for borders', () => {
    const { region } = imported.regions!;
    const same = region.reduce((sum, value, v) => sum + Number(value === own.regions!.region[v]), 0);
    expect(same / region.length).toBeGreaterThan(0.95);
  });

  it('are mirrored with the body', () => {
    const { positions } = own.skin;
    const { region, part } = own.regions!;
    const place = (x: number, v: number): string => `${x} ${positions[3 * v + 1]} ${positions[3 * v + 2]}`;
    const at = new Map(Array.from(region, (_, v) => [place(positions[3 * v]!, v), v]));
    for (let v = 0; v < region.length; v++) {
      if (positions[3 * v] === 0) continue;
      const other = at.get(place(-positions[3 * v]!, v))!;
      expect(region[other]).toBe(region[v]);
      const name = BODY_PARTS[part[v]!]!;
      const mirrored = name.startsWith('left')
        ? name.replace('left', 'right')
        : name.replace('right', 'left');
      expect(BODY_PARTS[part[other]!]).toBe(mirrored);
    }
  });
});

describe('flesh carried over from the fit body', () => {
  it('gives a fit body’s own depths back within 10 % of root mean square, in every region within 20 %', () => {
    expect(miss(imported.tissueDepth, own.tissueDepth)).toBeLessThan(0.1);
    const { region } = own.regions!;
    for (const name of [
      'belly',
      'lumbar',
      'side',
      'seat',
      'underSeat',
      'bust',
      'thigh',
      'knee',
      'calf',
    ] as const) {
      const index = BODY_REGIONS.indexOf(name);
      expect(
        miss(imported.tissueDepth, own.tissueDepth, (v) => region[v] === index),
        name,
      ).toBeLessThan(0.2);
    }
  });

  it('does so on another size: a form is made to its measures first', () => {
    const other = makeMeshBody({ skin: full.skin, sourceUp: 'y', tissue: 'transferred' });
    expect(miss(other.tissueDepth, full.tissueDepth)).toBeLessThan(0.1);
    expect(other.findings).toContainEqual({
      code: 'body/tissue-transferred',
      facts: { modulusKPa: 40, isToMeasure: true },
    });
  });

  it('says where it is from; a body that is no person is taken as rigid', () => {
    expect(imported.tissueSource).toEqual(sourceFilled('transferred', imported.tissueDepth.length));
    const ball = makeMeshBody({ skin: sphere(0.3, 0.03), sourceUp: 'y', tissue: 'transferred' });
    expect(ball.findings.map(({ code }) => code)).toContain('body/taken-as-rigid');
    expect(tissueMapOf(ball).region).toBe(null);
  });

  it('is thin over bone: kneecap, shin and elbow under half of the mean, the seat above it', () => {
    const points = bonyPoints(imported);
    const mean = imported.tissueDepth.reduce((sum, depth) => sum + depth, 0) / imported.tissueDepth.length;
    for (const place of ['kneecap', 'shin', 'elbow', 'ankleBones'] as const) {
      const found = points.filter((point) => point.place === place);
      expect(found.map(({ side }) => side).sort(), place).toEqual(['left', 'right']);
      for (const { depth } of found) expect(depth, place).toBeLessThan(0.5 * mean);
    }
    expect(points.filter(({ place }) => place === 'spine').every(({ depth }) => depth < mean)).toBe(true);
    const seat = nearest(imported, imported.landmarks.seatPointLeft!.point);
    expect(imported.tissueDepth[seat]!).toBeGreaterThan(1.5 * mean);
  });
});

describe('correctedFlesh', () => {
  const region = own.regions!.region;
  const isIn = (name: BodyRegion) => (v: number) => region[v] === BODY_REGIONS.indexOf(name);
  const meanOf = (values: Float64Array, name: BodyRegion): number => {
    const inside = values.filter((_, v) => isIn(name)(v));
    return inside.reduce((sum, value) => sum + value, 0) / inside.length;
  };

  it('brings a region to the asked mean depth and modulus, keeps its pattern, leaves the rest', () => {
    const wish = { region: 'belly', depth: 0.03, modulus: 15e3 } as const;
    const { tissueDepth, foundation, tissueSource } = correctedFlesh(own, { regions: [wish], strokes: [] });
    expect(meanOf(tissueDepth, 'belly')).toBeCloseTo(0.03, 9);
    const ratios = tissueDepth
      .map((depth, v) => depth / own.tissueDepth[v]!)
      .filter((_, v) => isIn('belly')(v));
    expect(Math.max(...ratios) - Math.min(...ratios)).toBeLessThan(1e-12);
    const wrong = Array.from(tissueDepth, (depth, v) => {
      const source = TISSUE_SOURCES[tissueSource[v]!];
      if (!isIn('belly')(v)) return depth !== own.tissueDepth[v] || source !== 'recipe';
      return !(Math.abs(foundation[v]! * depth - 15e3) < 1e-6) || source !== 'region';
    });
    expect(wrong.filter(Boolean)).toEqual([]);
  });

  it('takes the moduli by region where wished, and only then', () => {
    const { foundation, tissueDepth } = correctedFlesh(own, { moduli: 'byRegion', regions: [], strokes: [] });
    const off = foundation.map((stiffness, v) =>
      Math.abs(stiffness * tissueDepth[v]! - REGION_MODULI[BODY_REGIONS[region[v]!]!]),
    );
    expect(Math.max(...off)).toBeLessThan(1e-6);
    const plain = correctedFlesh(own, { regions: [], strokes: [] });
    expect(plain.tissueDepth).toEqual(own.tissueDepth);
  });

  it('brushes round a point of one thigh: full in the middle, nothing from the radius on, nothing on the other thigh', () => {
    const center = own.landmarks.midThighLeft!.point;
    const stroke = { center, radius: 0.09, depth: 0.012, falloff: 0.5 };
    const { tissueDepth, tissueSource } = correctedFlesh(own, { regions: [], strokes: [stroke] });
    const { positions } = own.skin;
    const brushed = Array.from(tissueDepth.keys()).filter(
      (v) => TISSUE_SOURCES[tissueSource[v]!] === 'brush',
    );
    const wrong = Array.from(tissueDepth.keys()).filter((v) => {
      const distance = Math.hypot(...center.map((value, k) => positions[3 * v + k]! - value));
      const isReached = brushed.includes(v);
      if (isReached && !(positions[3 * v]! > 0 && distance < 0.09)) return true;
      const weight = isReached ? strokeWeight(distance / 0.09, 0.5) : 0;
      const expected = own.tissueDepth[v]! + weight * (0.012 - own.tissueDepth[v]!);
      return !(Math.abs(tissueDepth[v]! - expected) < 1e-12);
    });
    expect(wrong).toEqual([]);
    expect(brushed.length).toBeGreaterThan(30);
    expect(tissueDepth[nearest(own, center)]).toBeCloseTo(0.012, 6);
  });

  it('fades by a smooth step over the last share of the radius', () => {
    expect([0, 0.5, 0.75, 1, 2].map((at) => strokeWeight(at, 0.5))).toEqual([1, 1, 0.5, 0, 0]);
    expect([0, 0.999, 1].map((at) => strokeWeight(at, 0))).toEqual([1, 1, 0]);
  });
});
