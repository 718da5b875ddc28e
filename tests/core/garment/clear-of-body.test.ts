import { assert, double, property, record } from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NEAR_RIGID } from '../../../core/body/body.ts';
import type { DistanceField } from '../../../core/body/distance-field.ts';
import { gridFromField } from '../../../core/body/grid-from-field.ts';
import { Fault } from '../../../core/fault/fault.ts';
import { clearOfBody } from '../../../core/garment/clear-of-body.ts';
import { decimatedLevels } from '../../../core/garment/decimated-levels.ts';
import { deformationOf } from '../../../core/garment/deformation.ts';
import type { ClothLevel } from '../../../core/garment/garment.ts';
import { triangleAreaVectors } from '../../../core/mesh/triangle-areas.ts';
import { onRing, proofTube } from '../../../core/proof/proof-tube.ts';
import { innerRows, linearLaw, mean, settleTube } from '../../../core/proof/settled-tube.ts';
import { cylinderBody } from '../../../core/proof/smooth-bodies.ts';
import { sayFault, sayFinding } from '../../../core/words/say.ts';
import { faultOf } from '../../help/fault-of.ts';
import { seededRandom } from '../../help/shapes.ts';

const GIRTH = 0.6;
const RADIUS = GIRTH / (2 * Math.PI);
const RELAXED = 0.48;
const STIFFNESS = 250;
const COLUMNS = 48;
const HEIGHT = 0.06;
/** Laplace: pressure of a tube of tension T on a bar of radius R is T / R; T = K (C / C0 - 1). */
const LAPLACE = (STIFFNESS * (GIRTH / RELAXED - 1)) / RADIUS;
const bar = cylinderBody(RADIUS);

type Point = readonly [number, number, number];

/** A tube of the bar's girth, each of its points laid where `lay` puts it. */
const tubeLaid = (lay: (point: Point) => Point = (point) => point): ClothLevel[] =>
  proofTube({
    rowCount: 2,
    columnCount: COLUMNS / 4,
    halvings: 2,
    place: (around, along) => lay(onRing(RADIUS, HEIGHT * along, around)),
    relaxed: { girth: RELAXED, length: HEIGHT },
  });

const shifted =
  (by: number) =>
  ([x, y, z]: Point): Point => [x + by, y, z];

/** Mean pressure of a tube at rest on a near-rigid bar, without friction; hem rows left out. */
function settledPressure(levels: readonly ClothLevel[]): { pressure: number; atRest: boolean } {
  const tube = settleTube(
    { levels, laws: [linearLaw(STIFFNESS)], body: bar, foundation: NEAR_RIGID, friction: 0 },
    COLUMNS,
  );
  return { pressure: mean(innerRows(tube, tube.pressure)), atRest: tube.equilibrium.atRest };
}

const turnedOver = (level: ClothLevel): ClothLevel => ({
  ...level,
  mesh: {
    ...level.mesh,
    triangles: level.mesh.triangles.map((_, i, all) => all[i % 3 === 1 ? i + 1 : i % 3 === 2 ? i - 1 : i]!),
  },
  restInverse: level.restInverse.map((_, i, all) => all[i % 4 < 2 ? i + 2 : i - 2]!),
});

const codesOf = (levels: readonly ClothLevel[], skin = bar): string[] =>
  clearOfBody(levels, skin).findings.map(({ code }) => code);

/** Share of a level's vertices that lie deeper than 2 mm. */
function shareBuried({ mesh: { positions } }: ClothLevel, skin: DistanceField): number {
  const sample = new Float64Array(10);
  let count = 0;
  for (let i = 0; i < positions.length; i += 3) {
    skin.sample(positions[i]!, positions[i + 1]!, positions[i + 2]!, sample);
    if (sample[0]! < -0.002) count++;
  }
  return (3 * count) / positions.length;
}

/** Share of triangles that face the axis of the bar, and the worst shape: 1 for equal sides, 0 for a needle. */
function triangleState({ mesh }: ClothLevel): { inwardShare: number; worstShape: number } {
  const { positions, triangles } = mesh;
  const vectors = triangleAreaVectors(mesh);
  const at = (i: number, k: number) => positions[3 * triangles[i]! + k]!;
  let inward = 0;
  let worstShape = 1;
  for (let i = 0; i < triangles.length; i += 3) {
    const outward = vectors[i]! * (at(i, 0) + at(i + 1, 0)) + vectors[i + 2]! * (at(i, 2) + at(i + 1, 2));
    if (outward < 0) inward++;
    let sides = 0;
    for (let k = 0; k < 3; k++) {
      sides +=
        (at(i, k) - at(i + 1, k)) ** 2 + (at(i + 1, k) - at(i + 2, k)) ** 2 + (at(i + 2, k) - at(i, k)) ** 2;
    }
    const area = Math.hypot(...vectors.subarray(i, i + 3));
    worstShape = Math.min(worstShape, (4 * Math.sqrt(3) * area) / sides);
  }
  return { inwardShare: (3 * inward) / triangles.length, worstShape };
}

