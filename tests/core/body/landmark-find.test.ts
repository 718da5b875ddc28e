import { describe, expect, it } from 'vitest';
import type { Body } from '../../../core/body/body.ts';
import { makeFitBody } from '../../../core/body/fit-body.ts';
import type { FitMeasures } from '../../../core/body/fit-measures.ts';
import { findLandmarks } from '../../../core/body/landmark-find.ts';
import type { LandmarkName } from '../../../core/body/landmarks.ts';
import { measureBody } from '../../../core/body/measure-body.ts';
import type { TriangleMesh } from '../../../core/mesh/triangle-mesh.ts';
import { triple, type Triple } from '../../../core/mesh/triple.ts';
import { armTapers, capsulePerson, taperGirth } from '../../help/capsule-person.ts';
import { cylinder, sphere } from '../../help/shapes.ts';
import { legRadius, TUBE_CROTCH, trunkRadius, tubePerson } from '../../help/tube-person.ts';

/** Invented sizes: middle, tall and full, short with a full waist, and a man. */
const sizes: Readonly<Record<string, FitMeasures>> = {
  middle: { stature: 1.68, bust: 0.88, underbust: 0.75, waist: 0.72, hip: 0.97 },
  full: { stature: 1.76, bust: 1.1, underbust: 0.95, waist: 0.92, hip: 1.16 },
  barrel: { stature: 1.64, bust: 0.96, underbust: 0.87, waist: 0.92, hip: 1 },
  man: { stature: 1.78, bust: 1, underbust: 0.95, waist: 0.86, hip: 1, figure: 'male' },
};
const made = new Map<string, Body>();
const bodyOf = (name: string): Body => {
  const known = made.get(name) ?? makeFitBody(sizes[name]!);
  made.set(name, known);
  return known;
};

const TRUNK = [
  'neckFront',
  'bustFront',
  'chestFront',
  'underbustFront',
  'waistFront',
  'hipFront',
  'crotch',
] as const;
const LEGS = ['thighLeft', 'midThighLeft', 'kneeLeft', 'ankleLeft', 'kneeRight'] as const;

/** Issue: levels found on our own form within 5 mm of its landmarks. */
const LEVEL_TOLERANCE = 0.005;

describe('findLandmarks on the fit body, which knows its own', () => {
  it.each(Object.keys(sizes))('finds the levels of the %s figure within 5 mm', (name) => {
    const body = bodyOf(name);
    const { landmarks, floor, forward } = findLandmarks(body.skin);
    expect([floor, ...forward]).toEqual([0, 0, 0, 1]);
    for (const point of [...TRUNK, ...LEGS]) {
      const [own, found] = [body.landmarks[point], landmarks[point]];
      expect(found === undefined, point).toBe(own === undefined);
      if (own === undefined || found === undefined) continue;
      expect(found.how).toBe('found');
      // The man's thigh is asked for a third lower below his crotch than the woman's; on both it is found 24 mm below.
      const tolerance = point === 'thighLeft' && name === 'man' ? 0.008 : LEVEL_TOLERANCE;
      expect(Math.abs(found.point[1] - own.point[1]), point).toBeLessThan(tolerance);
    }
    for (const point of ['elbowLeft', 'elbowRight', 'wristLeft'] as const) {
      expect(distance(landmarks[point]!.point, body.landmarks[point]!.point), point).toBeLessThan(
        LEVEL_TOLERANCE,
      );
    }
  });

  it('does so with thighs that touch and feet apart', () => {
    const shape = { thighGap: 0, legSpread: (6 * Math.PI) / 180, spacing: 0.01 };
    const body = makeFitBody(sizes['middle']!, shape);
    const { landmarks } = findLandmarks(body.skin);
    for (const point of [
      'crotch',
      'thighLeft',
      'midThighLeft',
      'kneeLeft',
      'hipFront',
      'waistFront',
    ] as const) {
      const miss = landmarks[point]!.point[1] - body.landmarks[point]!.point[1];
      expect(Math.abs(miss), point).toBeLessThan(LEVEL_TOLERANCE);
    }
  });

  it('finds the calf where it is fullest: no tape on the lower leg reads more', () => {
    const { skin } = bodyOf('middle');
    const tape = measureBody(skin);
    const calf = tape.readings.find(({ line }) => line.name === 'calf')!;
    const around = [-0.06, -0.03, -0.01, 0.01, 0.03, 0.06].map((shift) => ({
      ...calf.line,
      name: `shifted ${shift}`,
      center: [calf.line.center[0], calf.line.center[1] + shift, calf.line.center[2] + 0.03] as const,
    }));
    const shifted = measureBody(skin, { lines: around }).readings.slice(-6);
    for (const { girth } of shifted) expect(girth).toBeLessThan(calf.girth);
  });

  it('reads the girths that were asked for within 1.5 %: up to 5 mm of level lie between', () => {
    for (const name of ['full', 'man']) {
      const body = bodyOf(name);
      const { readings } = measureBody(body.skin);
      for (const { name: level, girth } of body.girths) {
        const read = readings.find(({ line }) => line.name === level)!;
        expect(Math.abs(read.girth / girth - 1), `${name} ${level}`).toBeLessThan(0.015);
      }
    }
  });
});

