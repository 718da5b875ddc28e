/**
 * Importing an invented person of boxes, spheres and cylinders: what is guessed, mended and told. Volumes are sums of
 * boxes; spheres and cylinders are their own closed forms.
 */
import { describe, expect, it } from 'vitest';
import { guessImport } from '../../../core/body/guess-import.ts';
import { importBody } from '../../../core/body/import-body.ts';
import { AXES, axisNumber, placed, turnTo } from '../../../core/body/import-axes.ts';
import type { ImportChoices } from '../../../core/body/import-choices.ts';
import type { ImportedMesh, ImportStepFacts, ImportStepKind } from '../../../core/body/import-report.ts';
import { makeMeshBody } from '../../../core/body/mesh-body.ts';
import { extentOf } from '../../../core/mesh/extent.ts';
import { meshEdges } from '../../../core/mesh/mesh-edges.ts';
import type { Axis, MeshScene, MeshUnit } from '../../../core/mesh/mesh-scene.ts';
import { requireClosed } from '../../../core/mesh/soundness.ts';
import { enclosedVolume, triangleAreas } from '../../../core/mesh/triangle-areas.ts';
import type { TriangleMesh } from '../../../core/mesh/triangle-mesh.ts';
import { sayImportGuess, sayImportSteps } from '../../../core/words/import-words.ts';
import { boxPerson, PERSON_VOLUME_CM3, trianglesOf } from '../../help/box-person.ts';
import { faultOf } from '../../help/fault-of.ts';
import { cylinder, seededRandom, sphere } from '../../help/shapes.ts';

function ended<Result>(work: Generator<unknown, Result>): Result {
  let next = work.next();
  while (!next.done) next = work.next();
  return next.value;
}

const quads = boxPerson(2);
/** In cm, y up, facing z; 172 high. */
const person: TriangleMesh = {
  positions: Float64Array.from(quads.positions),
  triangles: Uint32Array.from(trianglesOf(quads)),
};

const sceneOf = (...parts: readonly (readonly [string, TriangleMesh])[]): MeshScene => ({
  format: 'obj',
  parts: parts.map(([name, mesh]) => ({ name, mesh })),
  unit: null,
  up: null,
  front: null,
  passedOver: [],
});

const asIs: ImportChoices = {
  unit: 'cm',
  up: '+y',
  front: '+z',
  part: 'largest',
  closeHoles: true,
  refineEdgeMm: null,
};

const imported = (scene: MeshScene, change: Partial<ImportChoices> = {}): ImportedMesh =>
  ended(importBody(scene, { ...asIs, ...change }));

/** The facts of all steps of one kind. */
function stepsOf<K extends ImportStepKind>({ report }: ImportedMesh, kind: K): ImportStepFacts[K][] {
  return report.steps.flatMap((step) => (step.kind === kind ? [step.facts as ImportStepFacts[K]] : []));
}

const scaled = (mesh: TriangleMesh, scale: number, shift = [0, 0, 0]): TriangleMesh => ({
  positions: mesh.positions.map((value, i) => scale * value + shift[i % 3]!),
  triangles: mesh.triangles,
});
const without = (mesh: TriangleMesh, isGone: (t: number) => boolean): TriangleMesh => ({
  positions: mesh.positions,
  triangles: mesh.triangles.filter((_, i) => !isGone(Math.floor(i / 3))),
});
const volumeCm3 = ({ mesh }: ImportedMesh): number => enclosedVolume(mesh) * 1e6;
const middleHeight = ({ positions, triangles }: TriangleMesh, t: number): number =>
  [0, 1, 2].reduce((sum, k) => sum + positions[3 * triangles[3 * t + k]! + 1]! / 3, 0);

/** How many units of each kind make a cm. */
const PER_CM: Readonly<Record<MeshUnit, number>> = { m: 0.01, cm: 1, mm: 10, inch: 1 / 2.54 };