describe('cloth that lies clear of the body', () => {
  it('comes back as it is', () => {
    for (const lay of [shifted(0), shifted(0.0019), ([x, y, z]: Point): Point => [2 * x, y, 2 * z]]) {
      const levels = tubeLaid(lay);
      const clear = clearOfBody(levels, bar);
      expect(clear.levels).toBe(levels);
      expect(clear.findings).toEqual([]);
    }
  });
});

describe('a tube that starts half buried', () => {
  const right = settledPressure(tubeLaid());

  it.each([0.01, 0.03, 0.08, 0.12])(
    'shifted by %d m, ends with the pressure of the tube laid right',
    (by) => {
      const { levels, findings } = clearOfBody(tubeLaid(shifted(by)), bar);
      expect(findings.map(({ code }) => code)).toEqual(['garment/pushed-out']);
      const { pressure, atRest } = settledPressure(levels);
      expect(atRest).toBe(true);
      expect(Math.abs(pressure / LAPLACE - 1)).toBeLessThan(0.005);
      expect(Math.abs(pressure / right.pressure - 1)).toBeLessThan(0.0005);
    },
  );

  it('says how much of it was buried, and how deep', () => {
    const { findings } = clearOfBody(tubeLaid(shifted(0.03)), bar);
    // Of a ring shifted by s, what lies deeper than b has cos < -(s^2 + 2 R b - b^2) / (2 R s): acos(...) / pi of it.
    const [s, b] = [0.03, 0.002];
    const share = Math.acos((s * s + 2 * RADIUS * b - b * b) / (2 * RADIUS * s)) / Math.PI;
    const [finding] = findings as [
      { code: 'garment/pushed-out'; facts: { sharePercent: number; depthMm: number } },
    ];
    expect(Math.abs(finding.facts.sharePercent / 100 - share)).toBeLessThan(1 / COLUMNS);
    expect(finding.facts.depthMm).toBeCloseTo(30, 6);
    expect(sayFinding(finding)).toBe(
      '44 % of the garment began inside the body (30 mm at most): pushed out to the skin.',
    );
  });

  it('keeps each coarse vertex where its twin on the finest level is', () => {
    const { levels } = clearOfBody(tubeLaid(shifted(0.03)), bar);
    const [coarse, , fine] = levels.map(({ mesh }) => mesh.positions) as [
      Float64Array,
      Float64Array,
      Float64Array,
    ];
    for (let row = 0; row <= 2; row++)
      for (let column = 0; column < COLUMNS / 4; column++)
        for (let k = 0; k < 3; k++)
          expect(coarse[3 * (row * (COLUMNS / 4) + column) + k]).toBe(
            fine[3 * (4 * row * COLUMNS + 4 * column) + k],
          );
  });

  it('is recovered on levels that do not nest as well', () => {
    const { levels } = clearOfBody(decimatedLevels(tubeLaid(shifted(0.03)).at(-1)!), bar);
    for (const level of levels) expect(shareBuried(level, bar)).toBe(0);
  });
});

/** A dent in front, as deep as asked, 35 degrees to either side. */
const dented =
  (depth: number) =>
  ([x, y, z]: Point): Point => {
    const angle = Math.atan2(x, z);
    const share = Math.max(0, Math.cos((Math.PI / 2) * Math.min(1, Math.abs(angle) / 0.6)));
    return [x, y, z - depth * share];
  };