const distance = (a: Readonly<Triple>, b: Readonly<Triple>): number =>
  Math.hypot(...a.map((value, k) => value - b[k]!));

const mapped = ({ positions, triangles }: TriangleMesh, map: (p: Triple) => Triple): TriangleMesh => {
  const into = new Float64Array(positions.length);
  for (let i = 0; i < positions.length; i += 3) into.set(map(triple((k) => positions[i + k]!)), i);
  return { positions: into, triangles };
};

const turned =
  (degrees: number) =>
  ([x, y, z]: Readonly<Triple>): Triple => {
    const a = (degrees * Math.PI) / 180;
    return [Math.cos(a) * x + Math.sin(a) * z, y, Math.cos(a) * z - Math.sin(a) * x];
  };

/** Every triangle in four, by the middles of its sides. */
function quartered({ positions, triangles }: TriangleMesh): TriangleMesh {
  const points = [...positions];
  const middles = new Map<string, number>();
  const middle = (a: number, b: number): number => {
    const key = a < b ? `${a} ${b}` : `${b} ${a}`;
    const known = middles.get(key);
    if (known !== undefined) return known;
    for (let k = 0; k < 3; k++) points.push(0.5 * (positions[3 * a + k]! + positions[3 * b + k]!));
    middles.set(key, points.length / 3 - 1);
    return points.length / 3 - 1;
  };
  const split: number[] = [];
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = triple((k) => triangles[i + k]!);
    const [ab, bc, ca] = [middle(a, b), middle(b, c), middle(c, a)];
    split.push(a, ab, ca, ab, b, bc, ca, bc, c, ab, bc, ca);
  }
  return { positions: Float64Array.from(points), triangles: Uint32Array.from(split) };
}

describe('findLandmarks on altered copies of the fit body', () => {
  const body = bodyOf('middle');
  const straight = findLandmarks(body.skin);

  it.each([37, 180])('turns with a body that faces %s degrees aside', (degrees) => {
    const found = findLandmarks(mapped(body.skin, turned(degrees)));
    expect(distance(found.forward, turned(degrees)([0, 0, 1]))).toBeLessThan(0.02);
    for (const [name, { point }] of Object.entries(straight.landmarks)) {
      const moved = found.landmarks[name as LandmarkName];
      expect(distance(moved!.point, turned(degrees)(point)), name).toBeLessThan(0.006);
    }
  });

  it('scales with a body 12 % larger', () => {
    const found = findLandmarks(mapped(body.skin, (p) => triple((k) => 1.12 * p[k]!)));
    for (const name of [...TRUNK, ...LEGS]) {
      const own = straight.landmarks[name];
      if (own === undefined) continue;
      expect(Math.abs(found.landmarks[name]!.point[1] / 1.12 - own.point[1]), name).toBeLessThan(0.002);
    }
  });

  it('does not mind a mesh four times as fine', () => {
    const coarse = makeFitBody(sizes['middle']!, { spacing: 0.014 }).skin;
    const found = findLandmarks(quartered(coarse));
    const before = findLandmarks(coarse);
    for (const name of [...TRUNK, ...LEGS]) {
      const own = before.landmarks[name];
      if (own === undefined) continue;
      expect(Math.abs(found.landmarks[name]!.point[1] - own.point[1]), name).toBeLessThan(0.001);
    }
  });

  it.each([
    ['lifted to a T', 50],
    ['lowered to the sides', -24],
  ])('finds elbow and levels with the arms %s', (_, degrees) => {
    const posed = mapped(body.skin, (p) => liftedArm(body, p, degrees));
    const found = findLandmarks(posed).landmarks;
    for (const name of ['elbowLeft', 'elbowRight'] as const) {
      const expected = liftedArm(body, body.landmarks[name]!.point, degrees);
      // The shoulder bends with the arm, and with it what elbow and shoulder are told by.
      expect(distance(found[name]!.point, expected), name).toBeLessThan(0.015);
    }
    for (const name of ['waistFront', 'hipFront', 'crotch', 'kneeLeft'] as const) {
      expect(Math.abs(found[name]!.point[1] - body.landmarks[name]!.point[1]), name).toBeLessThan(
        LEVEL_TOLERANCE,
      );
    }
  });
});