describe('guesses', () => {
  const ways = AXES.flatMap((up) =>
    AXES.filter((front) => axisNumber(front) !== axisNumber(up)).map((front): [Axis, Axis] => [up, front]),
  );
  it.each(ways)('a person whose file has %s up and faces %s is found so, and the unit', (up, front) => {
    // The rotation that takes the file's axes to ours, undone: its transpose.
    const turn = turnTo(up, front);
    const undone = [0, 1, 2].flatMap((row) => [0, 1, 2].map((column) => turn[3 * column + row]!));
    const unit = (['m', 'cm', 'mm', 'inch'] as const)[
      ways.findIndex(([u, f]) => u === up && f === front) % 4
    ]!;
    const scene = sceneOf(['skin', placed(person, undone, PER_CM[unit])]);
    const guess = ended(guessImport(scene));
    expect(guess.choices).toMatchObject({ up, front, unit });
    expect([guess.up.certainty, guess.front.certainty, guess.unit.certainty]).toEqual([
      'clear',
      'clear',
      'clear',
    ]);
    const result = ended(importBody(scene, { ...guess.choices, refineEdgeMm: null }));
    expect(volumeCm3(result)).toBeCloseTo(PERSON_VOLUME_CM3, 3);
    const { low, high } = extentOf(result.mesh);
    expect(low[1]).toBeCloseTo(0, 9);
    expect(high[1]).toBeCloseTo(1.72, 9);
    // Toes ahead of heels: 16 cm against 8 cm, moved so that the middle of the box lies over the origin.
    expect([low[2], high[2]].map((value) => Number(value.toFixed(6)))).toEqual([-0.13, 0.13]);
  });

  it('what the file states is kept where the shape agrees and doubted where it does not', () => {
    const stated = { ...sceneOf(['skin', scaled(person, 0.01)]), unit: 'm', up: '+y', front: '+z' } as const;
    const agreeing = ended(guessImport(stated));
    expect([agreeing.unit, agreeing.up, agreeing.front].map(({ certainty }) => certainty)).toEqual([
      'stated',
      'stated',
      'stated',
    ]);
    const wrong = ended(guessImport({ ...stated, parts: [{ name: 'skin', mesh: person }], up: '-y' }));
    expect(wrong.choices).toMatchObject({ unit: 'cm', up: '+y' });
    expect(wrong.up.certainty).toBe('doubtful');
    expect(sayImportGuess(wrong).up).toMatch(/the file says -y/);
  });

  it('asks where the shape does not tell: a plain post has no front, no foot, and 60 could be cm or inches', () => {
    const guess = ended(guessImport(sceneOf(['post', scaled(cylinder(0.1, 0.6, 0.03), 100)])));
    expect([guess.unit, guess.up, guess.front].map(({ certainty }) => certainty)).toEqual([
      'doubtful',
      'doubtful',
      'doubtful',
    ]);
    expect(guess.up.value).toBe('+y');
    expect(sayImportGuess(guess).unit).toMatch(/1524 mm.*600 mm/);
  });
});

