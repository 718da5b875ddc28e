import { describe, expect, it } from 'vitest';
import { NEAR_RIGID } from '../../../core/body/body.ts';
import type { DistanceField } from '../../../core/body/distance-field.ts';
import { gridFromField } from '../../../core/body/grid-from-field.ts';
import { makeMeshBody } from '../../../core/body/mesh-body.ts';
import type { Finding } from '../../../core/fault/finding.ts';
import { pinchedFindings } from '../../../core/fields/pinched-cloth.ts';
import { clothPull } from '../../../core/fields/stretch-and-tension.ts';
import { clearOfBody } from '../../../core/garment/clear-of-body.ts';
import type { ClothLevel } from '../../../core/garment/garment.ts';
import type { TriangleMesh } from '../../../core/mesh/triangle-mesh.ts';
import { onRing, proofTube } from '../../../core/proof/proof-tube.ts';
import { linearLaw, settleTube, type SettledTube } from '../../../core/proof/settled-tube.ts';
import { cylinderBody } from '../../../core/proof/smooth-bodies.ts';
import { sayFinding } from '../../../core/words/say.ts';
import { tube } from '../../help/shapes.ts';

const RADIUS = 0.06;
const STIFFNESS = 250;
/** Relaxed girth over the leg's. */
const RATIO = 0.8;
const HEIGHT = 0.06;
const COLUMNS = 48;
/** Flesh that gives 1 mm under 1 kPa: 30 mm at a modulus of 30 kPa. */
const SOFT = 1e6;
const bar = cylinderBody(RADIUS);

/** How far each leg's axis lies from the middle. */
const halfWay = (gap: number): number => RADIUS + gap / 2;

/** Two legs as the nearer of both. */
const twoBars = (gap: number): DistanceField => {
  const [left, right] = [new Float64Array(10), new Float64Array(10)];
  return {
    sample: (x, y, z, into) => {
      bar.sample(x - halfWay(gap), y, z, left);
      bar.sample(x + halfWay(gap), y, z, right);
      into.set(left[0]! <= right[0]! ? left : right);
    },
  };
};

/**
 * The same as the fit body's contact field sees its legs: distances on a grid of 6 mm, smoothed into one skin. No node lies
 * in the cleft, so that all of these clefts are closed.
 */
const smoothLegs = (gap: number): DistanceField =>
  gridFromField(
    (x, _y, z) => Math.min(Math.hypot(x - halfWay(gap), z), Math.hypot(x + halfWay(gap), z)) - RADIUS,
    { low: [-0.033, -0.042, -0.084], high: [0.147, 0.042, 0.084] },
    0.006,
  );

/** The same as two capsules of 8 mm triangles, read as one mesh. */
const meshedLegs = (gap: number): DistanceField => {
  const height = 0.3;
  const leg = tube({
    radii: (y) => {
      const toEnd = Math.min(y, height - y, RADIUS);
      const radius = Math.max(0.004, Math.sqrt(RADIUS ** 2 - (RADIUS - toEnd) ** 2));
      return [radius, radius];
    },
    height,
    edge: 0.008,
    foot: -height / 2,
    jitter: 0.2,
  });
  const skin = both(shifted(leg, halfWay(gap)), shifted(leg, -halfWay(gap)));
  const body = makeMeshBody({ skin, sourceUp: 'y', tissue: 'rigid' });
  return body.contactField({ low: [0, -0.03, -0.06], high: [0.13, 0.03, 0.06] });
};

const shifted = ({ positions, triangles }: TriangleMesh, by: number): TriangleMesh => ({
  positions: positions.map((x, i) => (i % 3 === 0 ? x + by : x)),
  triangles,
});

const both = (one: TriangleMesh, other: TriangleMesh): TriangleMesh => ({
  positions: Float64Array.from([...one.positions, ...other.positions]),
  triangles: Uint32Array.from([
    ...one.triangles,
    ...other.triangles.map((v) => v + one.positions.length / 3),
  ]),
});