/** Turns both arms about the shoulder joints, eased over 8 cm of the arm. */
function liftedArm(body: Body, [x, y, z]: Readonly<Triple>, degrees: number): Triple {
  const [shoulder, wrist] = [body.landmarks.shoulderLeft!.point, body.landmarks.wristLeft!.point];
  const length = Math.hypot(wrist[0] - shoulder[0], wrist[1] - shoulder[1]);
  const [wayX, wayY] = [(wrist[0] - shoulder[0]) / length, (wrist[1] - shoulder[1]) / length];
  const [dx, dy] = [Math.abs(x) - shoulder[0], y - shoulder[1]];
  const along = dx * wayX + dy * wayY;
  const across = dx * wayY - dy * wayX;
  // Trunk and hips lie inwards of the arm: beyond 9 cm from its axis nothing moves.
  if (Math.abs(across) > 0.09) return [x, y, z];
  const t = Math.min(Math.max((along - 0.07) / 0.08, 0), 1);
  const turn = (t * t * (3 - 2 * t) * degrees * Math.PI) / 180;
  const [newX, newY] = [Math.cos(turn) * dx - Math.sin(turn) * dy, Math.sin(turn) * dx + Math.cos(turn) * dy];
  return [Math.sign(x) * (shoulder[0] + newX), shoulder[1] + newY, z];
}

/** Where a formula is largest (1) or smallest (-1), to a tenth of a millimetre. */
function extreme(of: (y: number) => number, from: number, to: number, way: 1 | -1): number {
  const levels = Array.from({ length: 2001 }, (_, i) => from + ((to - from) * i) / 2000);
  return levels.reduce((best, y) => (way * of(y) > way * of(best) ? y : best));
}

describe('findLandmarks on a person of tubes, whose girths are closed forms', () => {
  const person = tubePerson();
  const tape = measureBody(person);
  const level = (name: LandmarkName): number => tape.landmarks[name]!.point[1];
  const girth = (name: string): number => tape.readings.find(({ line }) => line.name === name)!.girth;

  it('finds crotch, ankle, calf, neck and the narrowest waist where the formulas have them', () => {
    expect(level('crotch')).toBeCloseTo(TUBE_CROTCH, 2);
    expect(Math.abs(level('ankleLeft') - extreme(legRadius, 0.03, 0.2, -1))).toBeLessThan(LEVEL_TOLERANCE);
    expect(Math.abs(level('calfLeft') - extreme(legRadius, 0.2, 0.36, 1))).toBeLessThan(0.01);
    expect(Math.abs(level('neckFront') - extreme(trunkRadius, 1.4, 1.49, -1))).toBeLessThan(0.01);
  });

  it('reads there 2 pi r on the legs, and the ellipse on the trunk, within 1 mm', () => {
    expect(Math.abs(girth('ankle') - 2 * Math.PI * legRadius(level('ankleLeft')))).toBeLessThan(0.001);
    expect(Math.abs(girth('calf') - 2 * Math.PI * legRadius(level('calfLeft')))).toBeLessThan(0.001);
    // Length of an ellipse of half axes 1 and 0.7: 5.382369, by Ramanujan's second formula, exact to 1e-6.
    const h = (0.3 / 1.7) ** 2;
    const unit = Math.PI * 1.7 * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)));
    for (const name of ['waist', 'hip'] as const) {
      expect(Math.abs(girth(name) - unit * trunkRadius(level(`${name}Front`)))).toBeLessThan(0.0015);
    }
  });

  it('says that it has no arms and where it ends', () => {
    expect(tape.findings).toContainEqual({
      code: 'tape/not-found',
      facts: { landmarks: 'left arm, right arm' },
    });
    expect(tape.heights.some(({ name }) => name === 'stature')).toBe(false);
  });
});