describe('the skin', () => {
  const eye = scaled(sphere(0.015, 0.01), 100, [3, 162, 4]);
  it('eyes, lashes and inner shells are left out with a word, whatever parts there are', () => {
    const lash = scaled(sphere(0.01, 0.01), 100, [0, 162, 20]);
    const watch = scaled(sphere(0.02, 0.01), 100, [90, 100, 0]);
    const scene = sceneOf(
      ['eye_left', eye],
      ['body', person],
      ['lashes', lash],
      ['inner', scaled(sphere(0.05, 0.02), 100, [0, 110, 0])],
      ['thing', watch],
    );
    const result = imported(scene);
    expect(volumeCm3(result)).toBeCloseTo(PERSON_VOLUME_CM3, 3);
    expect(stepsOf(result, 'skin-chosen')[0]!.names).toEqual(['body']);
    expect(
      stepsOf(result, 'part-dropped')
        .map(({ name, why }) => [name, why])
        .sort(([one], [other]) => one!.localeCompare(other!)),
    ).toEqual([
      ['eye_left', 'named'],
      ['inner', 'inside'],
      ['lashes', 'named'],
      ['thing', 'smaller'],
    ]);
  });

  it('a skin in several groups is one once its seams are joined', () => {
    const isUpper = (t: number): boolean => middleHeight(person, t) > 100;
    const scene = sceneOf(
      ['upper', without(person, (t) => !isUpper(t))],
      ['lower', without(person, isUpper)],
    );
    const result = imported(scene);
    expect(volumeCm3(result)).toBeCloseTo(PERSON_VOLUME_CM3, 3);
    expect(stepsOf(result, 'skin-chosen')[0]!.names).toEqual(['upper', 'lower']);
    expect(stepsOf(result, 'welded')[0]!.equalCount).toBeGreaterThan(100);
    // Only one of them, when asked.
    const upper = imported(scene, { part: 0 });
    expect(stepsOf(upper, 'part-dropped').map(({ name, why }) => [name, why])).toEqual([
      ['lower', 'not chosen'],
    ]);
  });

  it('a part that is not there, and axes that lie along one another, are refused', () => {
    expect(faultOf(() => imported(sceneOf(['body', person]), { part: 3 })).code).toBe('body/no-such-part');
    expect(faultOf(() => imported(sceneOf(['body', person]), { up: '+z' })).code).toBe(
      'body/axes-not-square',
    );
    expect(faultOf(() => imported(sceneOf(['body', person]), { unit: 'm' })).code).toBe('body/wrong-size');
    const floor = scaled(person, 1);
    floor.positions[0] = 900;
    expect(faultOf(() => imported(sceneOf(['body', floor]))).code).toBe('body/too-wide');
  });
});