/** A tube laid round the left leg. */
const tubeOnLeg = (gap: number): ClothLevel[] =>
  proofTube({
    rowCount: 2,
    columnCount: COLUMNS / 4,
    halvings: 2,
    place: (around, along) => {
      const [x, y, z] = onRing(RADIUS, HEIGHT * (along - 0.5), around);
      return [x + halfWay(gap), y, z];
    },
    relaxed: { girth: RATIO * 2 * Math.PI * RADIUS, length: HEIGHT },
  });

interface Wearing {
  readonly settled: SettledTube;
  readonly findings: readonly Finding[];
}

/** Lays the tube, settles it with the friction of dry skin and looks for pinches. */
function wear(skin: DistanceField, gap: number, foundation: number, thickness = 0.0006): Wearing {
  const laid = tubeOnLeg(gap);
  const { levels } = clearOfBody(laid, skin);
  // Cloth in the cleft lies on its own leg and is not to be taken off it.
  expect(levels).toBe(laid);
  const laws = [linearLaw(STIFFNESS)];
  const settled = settleTube({ levels, laws, body: skin, foundation, friction: 0.3 }, COLUMNS);
  const garment = { levels, warp: 'around', rings: [], columnCount: COLUMNS, findings: [] } as const;
  const { equilibrium } = settled;
  const pull = clothPull(garment, laws, equilibrium.positions);
  return {
    settled,
    findings: pinchedFindings({ garment, equilibrium, pull, skin, friction: 0.3, thickness }),
  };
}

/** Mean pressure over the third of the leg that faces away from the other, hem rows left out. */
function outerPressure({ equilibrium, pressure }: SettledTube, gap: number): number {
  let sum = 0;
  let count = 0;
  for (let v = 2 * COLUMNS; v < pressure.length - 2 * COLUMNS; v++) {
    if (equilibrium.positions[3 * v]! < halfWay(gap) + RADIUS / 2) continue;
    sum += pressure[v]!;
    count++;
  }
  return sum / count;
}

/**
 * Laplace on flesh that gives: p = K (r / r0 - 1) / r at the radius r that is left, and p = k (R - r). Found by halving.
 */
function laplace(foundation: number): number {
  const pressureAt = (r: number) => (STIFFNESS * (r / (RATIO * RADIUS) - 1)) / r;
  let [low, high] = [RATIO * RADIUS, RADIUS];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (pressureAt(middle) > foundation * (RADIUS - middle)) high = middle;
    else low = middle;
  }
  return pressureAt(low);
}

const areaOf = (findings: readonly Finding[]): number =>
  findings.reduce((sum, one) => sum + (one.code === 'worn/pinched' ? one.facts.areaCm2 : NaN), 0);

/** The strip of a leg from which 4 mm straight out lie in the other: cos(angle) >= (a^2 + D^2 - R^2) / (2 a D), a = R + 4 mm. */
function closeStrip(gap: number): number {
  const a = RADIUS + 0.004;
  const apart = 2 * halfWay(gap);
  const cos = (a * a + apart * apart - RADIUS * RADIUS) / (2 * a * apart);
  return 1e4 * 2 * Math.acos(Math.min(1, cos)) * RADIUS * HEIGHT;
}

describe('cloth between two legs', () => {
  // No strip can be told more narrowly than a column of the mesh on either side.
  const column = 1e4 * HEIGHT * ((2 * Math.PI * RADIUS) / COLUMNS);

  it.each([0.001, 0.002, 0.003])(
    '%d m apart: the pinched strip is the one where the legs are close',
    (gap) => {
      const { settled, findings } = wear(twoBars(gap), gap, NEAR_RIGID);
      expect(settled.equilibrium.atRest).toBe(true);
      expect(closeStrip(gap)).toBeGreaterThan(column);
      expect(Math.abs(areaOf(findings) - closeStrip(gap))).toBeLessThan(column);
      expect(findings).toMatchObject([
        { facts: { lowMm: expect.closeTo(-30, 1), highMm: expect.closeTo(30, 1) } },
      ]);
    },
  );

  it('is said in a line', () => {
    const facts = { areaCm2: 123.4, lowMm: 1640, highMm: 1720 };
    const line = sayFinding({ code: 'worn/pinched', facts });
    expect(line).toBe(
      '123 cm² is pinched between skin and skin (1640 to 1720 mm up): read no pressure there.',
    );
    expect(line.length).toBeLessThanOrEqual(90);
  });

  it('is free where the legs leave room, and where flesh gives by more than the width asked about', () => {
    expect(wear(twoBars(0.02), 0.02, NEAR_RIGID).findings).toEqual([]);
    const { settled, findings } = wear(twoBars(0.03), 0.03, 1.2e5);
    expect(Math.min(...settled.equilibrium.distance)).toBeLessThan(-0.004);
    expect(findings).toEqual([]);
  });

  it('is pinched by legs that leave no room for the cloth on both of them', () => {
    expect(wear(twoBars(0.006), 0.006, NEAR_RIGID, 0.001).findings).toEqual([]);
    expect(areaOf(wear(twoBars(0.006), 0.006, NEAR_RIGID, 0.004).findings)).toBeGreaterThan(0);
  });
});