describe('findLandmarks on a whole person of tapers, with head, hands and feet', () => {
  it.each([
    [90, 'out to a T'],
    [12, 'nearly at the sides'],
  ])('finds the limbs with the arms %s degrees, %s, and reads the tapers’ own girths', (degrees) => {
    const tape = measureBody(capsulePerson(degrees, 10));
    const at = (name: LandmarkName): Readonly<Triple> => tape.landmarks[name]!.point;
    const mm = (name: LandmarkName): Triple => triple((k) => 1000 * at(name)[k]!);
    const girthMm = (name: string): number =>
      1000 * tape.readings.find(({ line }) => line.name === name && line.side === 'left')!.girth;
    const [upper, fore, lower] = armTapers(degrees);
    // The tapers are alone there: 290 mm from the shoulder the arm is narrowest above the forearm, 350 mm fullest,
    // 545 mm the wrist.
    const shoulder = upper.from;
    const along = (name: LandmarkName): number =>
      Math.hypot(...mm(name).map((value, k) => value - shoulder[k]!));
    expect(along('elbowLeft')).toBeGreaterThan(290);
    expect(along('elbowLeft')).toBeLessThan(350);
    expect(Math.abs(along('wristLeft') - 545)).toBeLessThan(5);
    // A tape over the kink between two tapers bridges it, and the mesh of 10 mm cuts its corner: within 2 mm of the
    // closed form.
    expect(Math.abs(girthMm('elbow') - taperGirth(fore, mm('elbowLeft')))).toBeLessThan(2);
    expect(Math.abs(girthMm('wrist') - taperGirth(lower, mm('wristLeft')))).toBeLessThan(2.5);
    if (degrees > 20)
      expect(Math.abs(girthMm('upperArm') - taperGirth(upper, mm('upperArmLeft')))).toBeLessThan(2);
    // Legs are upright: their tapers are cut square. Ankle 110, calf 340 mm up, thickest and thinnest by construction.
    expect(Math.abs(mm('ankleLeft')[1] - 110)).toBeLessThan(5);
    expect(Math.abs(mm('calfLeft')[1] - 340)).toBeLessThan(5);
    // The narrowest place is a kink, across which a triangle of 10 mm lies outside.
    expect(Math.abs(girthMm('ankle') - 2 * Math.PI * 35)).toBeLessThan(4);
    expect(Math.abs(girthMm('calf') - 2 * Math.PI * 58)).toBeLessThan(2);
    expect(Math.abs(mm('neckFront')[1] - 1490)).toBeLessThan(8);
    expect(tape.forward).toEqual([0, 0, 1]);
    // Top of the head: a ball of 78 mm round 1640 mm.
    expect(1000 * tape.heights.find(({ name }) => name === 'stature')!.height).toBeCloseTo(1640 + 78 + 4, -1);
  });
});

describe('findLandmarks on what is no person', () => {
  it.each([
    ['a cylinder', cylinder(0.15, 1.7, 0.03)],
    ['a ball', sphere(0.5, 0.06)],
  ])('names nothing on %s and says so', (_, skin) => {
    const { landmarks, findings } = findLandmarks(skin);
    expect(landmarks).toEqual({});
    expect(findings.map(({ code }) => code)).toEqual(['tape/no-person']);
  });
});

describe('measureBody with landmarks placed by hand', () => {
  const { skin, landmarks, floor, forward } = bodyOf('middle');
  const known = { landmarks, floor, forward };
  const place = landmarks.waistFront!.point;
  const moved = measureBody(skin, { known, placed: { waistFront: [place[0], place[1] + 0.03, place[2]] } });

  it('moves the whole level, marks it, and leaves the others', () => {
    for (const name of ['waistFront', 'waistBack', 'waistSideLeft'] as const) {
      expect(moved.landmarks[name]!.how).toBe('placed');
      expect(moved.landmarks[name]!.point[1]).toBeCloseTo(place[1] + 0.03, 12);
    }
    expect(moved.landmarks.hipFront).toEqual(landmarks.hipFront);
    const tape = moved.readings.find(({ line }) => line.name === 'waist')!;
    expect(tape.height).toBeCloseTo(place[1] + 0.03 - floor, 6);
  });

  it('parts legs that are one piece half way between them, and says so', () => {
    const { crotch, thighLeft, thighRight } = landmarks;
    // A tape for the thigh laid 2 cm above the crotch would run round both.
    const level = crotch!.point[1] + 0.02;
    const lifted = ({ point: [x, , z] }: { point: Readonly<Triple> }): Triple => [x, level, z];
    const placed = { thighLeft: lifted(thighLeft!), thighRight: lifted(thighRight!) };
    const tape = measureBody(skin, { known, placed });
    const thighs = tape.readings.filter(({ line }) => line.name === 'thigh');
    expect(thighs).toHaveLength(2);
    expect(thighs[0]!.girth).toBeCloseTo(thighs[1]!.girth, 6);
    const lines = [
      { ...thighs[0]!.line, name: 'both', kind: 'trunk' as const, center: [0, level, 0] as const },
    ];
    const both = measureBody(skin, { known, lines }).readings.at(-1)!.girth;
    // Halves of a convex outline: each is longer than half of the whole, both together by twice the cut.
    expect(thighs[0]!.girth).toBeGreaterThan(0.5 * both);
    expect(thighs[0]!.girth).toBeLessThan(0.8 * both);
    expect(tape.findings.map(({ code }) => code)).toEqual(['tape/thighs-parted', 'tape/thighs-parted']);
  });

  it('lays an own line in the stead of the found one of its name and side', () => {
    const line = {
      ...moved.readings.find(({ line: { name } }) => name === 'hip')!.line,
      surface: 'along' as const,
    };
    const readings = measureBody(skin, { known, lines: [line] }).readings.filter(
      (one) => one.line.name === 'hip',
    );
    expect(readings).toHaveLength(1);
    expect(readings[0]!.line.surface).toBe('along');
  });
});
