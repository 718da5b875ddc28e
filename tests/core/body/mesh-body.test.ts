import { describe, expect, it } from 'vitest';
import { NEAR_RIGID } from '../../../core/body/body.ts';
import { makeMeshBody } from '../../../core/body/mesh-body.ts';
import { turnBack, turnUp } from '../../../core/body/turn-up.ts';
import { Fault } from '../../../core/fault/fault.ts';
import { enclosedVolume } from '../../../core/mesh/triangle-areas.ts';
import type { TriangleMesh } from '../../../core/mesh/triangle-mesh.ts';
import { cylinder, ellipseCylinder, hourglass, sphere } from '../../help/shapes.ts';

const rigid = (skin: TriangleMesh) => makeMeshBody({ skin, sourceUp: 'y', tissue: 'rigid' });
const codeOf = (run: () => unknown): string => {
  try {
    run();
  } catch (error) {
    if (error instanceof Fault) return error.code;
    throw error;
  }
  return 'none';
};

const waist = hourglass([0.13, 0.105], 0.4, 0.01, { jitter: 0.3, seed: 3 });
const withTissue = (depth: number, foundationModulus: number) => () =>
  makeMeshBody({ skin: waist, sourceUp: 'y', tissue: { depth, foundationModulus } });

describe('makeMeshBody', () => {
  it('measures where the body is widest and narrowest: 2 pi R of the hourglass within 0.1 %', () => {
    // R = 0.1175 + 0.0125 cos(2 pi y/h): narrowest half way up; widest measured at a tenth of the height.
    const { girths, landmarks, regions } = rigid(waist);
    const girth = (name: string): { level: number; girth: number } =>
      girths.find((each) => each.name === name)!;
    expect(girth('smallestGirth').level).toBeCloseTo(0.2, 2);
    expect(Math.abs(girth('smallestGirth').girth / (2 * Math.PI * 0.105) - 1)).toBeLessThan(1e-3);
    const tenth = 0.1175 + 0.0125 * Math.cos(0.2 * Math.PI);
    expect(Math.abs(girth('largestGirth').girth / (2 * Math.PI * tenth) - 1)).toBeLessThan(1e-3);
    expect(Math.abs(girth('middle').girth / (2 * Math.PI * 0.105) - 1)).toBeLessThan(1e-3);
    expect(girths.map((each) => each.level)).toEqual(
      girths.map((each) => each.level).toSorted((one, other) => one - other),
    );
    // No person: nothing is named.
    expect(landmarks).toEqual({});
    expect(regions).toBe(null);
  });

  it('reads the girth of the ellipse 150 x 106.5 mm within 1 mm of 4 a E(e) = 811.62 mm', () => {
    const { girths } = rigid(ellipseCylinder([0.15, 0.1065], 0.3, 0.008, { jitter: 0.2, seed: 4 }));
    for (const { girth } of girths) expect(Math.abs(girth - 0.81162304)).toBeLessThan(0.001);
  });

  it('is as stiff as its tissue: modulus over depth, or nearly rigid', () => {
    const soft = makeMeshBody({
      skin: waist,
      sourceUp: 'z',
      tissue: { depth: 0.02, foundationModulus: 10_000 },
    });
    // 10 kPa over 20 mm: 0.5 kPa per mm = 5e5 Pa/m.
    expect(soft.foundation.every((stiffness) => stiffness === 5e5)).toBe(true);
    expect(soft.tissueDepth.every((depth) => depth === 0.02)).toBe(true);
    expect(soft.sourceUp).toBe('z');
    expect(soft.findings).toEqual([{ code: 'body/tissue-even', facts: { depthMm: 20, modulusKPa: 10 } }]);
    expect(rigid(waist).foundation.every((stiffness) => stiffness === NEAR_RIGID)).toBe(true);
    expect(rigid(waist).findings).toEqual([
      { code: 'body/taken-as-rigid', facts: { stiffnessKPaPerMm: 50 } },
    ]);
  });

  it('has a contact field that is zero on the true skin, negative inside, valid 60 mm beyond the box', () => {
    const { sample } = rigid(waist).contactField({ low: [-0.13, 0.15, -0.13], high: [0.13, 0.25, 0.13] });
    const into = new Float64Array(10);
    for (let angle = 0; angle < 6.28; angle += 0.1) {
      const at = (radius: number, y: number): number => {
        sample(radius * Math.cos(angle), y, radius * Math.sin(angle), into);
        return into[0]!;
      };
      expect(Math.abs(at(0.105, 0.2))).toBeLessThan(5e-5);
      expect(Math.abs(at(0.155, 0.2) - 0.05)).toBeLessThan(5e-4);
      expect(Math.abs(at(0.095, 0.2) + 0.01)).toBeLessThan(2e-4);
      // 50 mm above the box: R = 0.1175 + 0.0125 cos(1.5 pi) = 117.5 mm, the wall leaning 11 degrees.
      expect(Math.abs(at(0.1175, 0.3))).toBeLessThan(5e-5);
    }
  });

  it('turns a body that faces inwards, joins the seams of one that is cut along them', () => {
    const inward = { positions: waist.positions, triangles: waist.triangles.toReversed() };
    const turned = rigid(inward);
    expect(enclosedVolume(turned.skin)).toBeCloseTo(enclosedVolume(waist), 12);
    expect(turned.findings.map((finding) => finding.code)).toContain('body/turned-outward');
    const cut = {
      positions: Float64Array.from(
        [...waist.triangles].flatMap((v) => Array.from(waist.positions.subarray(3 * v, 3 * v + 3))),
      ),
      triangles: Uint32Array.from(waist.triangles, (_, i) => i),
    };
    const joined = rigid(cut);
    expect(joined.skin.positions.length).toBe(waist.positions.length);
    expect(joined.findings.map((finding) => finding.code)).toContain('body/joined-vertices');
  });

  it('refuses what is no body', () => {
    expect(codeOf(() => rigid(cylinder(0.1, 0.3, 0.02, { closed: false })))).toBe('mesh/open');
    const metres = sphere(100, 30);
    expect(codeOf(() => rigid(metres))).toBe('body/wrong-size');
    expect(codeOf(withTissue(0, 1e4))).toBe('body/bad-tissue');
    expect(codeOf(withTissue(0.02, NaN))).toBe('body/bad-tissue');
    expect(codeOf(withTissue(0.02, 10))).toBe('body/bad-tissue');
  });

  it('says when the skin is coarse or in pieces', () => {
    const coarse = rigid(sphere(0.2, 0.05));
    expect(coarse.findings.map((finding) => finding.code)).toContain('body/coarse-skin');
    const vertexCount = waist.positions.length / 3;
    const pair = {
      positions: Float64Array.from([
        ...waist.positions,
        ...waist.positions.map((p, i) => p + (i % 3 === 0 ? 0.5 : 0)),
      ]),
      triangles: Uint32Array.from([...waist.triangles, ...waist.triangles.map((v) => v + vertexCount)]),
    };
    expect(rigid(pair).findings).toContainEqual({ code: 'body/several-pieces', facts: { pieceCount: 2 } });
  });
});

describe('turnUp', () => {
  const mesh = cylinder(0.05, 0.2, 0.03);

  it.each(['x', 'y', 'z'] as const)('points %s up, keeps faces outward, and turns back exactly', (up) => {
    // A rotation keeps the sign of the volume; a mirror would not.
    const turned = turnUp(mesh, up);
    expect(enclosedVolume(turned)).toBeCloseTo(enclosedVolume(mesh), 15);
    expect([...turnBack(turned, up).positions].map((value) => value + 0)).toEqual(
      [...mesh.positions].map((value) => value + 0),
    );
    const axis = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] }[up];
    const arrow = turnUp({ positions: Float64Array.from(axis), triangles: new Uint32Array() }, up);
    expect([...arrow.positions].map((value) => value + 0)).toEqual([0, 1, 0]);
  });

  it('takes a body that faces -y with z up to one that faces +z', () => {
    const nose = turnUp({ positions: Float64Array.from([0, -1, 0]), triangles: new Uint32Array() }, 'z');
    expect([...nose.positions].map((value) => value + 0)).toEqual([0, 0, 1]);
  });
});