describe('a tube with a buried part', () => {
  it.each([0.01, 0.03, 0.06, 0.07, 0.08, 0.09, 0.12])(
    'a dent of %d m is pushed out where it is; the rest stays to the bit',
    (depth) => {
      const laid = tubeLaid(dented(depth));
      const { levels, findings } = clearOfBody(laid, bar);
      expect(findings.map(({ code }) => code)).toEqual(['garment/pushed-out']);
      const before = laid.at(-1)!.mesh.positions;
      const after = levels.at(-1)!.mesh.positions;
      for (let v = 0; 3 * v < before.length; v++) {
        const angle = (2 * Math.PI * (v % COLUMNS)) / COLUMNS;
        if (angle < 0.8 || angle > 2 * Math.PI - 0.8) continue;
        expect(after.subarray(3 * v, 3 * v + 3)).toEqual(before.subarray(3 * v, 3 * v + 3));
      }
      const { inwardShare, worstShape } = triangleState(levels.at(-1)!);
      expect(inwardShare).toBe(0);
      expect(worstShape).toBeGreaterThan(0.2);
      const { pressure, atRest } = settledPressure(levels);
      expect(atRest).toBe(true);
      expect(Math.abs(pressure / LAPLACE - 1)).toBeLessThan(0.005);
    },
  );

  it('crumpled in there, comes out with no triangle turned over or drawn into a needle', () => {
    const random = seededRandom(3);
    const level = tubeLaid(dented(0.03)).at(-1)!;
    const { positions } = level.mesh;
    for (let i = 0; i < positions.length; i += 3) {
      const isDeep = Math.hypot(positions[i]!, positions[i + 2]!) < RADIUS - 0.012;
      if (isDeep) for (let k = 0; k < 2; k++) positions[i + k]! += 0.03 * (random() - 0.5);
    }
    expect(triangleState(level).inwardShare).toBeGreaterThan(0.02);
    const { levels } = clearOfBody([level], bar);
    expect(triangleState(levels[0]!).inwardShare).toBe(0);
    expect(triangleState(levels[0]!).worstShape).toBeGreaterThan(0.2);
    expect(shareBuried(levels[0]!, bar)).toBe(0);
  });

  it('smaller than the body all round by 8 mm, is pushed out all round', () => {
    const { levels, findings } = clearOfBody(
      tubeLaid(([x, y, z]) => [x * (1 - 0.008 / RADIUS), y, z * (1 - 0.008 / RADIUS)]),
      bar,
    );
    expect(findings).toMatchObject([
      { code: 'garment/pushed-out', facts: { sharePercent: expect.closeTo(100) } },
    ]);
    const { pressure } = settledPressure(levels);
    expect(Math.abs(pressure / LAPLACE - 1)).toBeLessThan(0.005);
  });
});

describe('a tube that lies inside out', () => {
  const right = settledPressure(tubeLaid());

  it.each([
    ['by the order of its corners', () => tubeLaid().map(turnedOver)],
    ['mirrored', () => tubeLaid(([x, y, z]) => [-x, y, z])],
  ])('%s is turned, keeps warp and weft, and presses like the tube laid right', (_, lay) => {
    const laid = lay();
    const { levels, findings } = clearOfBody(laid, bar);
    expect(findings).toMatchObject([
      { code: 'garment/turned', facts: { sharePercent: expect.closeTo(100) } },
    ]);
    for (const [l, level] of levels.entries()) {
      expect(triangleState(level).inwardShare).toBe(0);
      const [now, before] = [new Float64Array(6), new Float64Array(6)];
      for (let t = 0; t < level.restArea.length; t++) {
        deformationOf(level, level.mesh.positions, t, now);
        deformationOf(laid[l]!, laid[l]!.mesh.positions, t, before);
        for (let k = 0; k < 6; k++) expect(now[k]).toBeCloseTo(before[k]!, 9);
      }
    }
    const { pressure, atRest } = settledPressure(levels);
    expect(atRest).toBe(true);
    expect(Math.abs(pressure / LAPLACE - 1)).toBeLessThan(0.005);
    expect(Math.abs(pressure / right.pressure - 1)).toBeLessThan(0.0005);
  });

  it('and half buried at once, is turned and brought out', () => {
    const { levels, findings } = clearOfBody(tubeLaid(shifted(0.03)).map(turnedOver), bar);
    expect(findings.map(({ code }) => code)).toEqual(['garment/turned', 'garment/pushed-out']);
    expect(Math.abs(settledPressure(levels).pressure / right.pressure - 1)).toBeLessThan(0.0005);
  });

  it('leaves folds of a right piece alone, and turns one of two pieces', () => {
    const folded = tubeLaid().at(-1)!;
    const fold = { ...folded, mesh: { ...folded.mesh, triangles: folded.mesh.triangles.slice() } };
    const some = turnedOver(folded).mesh.triangles.subarray(0, fold.mesh.triangles.length / 3);
    fold.mesh.triangles.set(some);
    expect(codesOf([fold])).toEqual([]);
    const other = turnedOver(tubeLaid(([x, y, z]) => [x, y + 0.1, z]).at(-1)!);
    const count = folded.mesh.positions.length / 3;
    const both: ClothLevel = {
      ...folded,
      mesh: {
        positions: Float64Array.from([...folded.mesh.positions, ...other.mesh.positions]),
        triangles: Uint32Array.from([
          ...folded.mesh.triangles,
          ...other.mesh.triangles.map((v) => v + count),
        ]),
      },
      restInverse: Float64Array.from([...folded.restInverse, ...other.restInverse]),
      restArea: Float64Array.from([...folded.restArea, ...other.restArea]),
    };
    const { levels, findings } = clearOfBody([both], bar);
    expect(findings).toMatchObject([
      { code: 'garment/turned', facts: { sharePercent: expect.closeTo(50, 0) } },
    ]);
    expect(levels[0]!.mesh.triangles.subarray(0, folded.mesh.triangles.length)).toEqual(
      folded.mesh.triangles,
    );
    expect(triangleState(levels[0]!).inwardShare).toBe(0);
  });
});