describe('a tube in the cleft of two legs', () => {
  const flesh = { soft: SOFT, hard: NEAR_RIGID } as const;
  const skins = { smooth: smoothLegs, meshed: meshedLegs } as const;
  const cases = (['smooth', 'meshed'] as const).flatMap((kind) =>
    [0.002, 0, -0.004].map((gap) => ({ kind, gap })),
  );

  it.each(cases)('$kind, $gap m apart: rests or says not, and is finite', ({ kind, gap }) => {
    const skin = skins[kind](gap);
    for (const give of ['soft', 'hard'] as const) {
      const { settled, findings } = wear(skin, gap, flesh[give]);
      const { positions, contactForce, newtonSteps, atRest, residual } = settled.equilibrium;
      expect(positions.every(Number.isFinite)).toBe(true);
      expect(contactForce.every(Number.isFinite)).toBe(true);
      expect(Number.isFinite(residual)).toBe(true);
      expect(Math.max(...newtonSteps)).toBeLessThanOrEqual(45);
      // Nothing flies off: every vertex stays within the tube it was laid as.
      for (let i = 0; i < positions.length; i += 3) {
        const away = Math.hypot(positions[i]! - halfWay(gap), positions[i + 2]!);
        expect(away).toBeLessThan(1.3 * RADIUS);
      }
      if (atRest) expect(Math.abs(outerPressure(settled, gap) / laplace(flesh[give]) - 1)).toBeLessThan(0.02);
      if (kind === 'smooth') {
        // The cloth in the cleft is found by the skin on both sides of it, at rest or not.
        expect(areaOf(findings)).toBeGreaterThan(10);
        if (give === 'soft') expect(atRest).toBe(true);
      }
    }
  });

  it('is carried back there when it was laid 20 mm beside it, half buried in its own leg and the other', () => {
    for (const [x, z] of [
      [0, 0.02],
      [0.02, 0],
      [-0.02, 0],
    ] as const) {
      const skin = smoothLegs(0);
      const beside = tubeOnLeg(0).map((level) => ({
        ...level,
        mesh: { ...level.mesh, positions: level.mesh.positions.map((at, i) => at + [x, 0, z][i % 3]!) },
      }));
      const { levels, findings } = clearOfBody(beside, skin);
      expect(findings.map(({ code }) => code)).toEqual(['garment/pushed-out']);
      const laws = [linearLaw(STIFFNESS)];
      const settled = settleTube({ levels, laws, body: skin, foundation: SOFT, friction: 0.3 }, COLUMNS);
      expect(settled.equilibrium.atRest).toBe(true);
      expect(Math.abs(outerPressure(settled, 0) / laplace(SOFT) - 1)).toBeLessThan(0.02);
    }
  });

  it('two bars that press 4 mm into one another have a crease no search rests in: it says so', () => {
    const { settled, findings } = wear(twoBars(-0.004), -0.004, SOFT);
    expect(settled.equilibrium.positions.every(Number.isFinite)).toBe(true);
    expect(settled.equilibrium.atRest).toBe(false);
    expect(areaOf(findings)).toBeGreaterThan(10);
  });
});