describe('mending', () => {
  it('joins what a soup of triangles leaves apart, within a hair too', () => {
    const random = seededRandom(5);
    const soup = {
      positions: Float64Array.from(
        [...person.triangles].flatMap((v) =>
          // Up to 0.02 mm off, as a file of few digits has it.
          Array.from(
            person.positions.subarray(3 * v, 3 * v + 3),
            (value) => value + 0.002 * (random() - 0.5),
          ),
        ),
      ),
      triangles: Uint32Array.from(person.triangles, (_, corner) => corner),
    };
    const result = imported(sceneOf(['soup', soup]));
    expect(result.mesh.positions).toHaveLength(person.positions.length);
    expect(volumeCm3(result) / PERSON_VOLUME_CM3).toBeCloseTo(1, 3);
    expect(stepsOf(result, 'welded')[0]!.nearCount).toBe(
      soup.positions.length / 3 - person.positions.length / 3,
    );
  });

  it('turns every third face back, and a whole skin that faces inwards', () => {
    const turned = (isTurned: (t: number) => boolean): TriangleMesh => {
      const triangles = person.triangles.slice();
      for (let t = 0; t < triangles.length / 3; t++)
        if (isTurned(t))
          [triangles[3 * t], triangles[3 * t + 1]] = [triangles[3 * t + 1]!, triangles[3 * t]!];
      return { positions: person.positions, triangles };
    };
    const some = imported(sceneOf(['body', turned((t) => t % 3 === 0)]));
    expect(volumeCm3(some)).toBeCloseTo(PERSON_VOLUME_CM3, 3);
    expect(stepsOf(some, 'faces-turned')).toEqual([
      { triangleCount: Math.ceil(person.triangles.length / 9), whole: false },
    ]);
    const all = imported(sceneOf(['body', turned(() => true)]));
    expect(stepsOf(all, 'faces-turned')[0]!.whole).toBe(true);
    expect(volumeCm3(all)).toBeCloseTo(PERSON_VOLUME_CM3, 3);
  });

  it('removes faces without area and faces that are there twice, from either side', () => {
    const [a, b, c] = person.triangles;
    const mesh = {
      positions: person.positions,
      triangles: Uint32Array.from([...person.triangles, a!, a!, b!, b!, a!, c!, a!, b!, c!]),
    };
    const result = imported(sceneOf(['body', mesh]));
    expect(stepsOf(result, 'faces-removed')).toEqual([{ flatCount: 1, doubledCount: 2 }]);
    expect(result.mesh.triangles).toHaveLength(person.triangles.length);
  });

  it('cuts a fin loose and parts sheets that touch along an edge', () => {
    const [a, b] = person.triangles;
    const fin = {
      positions: Float64Array.from([...person.positions, -30, -20, 5]),
      triangles: Uint32Array.from([...person.triangles, a!, b!, person.positions.length / 3]),
    };
    const result = imported(sceneOf(['body', fin]));
    expect(volumeCm3(result)).toBeCloseTo(PERSON_VOLUME_CM3, 3);
    expect(result.report.closed).toBe(true);
    expect(stepsOf(result, 'part-dropped')[0]!.triangleCount).toBe(1);
  });

  it('closes the cuts at the neck and the wrists flat, and small holes, with triangles like those around', () => {
    // Cut flat at y = 146 (the neck, 8 by 8 cm) and at x = +-70 (the arms, 8 by 8 cm), and one square out of the back.
    const back = person.triangles.findIndex(
      (_, i) =>
        i % 6 === 0 &&
        [0, 2, 4].every((k) => person.positions[3 * person.triangles[i + k]! + 2] === -10) &&
        middleHeight(person, i / 3) > 100,
    );
    const isGone = (t: number): boolean => {
      const xs = [0, 1, 2].map((k) => Math.abs(person.positions[3 * person.triangles[3 * t + k]!]!));
      return middleHeight(person, t) > 146 || Math.min(...xs) >= 70 || t >> 1 === back / 6;
    };
    const open = without(person, isGone);
    const result = imported(sceneOf(['body', open]));
    // What was cut off: 4 cm of neck, the head, 6 cm of each arm; every cap is flat where the cut is.
    const expected = PERSON_VOLUME_CM3 - 4 * 64 - 16 * 22 * 18 - 2 * 6 * 64;
    const holes = stepsOf(result, 'hole');
    expect(holes).toHaveLength(4);
    expect(holes.every(({ done }) => done === 'closed')).toBe(true);
    expect(holes.map(({ perimeterMm }) => Math.round(perimeterMm)).sort((x, y) => x - y)).toEqual([
      80, 320, 320, 320,
    ]);
    expect(volumeCm3(result)).toBeCloseTo(expected, 3);
    const edges = meshEdges(result.mesh);
    requireClosed(result.mesh, edges);
    // A square of 8 cm in squares of 2 cm had 32 triangles of 2 cm^2; the caps' are of that order.
    const cap = [...triangleAreas(result.mesh)].slice(open.triangles.length / 3);
    expect(Math.max(...cap)).toBeLessThan(4e-4);
    expect(Math.min(...cap)).toBeGreaterThan(0.3e-4);
    expect(() => makeMeshBody({ skin: result.mesh, sourceUp: 'y', tissue: 'rigid' })).not.toThrow();
  });

  it('leaves holes open when asked, and a hole that is half the person in any case', () => {
    const isFront = (t: number): boolean =>
      [0, 1, 2].every((k) => person.positions[3 * person.triangles[3 * t + k]! + 2]! >= 10) &&
      middleHeight(person, t) < 144;
    const open = without(person, isFront);
    expect(stepsOf(imported(sceneOf(['body', open]), { closeHoles: false }), 'hole')[0]!.done).toBe('left');
    const wide = imported(sceneOf(['body', open]));
    expect(stepsOf(wide, 'hole').map(({ done }) => done)).toContain('too wide');
    expect(wide.report.closed).toBe(false);
    expect(sayImportSteps(wide.report.steps).join(' ')).toMatch(/too wide/);
  });

  it('counts cuts through itself: one leg pushed through the other', () => {
    const crossed = person.positions.slice();
    for (let i = 0; i < crossed.length; i += 3)
      if (crossed[i]! > 0 && crossed[i + 1]! < 40)
        crossed.set([crossed[i]! - 11, crossed[i + 1]! + 0.7, crossed[i + 2]! + 1], i);
    const result = imported(sceneOf(['body', { positions: crossed, triangles: person.triangles }]));
    const { pairCount, at, complete } = stepsOf(result, 'self-intersections')[0]!;
    expect(pairCount).toBeGreaterThan(50);
    expect(complete).toBe(true);
    expect(at!.yMm).toBeLessThan(420);
    expect(sayImportSteps(result.report.steps).join(' ')).toMatch(
      /cut through one another, one of them at x/,
    );
  });

  it('rounds a coarse ball and a coarse cylinder out to what they are', () => {
    const radius = 0.2;
    const ball = sphere(radius, 0.04);
    const result = imported(sceneOf(['ball', ball]), { unit: 'm', refineEdgeMm: 12 });
    const [facts] = stepsOf(result, 'refined');
    expect(facts!.longestAfterMm).toBeLessThanOrEqual(12);
    const exact = (4 / 3) * Math.PI * radius ** 3;
    const before = 1 - enclosedVolume(ball) / exact;
    const after = 1 - enclosedVolume(result.mesh) / exact;
    // The facets took 2 % of the ball; the arcs give all but a twentieth of it back.
    expect(before).toBeGreaterThan(0.015);
    expect(Math.abs(after)).toBeLessThan(before / 20);
    const { positions } = result.mesh;
    for (let i = 0; i < positions.length; i += 3) {
      expect(Math.abs(Math.hypot(positions[i]!, positions[i + 1]!, positions[i + 2]!) - radius)).toBeLessThan(
        4e-4,
      );
    }
    requireClosed(result.mesh);
  });

  it('makes a closed ball of one that lost, turned, doubled and tore its faces (30 seeds)', () => {
    const ball = sphere(0.3, 0.05);
    const whole = enclosedVolume(ball);
    for (let seed = 1; seed <= 30; seed++) {
      const random = seededRandom(seed);
      const corners: number[] = [];
      for (let t = 0; t < ball.triangles.length / 3; t++) {
        const [a, b, c] = [...ball.triangles.subarray(3 * t, 3 * t + 3)] as [number, number, number];
        const fate = random();
        if (fate < 0.02) continue;
        if (fate < 0.3) corners.push(a, c, b);
        else corners.push(a, b, c);
        if (fate > 0.95) corners.push(b, c, a);
      }
      const triangles = Uint32Array.from(corners);
      const mesh = { positions: ball.positions, triangles };
      const soup = {
        positions: Float64Array.from(corners.flatMap((v) => [...ball.positions.subarray(3 * v, 3 * v + 3)])),
        triangles: triangles.map((_, corner) => corner),
      };
      const result = imported(sceneOf(['ball', seed % 2 === 0 ? mesh : soup]), { unit: 'm' });
      expect([seed, result.report.closed]).toEqual([seed, true]);
      requireClosed(result.mesh);
      // Each lost face cuts off a sliver only.
      expect(enclosedVolume(result.mesh) / whole).toBeGreaterThan(0.97);
      expect(enclosedVolume(result.mesh) / whole).toBeLessThan(1.001);
    }
  });

  it('tells all that it did in words, and leaves the scene as it was', () => {
    const scene = sceneOf(['body', person]);
    const copy = person.positions.slice();
    const { report } = imported(scene, { refineEdgeMm: 12 });
    expect(person.positions).toEqual(copy);
    for (const sentence of sayImportSteps(report.steps)) expect(sentence).toMatch(/^[A-Z].*\.$/);
    // The placing takes a point of the file to the body's: the tip of the left toe.
    const { scale, turn, shift } = report.placing;
    const toe = [14, 0, 16].map((_, k) => scale * (turn[3 * k]! * 14 + turn[3 * k + 2]! * 16) + shift[k]!);
    expect(toe.map((value) => Number(value.toFixed(9)))).toEqual([0.14, 0, 0.13]);
  });
});