describe('cloth that cannot be recovered', () => {
  it('wholly buried is refused, with how much and how deep', () => {
    const fault = faultOf(() =>
      clearOfBody(
        tubeLaid(([x, y, z]) => [0.7 * x, y, 0.7 * z]),
        bar,
      ),
    );
    expect(fault.code).toBe('garment/inside-body');
    expect(fault.facts).toMatchObject({
      sharePercent: expect.closeTo(100),
      depthMm: expect.closeTo(300 * RADIUS),
    });
    expect(sayFault(fault).what).toContain('100 % of the garment lies inside the body, up to 29 mm deep');
  });

  it('is refused where no way leads out', () => {
    const nowhere: DistanceField = {
      sample: (_x, _y, _z, into) => into.fill(0).fill(-0.005, 0, 1),
    };
    expect(faultOf(() => clearOfBody(tubeLaid(), nowhere)).code).toBe('garment/inside-body');
  });

  it.each([NaN, Infinity, -Infinity, 1e9])('a vertex at %d is refused and named', (value) => {
    const levels = tubeLaid();
    levels.at(-1)!.mesh.positions[3 * 17 + 1] = value;
    const fault = faultOf(() => clearOfBody(levels, bar));
    expect(fault.code).toBe('garment/lies-nowhere');
    expect(fault.facts).toMatchObject({ vertex: 17, yMm: 1000 * value });
  });
});

/** A capsule standing on the origin as the contact sees a body: a smooth grid of distances, held to -60 mm inside. */
const capsule = gridFromField(
  (x, y, z) => Math.hypot(x, y - Math.max(-0.1, Math.min(0.1, y)), z) - RADIUS,
  { low: [-0.16, -0.26, -0.16], high: [0.16, 0.26, 0.16] },
  0.012,
);

const metres = (most: number) => double({ min: -most, max: most, noNaN: true });
const turn = double({ min: 0, max: 2 * Math.PI, noNaN: true });

describe('any tube, anywhere', () => {
  it('is finite and out of the body, or refused with a fault (seed 7)', () => {
    let cleared = 0;
    assert(
      property(
        record({ x: metres(0.3), y: metres(0.3), z: metres(0.3), tilt: turn, roll: turn }),
        double({ min: 0.3, max: 1.5, noNaN: true }),
        ({ x, y, z, tilt, roll }, scale) => {
          const laid = tubeLaid(([a, b, c]) => {
            const [u, v, w] = [scale * a, scale * (b - HEIGHT / 2), scale * c];
            const [v2, w2] = [
              v * Math.cos(tilt) - w * Math.sin(tilt),
              v * Math.sin(tilt) + w * Math.cos(tilt),
            ];
            return [
              u * Math.cos(roll) - v2 * Math.sin(roll) + x,
              u * Math.sin(roll) + v2 * Math.cos(roll) + y,
              w2 + z,
            ];
          });
          try {
            const { levels } = clearOfBody(laid, capsule);
            for (const { mesh } of levels) expect(mesh.positions.every(Number.isFinite)).toBe(true);
            expect(shareBuried(levels.at(-1)!, capsule)).toBeLessThan(0.02);
            cleared++;
          } catch (error) {
            expect(error).toBeInstanceOf(Fault);
          }
        },
      ),
      { seed: 7, numRuns: 150 },
    );
    expect(cleared).toBeGreaterThan(50);
  });
});
